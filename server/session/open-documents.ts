/** Open documents, their texts in blocks, so that an edit of a long one copies little. Lines are counted as the protocol does. */
import type { TextDocumentContentChangeEvent, TextDocumentsConfiguration } from 'vscode-languageserver';
import { asInEditor, LineIndex } from '../../grammar/lines.ts';
import { TextInBlocks } from '../../grammar/text-in-blocks.ts';

export interface OpenDocument {
  readonly uri: string;
  readonly version: number;
  readonly text: TextInBlocks;
}

export const openDocuments: TextDocumentsConfiguration<OpenDocument> = {
  create: (uri, _language, version, content) => ({ uri, version, text: TextInBlocks.of(content) }),
  update: ({ uri, text }, changes, version) => ({ uri, version, text: changes.reduce(changed, text) }),
};

function changed(text: TextInBlocks, change: TextDocumentContentChangeEvent): TextInBlocks {
  if (!('range' in change)) return TextInBlocks.of(change.text);
  const lines = new LineIndex(text, asInEditor);
  const [start, end] = [lines.offset(change.range.start), lines.offset(change.range.end)];
  // Some clients say a range from its end to its beginning.
  return text.edited(Math.min(start, end), Math.max(start, end), change.text);
}
