/** Completion: what may be written at the pointer, and nothing else. */
import type { CompletionItem } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';

export interface CompletionOptions {
  readonly snippets: boolean;
  readonly markdown: boolean;
}

export function completion(_analysis: Analysis, _offset: number, _options: CompletionOptions): CompletionItem[] {
  return [];
}
