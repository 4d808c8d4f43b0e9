/** A run: what it is made of, what each core carries, what that is good for and why, and what protects it. */
import type { Analysis } from '../../analysis.ts';
import type { CoreFigures } from '../../answers/answers.ts';
import type { Core, Passage, Run } from '../../model/model.ts';
import type { Capacity } from '../../physics/limits/limit-set.ts';
import { amps, celsius, dropVolts, factor, listed, lowered, milliohms, watts } from '../../reports/figures.ts';
import { cite } from '../../tables/table.ts';
import { type Block, line, list, quiet, table } from '../markup.ts';
import { accepted, heading, said } from './about.ts';
import { troubles, worstOfCore } from './cases.ts';
import { chosenFor } from './chosen.ts';
import { runFaultLines } from './faults.ts';
import { flowLines } from './flow.ts';
import { protectedBy, share } from './protection.ts';

const coreClauses = new Set(['colour', 'core', 'ends', 'spare', 'enters']);

export function runHover(analysis: Analysis, run: Run): Block[] {
  const { answers } = analysis;
  const figures = answers.runs.get(run) ?? [];
  return [
    ...heading(run, 'cable run'),
    ...said(run.facts, coreClauses),
    ...chosenFor(analysis, run.name),
    ...coreTable(analysis, run),
    ...designLines(figures),
    ...capacityLines(figures),
    ...protectionLines(figures),
    ...runFaultLines(answers, figures),
    ...flowLines(analysis, run),
    ...list(run.passages.map(passage)),
    ...troubles(answers),
    ...accepted(analysis, run.name),
  ];
}

/** One row a core, in the case in which it carries most. */
function coreTable({ answers }: Analysis, run: Run): Block[] {
  const rows = run.cores.map((core) => {
    if (core.spare) return [core.label, 'spare'];
    const worst = worstOfCore(answers, core);
    return [
      core.label,
      `${core.from?.id ?? '?'} to ${core.to?.id ?? '?'}`,
      ...(worst === undefined
        ? []
        : [
            `${amps(worst.figures.amps)}${worst.figures.assumed ? ' (assumed)' : ''}`,
            worst.answer.name,
            amps(worst.figures.capacityAmps),
            dropVolts(worst.figures.dropVolts),
            watts(worst.figures.watts),
            celsius(worst.figures.celsius),
          ]),
    ];
  });
  const backwards = run.cores.some((core) => (worstOfCore(answers, core)?.figures.amps ?? 0) < 0);
  return [
    ...table(['core', 'from, to', 'most current', 'in case', 'then good for', 'drop', 'loss', 'temperature'], rows),
    ...(backwards ? [line(quiet('A minus means that the current flows from the second end to the first.'))] : []),
  ];
}

function designLines(figures: readonly CoreFigures[]): Block[] {
  const words = figures.map((one) => ({ core: one.core.label, text: design(one) }));
  return perCore(words);
}

function design(figures: CoreFigures): string {
  const { designAmps, designFrom, shortCircuitAmps, neededAmps, ohms } = figures;
  const resistance = ohms === undefined ? '' : ` Resistance ${milliohms(ohms)} at 20 °C.`;
  if (shortCircuitAmps !== undefined)
    return `Design current ${amps(shortCircuitAmps)}, the short-circuit current of its panels; must be good for ${amps(neededAmps)}.${resistance}`;
  if (designFrom === '') return `It carries no current in any case.${resistance}`;
  return `Design current ${amps(designAmps)}: case ${designFrom}, each load at its lowest voltage.${resistance}`;
}

/** The same of all cores once, else core by core. */
function perCore(words: readonly { readonly core: string; readonly text: string }[]): Block[] {
  const texts = new Set(words.map(({ text }) => text));
  if (texts.size === 0) return [];
  if (texts.size === 1) return [line([...texts][0] ?? '')];
  return list(words.map(({ core, text }) => `${core}: ${lowered(text)}`));
}

function capacityLines(figures: readonly CoreFigures[]): Block[] {
  const capacity = figures.find((one) => one.capacity !== undefined)?.capacity;
  return capacity === undefined
    ? []
    : [line(capacityText(capacity)), line(quiet(capacity.sources.map(cite).join('; ')))];
}

/** A capacity with its factors spelt out. */
export function capacityText(capacity: Capacity): string {
  const {
    tableAmps,
    ambientFactor,
    bunchingFactor,
    circuits,
    counts,
    ambientCelsius,
    insulationCelsius,
    derived,
    reason,
  } = capacity;
  const warm = celsius(ambientCelsius);
  const limit = celsius(insulationCelsius);
  switch (reason) {
    case 'ambient-at-limit':
      // Some tables end below it: they have no insulation for just that, or no such warm air.
      return ambientCelsius < insulationCelsius
        ? `Good for 0 A: at ${warm} the table leaves no current for insulation of ${limit}.`
        : `Good for 0 A: at ${warm} the air is as warm as its insulation may get (${limit}).`;
    case 'insulation-below-table':
      return `No capacity: the table knows no insulation for only ${limit}.`;
    case 'size-not-in-table':
      return 'No capacity: its size is not in the table.';
    default:
      return `Good for ${amps(capacity.amps)}: ${amps(tableAmps)} by the table${derived ? ' (reckoned from it, not read in it)' : ''} × ${factor(ambientFactor)} for ${warm} with insulation for ${limit} × ${factor(bunchingFactor)} for ${circuits === 1 ? `one ${counts.slice(0, -1)} alone` : `${circuits} ${counts} together`}.${notCounted(capacity)}`;
  }
}

function notCounted({ bunch }: Capacity): string {
  const names = bunch?.leftOut ?? [];
  return names.length === 0 ? '' : ` Not counted, for the little that flows: ${listed(names)}.`;
}

function protectionLines(figures: readonly CoreFigures[]): Block[] {
  return perCore(
    figures.filter(({ core }) => !core.spare).map((one) => ({ core: one.core.label, text: protectionText(one) })),
  );
}

function protectionText(figures: CoreFigures): string {
  const { protection, capacity, beforeFirstDevice, crankingOnly, loads } = figures;
  const near = protection.amps > 0 ? share(protection.amps, capacity?.amps) : '';
  return [
    protectedBy(protection),
    near === '' ? '' : ` That is ${near} of what it is good for.`,
    beforeFirstDevice ? ' It lies between the battery and its first device.' : '',
    crankingOnly ? ' It serves a starter motor only.' : '',
    loads.length === 0
      ? ''
      : ` Serves ${listed(loads.slice(0, 8).map(({ name }) => name))}${loads.length > 8 ? ' and others' : ''}.`,
  ].join('');
}

function passage({ enclosure, how, size, entry }: Passage): string {
  const box = enclosure?.name ?? 'an enclosure';
  if (how === 'unstated') return `Enters ${box}, and it is not said how.`;
  if (how === 'open') return `Enters ${box} through a bare hole.`;
  if (how === 'entry') return `Enters ${box} by ${entry?.name ?? 'an entry'}.`;
  return `Enters ${box} by ${how}${size === undefined ? '' : ` ${size}`}.`;
}

/** A core in one line, for hovers on its words. */
export function coreLine(core: Core): string {
  return core.spare
    ? `${core.run.name} ${core.label}: spare`
    : `${core.run.name} ${core.label}: ${core.from?.id ?? '?'} to ${core.to?.id ?? '?'}`;
}
