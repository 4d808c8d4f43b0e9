/** Answers looked up the way hovers ask: all cases of a core or a part, and the worst of them. */
import type { Answers, CaseAnswer, CoreInCase, PartInCase } from '../../answers/answers.ts';
import type { Core, Part } from '../../model/model.ts';
import { amps, dropVolts, percent, volts, watts } from '../../reports/figures.ts';
import { type Block, line, quiet, table } from '../markup.ts';

export interface CoreCase {
  readonly answer: CaseAnswer;
  readonly figures: CoreInCase;
}

/** Figures of a core in every case that has an answer. */
export function casesOfCore({ cases }: Pick<Answers, 'cases'>, core: Core): readonly CoreCase[] {
  return cases.flatMap((answer) => {
    const figures = answer.coreIn(core);
    return figures === undefined ? [] : [{ answer, figures }];
  });
}

export function worstOfCore(answers: Answers, core: Core): CoreCase | undefined {
  let worst: CoreCase | undefined;
  for (const one of casesOfCore(answers, core))
    if (worst === undefined || Math.abs(one.figures.amps) > Math.abs(worst.figures.amps)) worst = one;
  return worst;
}

interface Column {
  readonly head: string;
  readonly of: (part: Side) => string;
}

type Side = Pick<PartInCase, 'volts' | 'amps' | 'watts' | 'dropVolts' | 'dropPercent'>;

const columns: readonly Column[] = [
  { head: 'voltage', of: (part) => volts(part.volts) },
  { head: 'current', of: (part) => amps(part.amps) },
  { head: 'power', of: (part) => watts(part.watts) },
  { head: 'drop', of: (part) => dropVolts(part.dropVolts) },
  { head: 'drop %', of: (part) => percent(part.dropPercent) },
];

/** A part case by case: the columns it has figures for. */
export function caseTable(answers: Answers, part: Part): Block[] {
  const rows = answers.cases
    .filter(({ converged }) => converged)
    .map(({ name, parts }) => ({ name, part: parts.get(part.name) }))
    .filter((row): row is { name: string; part: PartInCase } => row.part !== undefined);
  // What converts has two sides, and a voltage must say which it is of.
  const converts = rows.some((row) => row.part.input !== undefined) || part.kind.word === 'controller';
  return [
    ...sideTable(
      converts ? 'output ' : '',
      rows.map((row) => [row.name, row.part]),
    ),
    ...sideTable(
      'input ',
      rows.flatMap((row): [string, Side][] => (row.part.input === undefined ? [] : [[row.name, row.part.input]])),
    ),
  ];
}

function sideTable(side: string, rows: readonly (readonly [string, Side])[]): Block[] {
  const shown = columns.filter(({ of }) => rows.some(([, figures]) => of(figures) !== ''));
  return table(
    ['case', ...shown.map(({ head }) => `${side}${head}`)],
    rows.map(([name, figures]) => [name, ...shown.map(({ of }) => of(figures))]),
  );
}

/** Which cases have no answer, and why: a missing row must not look like nothing flowing. */
export function troubles(answers: Answers): Block[] {
  return answers.cases
    .filter(({ converged }) => !converged)
    .map(({ name, trouble }) => line(quiet(`No answer in ${name}: ${trouble ?? 'the wiring cannot feed its loads'}.`)));
}
