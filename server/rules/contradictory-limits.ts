/** A set of limits of one's own whose figures contradict each other, or that no cable could be held to. */
import { canBe, mostDevice, mostFactor, type OwnFigure, ownCapacities } from '../answers/limits-of.ts';
import type { Place, Stock } from '../model/model.ts';
import { areaMm2 } from '../physics/conductors.ts';
import { limitSets } from '../physics/limits/sets.ts';
import { lampSpec, notationsOwn } from './language.ts';
import type { Reported, Rule } from './rule.ts';
import { percent } from './words.ts';

const sound = 'based on iec-60364-5-52, factor 0.8, drop 4 %, essential drop 2 %, unfused 0.5 m';
const system = 'system "Shed" 12 V, limits ours';

export const rule: Rule = {
  slug: 'contradictory-limits',
  severity: 'error',
  group: 'language',
  reads: [],
  page: {
    title: 'A set of limits that contradicts itself',
    why: 'Every cable, drop and fuse is held to the set. Where two of its figures cannot both hold, or one lets nothing pass or everything, what is found after it is worth nothing.',
    limit: notationsOwn,
    mend: 'Write the figure that is meant. A percentage stands with its sign; a factor is a bare number, such as `0.8`.',
    see: ['impossible-value', 'unknown-name'],
    wrong: [
      lampSpec(
        { system },
        'stock ours limit-set based on iec-60364-5-52, drop 2 %, essential drop 4 % # finds: contradictory-limits "essential drop 4 %"',
      ),
      lampSpec(
        { system },
        'stock ours limit-set based on iec-60364-5-52, factor 0 # finds: contradictory-limits "factor 0"',
      ),
      lampSpec(
        { system },
        'stock ours limit-set based on iec-60364-5-52, capacity 6 mm² 40 A, capacity 10 mm² 35 A # finds: contradictory-limits "capacity 10 mm² 35 A"',
      ),
    ],
    right: [lampSpec({ system }, `stock ours limit-set ${sound}, capacity 6 mm² 40 A, capacity 10 mm² 55 A`)],
  },
  *check({ model }) {
    const [file] = model.files;
    for (const stock of model.stocks.values()) {
      if (stock.kindWord !== 'limit-set' || stock.namePlace.uri !== file?.uri) continue;
      for (const { clause, index, why } of [...amiss(stock), ...amissInCapacities(stock)]) {
        const facts = stock.facts.all(clause)[index];
        // What stands in the set that it takes is told there.
        if (facts?.fromStock !== undefined) continue;
        yield reported(stock, (stock.facts.each(clause)[index] ?? stock.facts).place(clause), clause, why);
      }
      if (limitSets.has(stock.name))
        yield reported(stock, stock.namePlace, 'name', `${stock.name} is the name of a published set: give it another`);
    }
  },
};

function reported({ name }: Stock, place: Place, clause: string, why: string): Reported {
  return { message: `${name} cannot hold: ${why}.`, place, subject: name, figures: { clause } };
}

interface Amiss {
  readonly clause: string;
  /** Which of several uses of the clause. */
  readonly index: number;
  readonly why: string;
}

/** What a figure is, where it is not; lengths below nought are told of as impossible quantities. */
const figureWords: Readonly<Partial<Record<OwnFigure, string>>> = {
  factor: `a factor on capacities is above 0 and at most ${mostFactor}, such as 0.8`,
  device: `a device is more than 0 % and at most ${100 * mostDevice} % of a cable’s capacity`,
  'pv-factor': `a factor on short-circuit currents is from 1 to ${mostDevice}, such as 1.25`,
  'lightly-loaded': 'a part of a capacity is from 0 % to 100 %',
  drop: 'a drop is above 0 % and below 100 %, such as 4 %',
  'essential-drop': 'a drop is above 0 % and below 100 %, such as 2 %',
};

const sheathedOnes = [
  ['sheathed-unfused', 'unfused'],
  ['sheathed-tail', 'tail'],
] as const;

function amiss({ facts }: Stock): Amiss[] {
  const found: Amiss[] = [];
  const tell = (clause: OwnFigure, why: string) => found.push({ clause, index: 0, why });
  const sound = (clause: OwnFigure) => {
    const value = facts.number(clause);
    return value === undefined || !canBe[clause](value) ? undefined : value;
  };
  for (const [clause, why] of Object.entries(figureWords) as [OwnFigure, string][]) {
    const value = facts.number(clause);
    if (value === undefined || canBe[clause](value)) continue;
    // A quantity below nought is an impossible one already; a factor is a bare number.
    if (value >= 0 || clause.endsWith('factor')) tell(clause, why);
  }
  const [drop, essential] = [sound('drop'), sound('essential-drop')];
  if (drop !== undefined && essential !== undefined && essential > drop)
    tell(
      'essential-drop',
      `what must not fail may lose ${percent(100 * essential)}, and all else only ${percent(100 * drop)}`,
    );
  for (const [clause, whole] of sheathedOnes) {
    const [bare, sheathed] = [sound(whole), sound(clause)];
    if (bare !== undefined && sheathed !== undefined && sheathed < bare)
      tell(clause, 'a sheath allows a greater length before the device, never a smaller one');
  }
  return found;
}

function amissInCapacities({ facts }: Stock): Amiss[] {
  const found: Amiss[] = [];
  const rows = facts
    .each('capacity')
    .flatMap((row, index) =>
      ownCapacities(row).map((capacity) => ({ ...capacity, index, area: areaMm2(capacity.size) })),
    );
  const written = (index: number) => {
    const row = facts.each('capacity')[index];
    return `${row?.written('capacity', 'size')} ${row?.written('capacity', 'current')}`;
  };
  facts.each('capacity').forEach((row, index) => {
    if (row.number('capacity', 'current') === 0)
      found.push({ clause: 'capacity', index, why: 'a conductor carries some current' });
  });
  rows.forEach((row, at) => {
    const tell = (why: string) => found.push({ clause: 'capacity', index: row.index, why });
    const like = rows.slice(0, at).filter(({ insulationCelsius }) => insulationCelsius === row.insulationCelsius);
    const other = like.find((one) =>
      one.area === row.area ? one.amps !== row.amps : one.area < row.area ? one.amps > row.amps : one.amps < row.amps,
    );
    if (other === undefined) return;
    tell(
      other.area === row.area
        ? `its size stands with ${written(other.index)} already`
        : `${written(row.index)} stands beside ${written(other.index)}, and the larger size carries no less`,
    );
  });
  return found;
}
