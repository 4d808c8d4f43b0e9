/** Statements by their word, and what those must say that are neither parts nor runs. */
import type { Builder } from './builder.ts';
import type { Origin, SpecFile } from './model.ts';
import { isBroken, placeIn, problem } from './place.ts';
import { requireClauses } from './required.ts';
import { ownFacts } from './stock.ts';

export function* statementsOf(files: readonly SpecFile[], word: string): Generator<Origin> {
  for (const file of files)
    for (const statement of file.statements)
      if ((statement.shaped.wrapper ?? statement.shaped.spec)?.word === word) yield { file, statement };
}

/** Words whose required clauses are asked for here; parts and runs are asked once their stock is known. */
const asked: ReadonlySet<string> = new Set(['system', 'place', 'case', 'expect', 'reading', 'link', 'use']);

export function requireInStatements(builder: Builder): void {
  for (const file of builder.read.files) {
    for (const statement of file.statements) {
      const { spec, wrapper } = statement.shaped;
      const origin = { file, statement };
      if (
        spec === undefined ||
        wrapper !== undefined ||
        isBroken(origin) ||
        builder.beyond.toldElsewhere.has(statement)
      )
        continue;
      if (asked.has(spec.word)) requireClauses(builder, origin, spec, ownFacts(origin));
      else if (spec.word === 'allow') requireReason(builder, origin);
    }
  }
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
