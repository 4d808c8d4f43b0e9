/**
 * Accepting a finding: an `allow` line behind its statement. The reason is left empty: until the person who accepts has written it,
 * nothing is accepted, and that it is missing is told.
 */
import { CodeActionKind } from 'vscode-languageserver';
import type { Analysis } from '../../analysis.ts';
import { allRules } from '../../rules/all.ts';
import type { Finding } from '../../rules/rule.ts';
import { statementBefore } from '../at.ts';
import type { Offered } from './offered.ts';
import { tidied } from './patched.ts';
import { behind, spanOf } from './statements.ts';

const groups = new Map(allRules.map((rule) => [rule.slug, rule.group]));

export function accept(analysis: Analysis, finding: Finding): Offered[] {
  const { slug, subject, place } = finding;
  const group = groups.get(slug);
  // What cannot be read cannot be accepted, nor can an acceptance itself.
  if (group === undefined || group === 'language' || group === 'spec') return [];
  const statement = statementBefore(analysis, place.span.start);
  if (statement === undefined || place.span.start >= spanOf(statement).end) return [];
  const words = `allow ${slug}${subject === undefined ? '' : ` on ${subject}`}`;
  return [
    {
      title: `Accept it, with a reason to fill in: ${words}`,
      kind: CodeActionKind.QuickFix,
      finding,
      // What shared a column across this place shares it no more.
      edits: () => tidied(analysis, [behind(analysis, statement, [`${words} ""`])]),
    },
  ];
}
