/**
 * Open documents, their texts in blocks, so that an edit of a long one copies little. Lines are counted as the protocol does: a
 * `\r` alone ends one, and is read as `\n`.
 */
import type { TextDocumentContentChangeEvent, TextDocumentsConfiguration } from 'vscode-languageserver';
import { LineIndex } from '../../grammar/lines.ts';
import { TextInBlocks } from '../../grammar/text-in-blocks.ts';

export interface OpenDocument {
  readonly uri: string;
  readonly version: number;
  /** As it is read. */
  readonly text: TextInBlocks;
  /** As the client has it. */
  readonly written: TextInBlocks;
}

export const openDocuments: TextDocumentsConfiguration<OpenDocument> = {
  create: (uri, _language, version, content) => opened(uri, version, TextInBlocks.of(content)),
  update: ({ uri, written }, changes, version) => opened(uri, version, changes.reduce(changed, written)),
};

function opened(uri: string, version: number, written: TextInBlocks): OpenDocument {
  return { uri, version, text: written.withLineFeeds(), written };
}

function changed(written: TextInBlocks, change: TextDocumentContentChangeEvent): TextInBlocks {
  if (!('range' in change)) return TextInBlocks.of(change.text);
  const lines = new LineIndex(written.withLineFeeds());
  const [start, end] = [lines.offset(change.range.start), lines.offset(change.range.end)];
  // Some clients say a range from its end to its beginning.
  return written.edited(Math.min(start, end), Math.max(start, end), change.text);
}
