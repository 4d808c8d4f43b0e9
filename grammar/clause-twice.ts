/** Clauses that a statement says twice. */
import { problem, quoted, replace } from './phrases.ts';
import type { ClauseNode } from './shaped.ts';
import type { Problem, ProblemFix, StatementNode } from './tree.ts';

/** Clauses whose id does not say what they say. */
const toldAs: Readonly<Record<string, string>> = { at: 'place', in: 'enclosure', along: 'way', ends: 'pair of ends' };

/** Those that only a repair made fit are said, but not counted against others. */
export function saidTwice(
  clauses: readonly ClauseNode[],
  repaired: ReadonlySet<ClauseNode>,
  node: StatementNode,
): Problem[] {
  const written = ({ span }: ClauseNode) => node.text.slice(span.start, span.end).replace(/\s+/g, ' ');
  const seen = new Map<string, ClauseNode>();
  const found: Problem[] = [];
  for (const clause of clauses) {
    if (clause.spec.repeatable === true || repaired.has(clause)) continue;
    const first = seen.get(clause.spec.id);
    if (first === undefined) {
      seen.set(clause.spec.id, clause);
      continue;
    }
    const same = written(first) === written(clause);
    found.push(
      problem(
        'clause-twice',
        clause.span,
        same
          ? `${quoted(written(clause))} stands here twice: keep one.`
          : `Its ${toldAs[clause.spec.id] ?? clause.spec.id.replaceAll('-', ' ')} is said twice, ${written(first)} and ${written(clause)}; only the first counts: keep one.`,
        takenOut(clause, written(clause), node),
      ),
    );
  }
  return found;
}

/** Takes a clause out with the comma or line end before it; not where a comment between them would go too. */
function takenOut({ span }: ClauseNode, written: string, { text, comments }: StatementNode): ProblemFix[] {
  let before = span.start;
  while (before > 0 && /[\s,]/.test(text[before - 1] ?? '')) before--;
  // Only where a line does not end in a comment, whose words would otherwise come to stand before the next clause.
  const isComment = comments.some((comment) => comment.span.end === before);
  return isComment ? [] : [replace(`Take ${written} out`, { start: before, end: span.end }, '', false)];
}
