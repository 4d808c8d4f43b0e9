/** Answers looked up the way hovers ask: all cases of a core or a part, and the worst of them. */
import type { Answers, CaseAnswer, CoreInCase, PartInCase } from '../../answers/answers.ts';
import type { Core, Part } from '../../model/model.ts';
import { amps, dropVolts, percent, volts, watts } from '../figures.ts';
import { type Block, line, quiet, table } from '../markup.ts';

export interface CoreCase {
  readonly answer: CaseAnswer;
  readonly figures: CoreInCase;
}

const coreCases = new WeakMap<Answers, Map<Core, CoreCase[]>>();

/** Figures of a core in every case that has an answer. */
export function casesOfCore(answers: Answers, core: Core): readonly CoreCase[] {
  let index = coreCases.get(answers);
  if (index === undefined) {
    index = new Map();
    for (const answer of answers.cases) {
      if (!answer.converged) continue;
      for (const figures of answer.cores) {
        const list = index.get(figures.core) ?? [];
        list.push({ answer, figures });
        index.set(figures.core, list);
      }
    }
    coreCases.set(answers, index);
  }
  return index.get(core) ?? [];
}

/** The case in which a core carries most; of equals the first. */
export function worstOfCore(answers: Answers, core: Core): CoreCase | undefined {
  let worst: CoreCase | undefined;
  for (const one of casesOfCore(answers, core))
    if (worst === undefined || Math.abs(one.figures.amps) > Math.abs(worst.figures.amps)) worst = one;
  return worst;
}

const columns: readonly { readonly head: string; readonly of: (part: PartInCase) => string }[] = [
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
  const shown = columns.filter(({ of }) => rows.some((row) => of(row.part) !== ''));
  return table(
    ['case', ...shown.map(({ head }) => head)],
    rows.map((row) => [row.name, ...shown.map(({ of }) => of(row.part))]),
  );
}

/** Which cases have no answer, and why: a missing row must not look like nothing flowing. */
export function troubles(answers: Answers): Block[] {
  return answers.cases
    .filter(({ converged }) => !converged)
    .map(({ name, trouble }) => line(quiet(`No answer in ${name}: ${trouble ?? 'the wiring cannot feed its loads'}.`)));
}
