/** Statements by their word, and what those must say that are neither parts nor runs. */
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import type { Builder } from './builder.ts';
import type { Origin } from './model.ts';
import { placeIn, problem } from './place.ts';
import { requireClauses } from './required.ts';
import { ownFacts } from './stock.ts';

/** Of the spec's own file only where `own`. */
export function statementsOf({ read, kept }: Builder, word: string, own = false): Origin[] {
  const origins: Origin[] = [];
  for (const file of own ? read.files.slice(0, 1) : read.files)
    for (const statement of file.statements)
      if ((statement.shaped.wrapper ?? statement.shaped.spec)?.word === word)
        origins.push(kept.origin(file, statement));
  return origins;
}

/** Words whose required clauses are asked for here; parts and runs are asked once their stock is known. */
const asked: ReadonlySet<string> = new Set(['system', 'place', 'case', 'expect', 'reading', 'link', 'use']);

export function requireInStatements(builder: Builder): void {
  const { read, beyond, kept, lookups } = builder;
  for (const file of read.files) {
    const check = (statement: ShapedPlaced) => requireIn(builder, kept.origin(file, statement));
    for (const statement of file.statements) {
      const { spec, wrapper, problems } = statement.shaped;
      if (
        spec === undefined ||
        wrapper !== undefined ||
        problems.length > 0 ||
        !(asked.has(spec.word) || spec.word === 'allow') ||
        beyond.toldElsewhere.has(statement)
      )
        continue;
      kept.complete.of(statement, lookups, check);
    }
  }
}

function requireIn(builder: Builder, origin: Origin): true {
  const { spec } = origin.statement.shaped;
  if (spec?.word === 'allow') requireReason(builder, origin);
  else if (spec !== undefined) requireClauses(builder, origin, spec, ownFacts(origin));
  return true;
}

/** An accepted finding without its reason is worth nothing to whoever reads the spec later. */
function requireReason(builder: Builder, origin: Origin): void {
  const { clauses, spec } = origin.statement.shaped;
  const finding = clauses.find(({ spec: { id } }) => id === 'finding');
  if (finding === undefined) {
    if (spec !== undefined) requireClauses(builder, origin, spec, ownFacts(origin));
    return;
  }
  // Quotes with nothing in them are no reason.
  const isSaid = (text: string) => /[^"\s]/u.test(text);
  if (clauses.some(({ spec: { id }, values }) => id === 'reason' && values.some(({ atom }) => isSaid(atom.text))))
    return;
  const slug = finding.values[0]?.atom.text ?? '';
  builder.problems.push(
    problem(
      'missing-required-clause',
      placeIn(origin, finding.span),
      `Say why ${slug} is accepted, in quotes behind it: whoever reads this in two years will want to know.`,
      {
        subject: slug,
        figures: { missing: 'reason' },
      },
    ),
  );
}
