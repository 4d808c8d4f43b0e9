/** Clauses that a statement says twice. */
import { problem, quoted, replace } from './phrases.ts';
import type { ClauseNode } from './shaped.ts';
import type { Problem, ProblemFix, Span, StatementNode } from './tree.ts';

/** Clauses whose id does not say what they say. */
const toldAs: Readonly<Record<string, string>> = {
  at: 'place',
  in: 'enclosure',
  along: 'way',
  ends: 'pair of ends',
  what: 'expectation',
};

/** Those that only a repair made fit are said, but not counted against others. */
export function saidTwice(
  clauses: readonly ClauseNode[],
  repaired: ReadonlySet<ClauseNode>,
  node: StatementNode,
): Problem[] {
  const written = ({ span }: ClauseNode) => node.text.slice(span.start, span.end).replace(/\s+/g, ' ');
  const told = ({ spec: { id } }: ClauseNode) => toldAs[id] ?? id.replaceAll('-', ' ');
  const are = (name: string) => (/[^s]s$/.test(name) ? 'are' : 'is');
  const seen = new Map<string, ClauseNode>();
  const found: Problem[] = [];
  for (const clause of clauses) {
    if (clause.spec.repeatable === true || repaired.has(clause)) continue;
    // Of a group (a load's power, current or resistance) one is said.
    const key = clause.spec.oneOf ?? clause.spec.id;
    const first = seen.get(key);
    if (first === undefined) {
      seen.set(key, clause);
      continue;
    }
    if (first.spec.id !== clause.spec.id) {
      const message = `${quoted(written(first))} and ${quoted(written(clause))} both say what it takes, and nothing chooses between them: keep one.`;
      found.push(problem('clause-twice', clause.span, message, takenOut(clause, written(clause), node)));
      continue;
    }
    const same = written(first) === written(clause);
    found.push(
      problem(
        'clause-twice',
        clause.span,
        same
          ? `${quoted(written(clause))} stands here twice: keep one.`
          : `Its ${told(clause)} ${are(told(clause))} said twice, ${written(first)} and ${written(clause)}; only the first counts: keep one.`,
        takenOut(clause, written(clause), node),
      ),
    );
  }
  return found;
}

function takenOut(clause: ClauseNode, written: string, node: StatementNode): ProblemFix[] {
  const span = withSeparator(clause, node);
  return span === undefined ? [] : [replace(`Take ${written} out`, span, '', false)];
}

/** A clause with the comma or line end before it; undefined where a comment between them would be taken out too. */
export function withSeparator({ span }: ClauseNode, { text, comments }: StatementNode): Span | undefined {
  let before = span.start;
  while (before > 0 && /[\s,]/.test(text[before - 1] ?? '')) before--;
  // Only where a line does not end in a comment, whose words would otherwise come to stand before the next clause.
  const isComment = comments.some((comment) => comment.span.end === before);
  return isComment ? undefined : { start: before, end: span.end };
}
