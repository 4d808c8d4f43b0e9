/** Asking for actions at a marked place, and what comes of choosing one. */
import type { CodeAction } from 'vscode-languageserver';
import type { Analysis } from '../../../server/analysis.ts';
import { type CodeActionOptions, codeActions, resolveCodeAction } from '../../../server/editor/code-actions.ts';
import { analyseText } from '../../analysed.ts';
import { editedFiles, type Files } from '../editing.ts';

export function optionsFor(files: Files = {}): CodeActionOptions {
  return {
    pageUri: (slug) => `page:/${slug}.md`,
    relatedInformation: true,
    tags: true,
    again: (text) => analyseText(text, files),
  };
}

export interface Offering {
  readonly text: string;
  readonly analysis: Analysis;
  readonly actions: readonly CodeAction[];
  /** The text once the one action is chosen whose title begins so, by its edit at once and by the one asked for later. */
  chosen(title: string): string;
}

/** Actions at the `|` of a text, or over what stands between two of them. */
export function offering(marked: string, kind: string, files: Files = {}): Offering {
  const [before = '', middle, after] = marked.split('|');
  if (middle === undefined) throw new Error('no | in the text');
  const text = before + middle + (after ?? '');
  const start = before.length;
  const span = { start, end: after === undefined ? start : start + middle.length };
  const analysis = analyseText(text, files);
  const options = { ...optionsFor(files), only: [kind] };
  const actions = codeActions(analysis, span, options);
  return {
    text,
    analysis,
    actions,
    chosen(title) {
      const found = actions.filter((one) => one.title.startsWith(title));
      const [action] = found;
      if (action === undefined || found.length > 1)
        throw new Error(`${found.length} of ${title}: ${actions.map((one) => one.title).join(' | ')}`);
      const later = codeActions(analysis, span, { ...options, resolves: true }).find(
        (one) => one.title === action.title,
      );
      const edit = later?.edit ?? resolveCodeAction(analysis, action, span, options);
      const results = [action.edit, edit].map((one) => editedFiles({ ...files, 'spec.amps': text }, one)['spec.amps']);
      if (results[0] !== results[1]) throw new Error('an edit asked for later is another');
      return results[0] ?? '';
    },
  };
}

export const titles = ({ actions }: Offering): string[] => actions.map(({ title }) => title);
