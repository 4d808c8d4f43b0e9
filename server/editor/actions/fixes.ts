/** Fixes of findings, at their words. */
import { CodeActionKind } from 'vscode-languageserver';
import type { Analysis } from '../../analysis.ts';
import type { Finding, Fix } from '../../rules/rule.ts';
import type { Offered } from './offered.ts';

export function fixes(analysis: Analysis, finding: Finding): Offered[] {
  const changing = finding.fixes.filter((fix) => changesText(analysis, fix));
  const only = changing.filter(({ safe }) => safe).length === 1;
  return changing.map(({ title, safe, edits }) => ({
    title,
    kind: CodeActionKind.QuickFix,
    finding,
    // Preferred is what a key press applies unseen: only where there is one safe way.
    ...(safe && only ? { preferred: true } : {}),
    edits,
  }));
}

/** What is written already, in a statement that is wrong in another way, is no mend. */
export function changesText(analysis: Analysis, { edits }: Fix): boolean {
  return edits.some(({ place: { uri, span }, newText }) => {
    const text = uri === analysis.uri ? analysis.text : analysis.files.find((file) => file.uri === uri)?.text;
    return text?.slice(span.start, span.end) !== newText;
  });
}
