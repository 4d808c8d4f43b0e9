/** Sizes in the other system: for each the nearest standard one that is not thinner, and what that changes. */
import type { ShapedPlaced } from '../../../grammar/shaped.ts';
import { plainNumber } from '../../../grammar/units.ts';
import type { Analysis } from '../../analysis.ts';
import { standardSizes } from '../../answers/chosen-sizes.ts';
import { capacityOf, physicalSize } from '../../answers/conditions.ts';
import type { ConductorSize, Facts, Place, Run } from '../../model/model.ts';
import { conductorSize } from '../../model/sizes.ts';
import { areaMm2, type Conductor, ohmsPerMetreAt20 } from '../../physics/conductors.ts';
import type { LimitSet } from '../../physics/limits/limit-set.ts';
import { amps, listed } from '../../reports/figures.ts';
import { overlaps } from '../ranges.ts';
import { limitsAfter } from './limits-after.ts';
import { type Asked, type Offered, swapSizeKind } from './offered.ts';
import { runOf, statementsIn } from './statements.ts';

/** A size of a run or a stocked cable, and what it is in the other system. */
interface Swap {
  readonly statement: ShapedPlaced;
  readonly place: Place;
  readonly facts: Facts;
  readonly from: ConductorSize;
  readonly to: ConductorSize;
}

/** Of one size what it changes; of several that are selected those of one system together. */
export function swapSize(asked: Asked): Offered[] {
  const reached = statementsIn(asked);
  const swaps = reached.flatMap((statement) => swapOf(asked, statement) ?? []);
  const bySystem = [
    swaps.filter(({ from }) => from.system === 'mm2'),
    swaps.filter(({ from }) => from.system === 'awg'),
  ];
  return bySystem.flatMap((some): Offered[] => {
    const [first] = some;
    if (first === undefined) return [];
    const edits = some.map(({ place, to }) => ({ place, newText: to.written }));
    const title = some.length === 1 ? titleOfOne(asked, first, reached.length > 1) : titleOfSeveral(asked, some);
    return [{ title, kind: swapSizeKind, edits }];
  });
}

function swapOf({ analysis, span }: Asked, statement: ShapedPlaced): Swap | undefined {
  const value = statement.shaped.clauses
    .find(({ spec }) => spec.id === 'size')
    ?.values.find(({ slot }) => slot === 'size');
  if (value === undefined) return undefined;
  const { offset } = statement;
  const place = { uri: analysis.uri, span: { start: offset + value.span.start, end: offset + value.span.end } };
  const facts = factsOf(analysis, statement);
  const from = conductorSize(value);
  if (!overlaps(place.span, span) || facts === undefined || from === undefined) return undefined;
  const to = standardSizes(from.system === 'mm2').find((one) => area(one) >= area(from) * (1 - 1e-9));
  return to && { statement, place, facts, from, to };
}

function titleOfOne(asked: Asked, swap: Swap, isOneOfSeveral: boolean): string {
  const { statement, from, to } = swap;
  const name = statement.node.names[0]?.value;
  const among = isOneOfSeveral && name !== undefined ? ` in ${name}` : '';
  return `Write ${to.written} for ${from.written}${among}: ${changes(asked, swap).join('; ')}`;
}

/** So many are named one by one. */
const mostNamed = 4;

function titleOfSeveral({ analysis }: Asked, swaps: readonly Swap[]): string {
  const system = swaps[0]?.to.system === 'awg' ? 'AWG' : 'mm²';
  const pairs = new Set(swaps.map(({ from, to }) => `${to.written} for ${from.written}`));
  const names = swaps.flatMap(({ statement }) => statement.node.names[0]?.value ?? []);
  const who = names.length <= mostNamed ? listed(names) : `${names.length} cables`;
  const what = pairs.size <= mostNamed ? `: ${[...pairs].join(', ')}` : '';
  const limits = limitsWith(analysis, swaps);
  const less = swaps.flatMap((swap) => {
    const run = runOf(analysis, swap.statement);
    const carried = run === undefined ? undefined : capacities(analysis, run, swap, limits);
    return run === undefined || carried === undefined || carried.after.amps >= carried.before.amps * (1 - 1e-6)
      ? []
      : [`${run.name} is then good for ${amps(carried.after.amps)} instead of ${amps(carried.before.amps)}`];
  });
  return [
    `Write ${who} in ${system}${what}`,
    'none is thinner',
    ...(less.length > 0 && less.length <= mostNamed
      ? less
      : less.length > 0
        ? [`${less.length} carry less by the limits`]
        : []),
    ...(limits === undefined ? [] : [`their limits are then those of ${limits.title}`]),
    ...(swaps.some(({ facts }) => facts.says('od')) ? ['correct what is said of od too'] : []),
  ].join('; ');
}

