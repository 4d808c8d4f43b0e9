/** A quantity that nothing can have: below zero, nothing at all, beyond all measure, colder than cold, least above greatest. */

import type { ClauseNode, ShapedPlaced, ShapedStatement } from '../../grammar/shaped.ts';
import type { Dimension, QuantityAtom } from '../../grammar/tree.ts';
import { keptWith } from '../model/lazily.ts';
import { placeIn } from '../model/place.ts';
import { type Impossible, impossibleFigures } from './impossible-figures.ts';
import { lampSpec, notationsOwn } from './language.ts';
import type { Rule } from './rule.ts';

/** A temperature, a drift and an angle may be on either side of zero; the number of a gauge means something else. */
const signed: ReadonlySet<Dimension> = new Set([
  'temperature',
  'relative-drift',
  'voltage-drift',
  'current-drift',
  'angle',
  'gauge',
]);

/** What is measured or expected may flow either way. */
const eitherWay: ReadonlySet<string> = new Set(['reading', 'expect']);

const absoluteZeroCelsius = -273.15;
/** What a nought would make away with. */
const neverNought: ReadonlyMap<string, string> = new Map([
  ['run.length', 'a run has some length'],
  ['battery.voltage', 'a battery has some voltage'],
  ['battery.capacity', 'a battery has some capacity'],
  ['fuse.rating', 'a fuse of nothing carries nothing'],
  ['breaker.rating', 'a breaker of nothing carries nothing'],
  ['load.resistance', 'a load without resistance is a short-circuit'],
]);
/** In SI units; nothing in a van comes near it. */
const beyondAllMeasure = 1e12;

export const rule: Rule = {
  slug: 'impossible-value',
  severity: 'error',
  group: 'language',
  reads: [],
  page: {
    title: 'A quantity that nothing can have',
    why: 'A minus, a nought or a digit too many turns a rating into one that checks nothing, and a `lowest` above the `highest` leaves no voltage to work at.',
    limit: notationsOwn,
    mend: 'Write the figure from the data sheet; where it is not known yet, write `?` with its unit.',
    see: ['wrong-unit', 'missing-unit'],
    wrong: [
      lampSpec({ load: 'load LAMP 12 W, lowest -10 V # finds: impossible-value "-10 V"' }),
      lampSpec({ load: 'load LAMP 12 W, at SHED' }, 'place SHED -300 °C # finds: impossible-value "-300 °C"'),
      lampSpec({ out: 'run W2 1.5 mm² red, 0 m, F1:out to LAMP:+ # finds: impossible-value "0 m"' }),
      lampSpec({ load: 'load LAMP 12 W, lowest 13 V, highest 12.6 V # finds: impossible-value "13 V"' }),
      lampSpec({}, 'case night LAMP on, charge 160 % # finds: impossible-value "160 %"'),
      lampSpec({ load: 'load LAMP 12 W, 25 h/day # finds: impossible-value "25 h/day"' }),
      lampSpec({}, 'reading 2026-02-30 LAMP:+ 12 V # finds: impossible-value "2026-02-30"'),
    ],
    right: [
      lampSpec({ load: 'load LAMP 12 W, lowest 10 V' }),
      lampSpec({ load: 'load LAMP 12 W, at SHED' }, 'place SHED -30 °C'),
      lampSpec({ out: 'run W2 1.5 mm² red, 0.3 m, F1:out to LAMP:+' }),
      lampSpec({ load: 'load LAMP 12 W, lowest 10.8 V, highest 12.6 V' }),
      lampSpec({}, 'case night LAMP on, charge 60 %'),
      lampSpec({ load: 'load LAMP 12 W, 5 h/day' }),
      lampSpec({}, 'reading 2028-02-29 LAMP:+ 12 V'),
    ],
  },
  *check({ model }) {
    const [file] = model.files;
    if (file === undefined) return;
    for (const statement of file.statements) {
      for (const { atom, span, clause, why, message, right } of impossibleIn(statement.shaped)) {
        const place = placeIn({ file, statement }, span);
        const positive = atom.text.replace(/^\s*[-−]\s*/u, '');
        const instead =
          atom.kind === 'quantity'
            ? 'write the right figure, or ? with its unit where it is not known yet'
            : 'write the right one';
        const written = atom.text.length > 40 ? `${atom.text.slice(0, 30)}…` : atom.text;
        yield {
          message: message ?? `${written} cannot be: ${why}; ${instead}.`,
          place,
          subject: nameOf(statement),
          figures: { clause },
          fixes:
            right !== undefined
              ? [{ title: `Write ${right}`, safe: true, edits: [{ place, newText: right }] }]
              : positive !== atom.text && atom.kind === 'quantity' && !signed.has(atom.dimension)
                ? [{ title: `Write ${positive}`, safe: false, edits: [{ place, newText: positive }] }]
                : [],
        };
      }
    }
  },
};

const none: readonly Impossible[] = [];

const impossibleIn = keptWith((shaped: ShapedStatement): readonly Impossible[] => {
  const { spec, clauses } = shaped;
  if (spec === undefined) return none;
  const found: Impossible[] = clauses.flatMap(noDays);
  if (eitherWay.has(spec.word)) return found.length === 0 ? none : found;
  for (const { spec: own, values } of clauses)
    for (const { atom, span } of values) {
      if (atom.kind !== 'quantity') continue;
      const why = amiss(atom) ?? (atom.si === 0 ? neverNought.get(`${spec.word}.${own.id}`) : undefined);
      if (why !== undefined) found.push({ atom, span, clause: own.id, why });
    }
  found.push(...impossibleFigures(shaped));
  return found.length === 0 ? none : found;
});

/** `2026-02-29` is none. */
function noDays({ spec, values }: ClauseNode): readonly Impossible[] {
  return values.flatMap(({ atom, span }) => {
    if (atom.kind !== 'date' || isDay(atom.value)) return [];
    const message = `${atom.value} is no day of the calendar: write the day it was, as year, month and day.`;
    return [{ atom, span, clause: spec.id, why: '', message }];
  });
}

function isDay(date: string): boolean {
  const day = new Date(`${date}T00:00:00Z`);
  return !Number.isNaN(day.getTime()) && day.toISOString().startsWith(date);
}

/** The first name that the statement declares. */
function nameOf({ shaped: { node } }: ShapedPlaced): string | undefined {
  const name = node.atoms[1];
  return name?.kind === 'word' ? name.value : undefined;
}

function amiss({ si, dimension }: QuantityAtom): string | undefined {
  if (si === undefined) return undefined;
  if (!Number.isFinite(si) || Math.abs(si) > beyondAllMeasure) return 'nothing is as great as that';
  if (dimension === 'temperature' && si < absoluteZeroCelsius) return 'nothing is colder than -273.15 °C';
  if (signed.has(dimension)) return undefined;
  if (si < 0) return 'nothing here is below zero';
  return dimension === 'area' && si === 0 ? 'a conductor has some cross-section' : undefined;
}
