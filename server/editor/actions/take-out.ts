/** A part that is joined to nothing and that nothing names: its statement goes, unless something is noted beside it. */
import { CodeActionKind } from 'vscode-languageserver';
import type { Finding } from '../../rules/rule.ts';
import type { Asked, Offered } from './offered.ts';
import { tidied } from './patched.ts';
import { isSound, rewritten } from './statements.ts';

const ofUnused: ReadonlySet<string> = new Set(['part-never-used', 'terminal-unconnected']);

export function takeOut({ analysis, users }: Asked, finding: Finding): Offered[] {
  const { slug, subject: name } = finding;
  if (!ofUnused.has(slug) || name === undefined) return [];
  const part = analysis.model.parts.get(name);
  if (part === undefined || part.origin.file.uri !== analysis.uri) return [];
  const { statement } = part.origin;
  const { names, comments } = statement.node;
  if (names.length > 1 || comments.length > 0 || statement.notes !== '' || !isSound(statement)) return [];
  const uses = [analysis, ...users].flatMap(({ model }) => model.usesOf(name));
  if (uses.some(({ declaration }) => !declaration)) return [];
  return [
    {
      title: `Take ${name} out: nothing is joined to it or names it`,
      kind: CodeActionKind.QuickFix,
      finding,
      edits: () => tidied(analysis, [rewritten(statement, '')]),
    },
  ];
}
