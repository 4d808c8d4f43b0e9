/** Fixes of findings, at their words. */
import { CodeActionKind } from 'vscode-languageserver';
import type { Finding } from '../../rules/rule.ts';
import type { Offered } from './offered.ts';

export function fixes(finding: Finding): Offered[] {
  const only = finding.fixes.filter(({ safe }) => safe).length === 1;
  return finding.fixes.map(({ title, safe, edits }) => ({
    title,
    kind: CodeActionKind.QuickFix,
    finding,
    // Preferred is what a key press applies unseen: only where there is one safe way.
    ...(safe && only ? { preferred: true } : {}),
    edits,
  }));
}
