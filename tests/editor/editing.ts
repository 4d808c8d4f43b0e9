/** Applying what an editor is offered, as an editor would, and reading the spec again. */
import type { TextEdit, WorkspaceEdit } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { type Analysis, analyse } from '../../server/analysis.ts';
import { memorySource, specUri } from '../analysed.ts';

export type Files = Readonly<Record<string, string>>;

/** Throws where edits overlap, as an editor refuses them. */
export function edited(text: string, edits: readonly TextEdit[]): string {
  const document = TextDocument.create('', '', 0, text);
  const spans = edits
    .map(({ range }) => ({ start: document.offsetAt(range.start), end: document.offsetAt(range.end) }))
    .sort((a, b) => a.start - b.start);
  spans.forEach((span, n) => {
    const next = spans[n + 1];
    if (next !== undefined && next.start < span.end) throw new Error('edits overlap');
  });
  return TextDocument.applyEdits(document, [...edits]);
}

export function editedFiles(files: Files, edit: WorkspaceEdit | undefined): Record<string, string> {
  const result = { ...files };
  for (const [uri, edits] of Object.entries(edit?.changes ?? {})) {
    const name = uri.replace('memory:///', '');
    const text = result[name];
    if (text === undefined) throw new Error(`an edit of ${uri}, which is not there`);
    result[name] = edited(text, edits);
  }
  return result;
}

export const analyseFiles = (files: Files): Analysis => analyse(specUri, memorySource(files));