const area = (size: ConductorSize) => areaMm2(physicalSize(size));
/** To a tenth, of less than one to a hundredth: 0.75 and 0.82 are two sizes. */
const squareMm = (area: number) => plainNumber(area, area < 1 ? 2 : 1);

/** What the run or stocked cable says; undefined for a size of anything else. */
function factsOf(analysis: Analysis, statement: ShapedPlaced): Facts | undefined {
  const stock = analysis.model.stocks.get(statement.node.names[0]?.value ?? '');
  if (statement.shaped.wrapper !== undefined)
    return stock?.kindWord === 'cable' && stock.origin.statement === statement ? stock.facts : undefined;
  return runOf(analysis, statement)?.facts;
}

function changes(asked: Asked, swap: Swap): string[] {
  const { analysis } = asked;
  const { statement, facts, from, to } = swap;
  const conductor = (size: ConductorSize): Conductor => ({
    size: physicalSize(size),
    conductorClass: facts.number('class'),
    solid: facts.word('strands') === 'solid' || facts.number('class') === 1,
    tinned: facts.word('coating') === 'tinned',
    material: facts.word('material') === 'aluminium' ? 'aluminium' : 'copper',
  });
  const ratio = ohmsPerMetreAt20(conductor(to)) / ohmsPerMetreAt20(conductor(from));
  const percent = plainNumber(Math.abs(ratio - 1) * 100, 0);
  const takers = statement.shaped.wrapper === undefined ? [] : takersOf(asked, statement);
  const limits = limitsWith(analysis, [swap]);
  return [
    `${squareMm(area(to))} mm² of conductor instead of ${squareMm(area(from))} mm²`,
    percent === '0' ? 'the same resistance' : `${percent} % ${ratio < 1 ? 'less' : 'more'} resistance`,
    ...carrying(analysis, swap, limits),
    ...(takers.length === 0 ? [] : [`in ${takers.length === 1 ? takers[0] : `${takers.length} runs`}`]),
    ...(limits === undefined ? [] : [`its limits are then those of ${limits.title}`]),
    ...(facts.says('od') ? ['correct its od too'] : []),
  ];
}

/** What a run may carry where it lies, before and after. */
function carrying(analysis: Analysis, swap: Swap, limits: LimitSet | undefined): string[] {
  const run = runOf(analysis, swap.statement);
  if (run === undefined) return [];
  const { before, after } = capacities(analysis, run, swap, limits);
  // Of neither is there anything to tell where no current at all is left, or none is known.
  if (before.reason !== undefined && after.reason !== undefined) return [];
  const [was, is] = [amps(before.amps), amps(after.amps)];
  return [was === is ? `good for ${is} where it lies, as before` : `good for ${is} where it lies instead of ${was}`];
}

function capacities({ model, answers }: Analysis, run: Run, { from, to }: Swap, limits: LimitSet | undefined) {
  const good = (size: ConductorSize, set: LimitSet) => capacityOf(run, size, model, set, answers.systemVolts);
  return { before: good(from, answers.limits), after: good(to, limits ?? answers.limits) };
}

/** Runs that take their size from a stock, by way of another stock too, here and in the specs that use this file. */
function takersOf({ analysis: { uri, model }, users }: Asked, { offset }: ShapedPlaced): string[] {
  const takes = ({ facts }: Run) => {
    const size = facts.fact('size')?.origin;
    return size?.file.uri === uri && size.statement.offset === offset;
  };
  const takers = [model, ...users.map((user) => user.model)].flatMap(({ runs }) => [...runs.values()].filter(takes));
  const places = new Map(takers.map(({ name, namePlace }) => [`${namePlace.uri} ${namePlace.span.start}`, name]));
  return [...places.values()];
}

/** The set of limits that would hold, where it follows from how most sizes are written and is another then. */
function limitsWith(analysis: Analysis, swaps: readonly Swap[]): LimitSet | undefined {
  const now = new Map(swaps.map(({ statement, to }) => [statement, to]));
  return limitsAfter(analysis, ({ facts, size }) => {
    if (size === undefined) return [];
    const said = facts.fact('size')?.origin.statement;
    return [(said && now.get(said)) ?? size];
  });
}
