/** A size in the other system: the nearest standard one that is not thinner, and what that changes. */
import type { ShapedPlaced } from '../../../grammar/shaped.ts';
import { plainNumber } from '../../../grammar/units.ts';
import type { Analysis } from '../../analysis.ts';
import { standardSizes } from '../../answers/chosen-sizes.ts';
import { capacityOf, physicalSize } from '../../answers/conditions.ts';
import type { ConductorSize, Facts, Run } from '../../model/model.ts';
import { conductorSize } from '../../model/sizes.ts';
import { areaMm2, type Conductor, ohmsPerMetreAt20 } from '../../physics/conductors.ts';
import type { LimitSet } from '../../physics/limits/limit-set.ts';
import { amps } from '../../reports/figures.ts';
import { overlaps } from '../ranges.ts';
import { limitsAfter } from './limits-after.ts';
import { type Asked, type Offered, swapSizeKind } from './offered.ts';
import { runOf, spanOf, statementAt } from './statements.ts';

export function swapSize(asked: Asked): Offered[] {
  const { analysis, span } = asked;
  const statement = statementAt(asked);
  const value = statement?.shaped.clauses
    .find(({ spec }) => spec.id === 'size')
    ?.values.find(({ slot }) => slot === 'size');
  if (statement === undefined || value === undefined) return [];
  const { offset } = statement;
  const place = { uri: analysis.uri, span: { start: offset + value.span.start, end: offset + value.span.end } };
  const facts = factsOf(analysis, statement);
  const size = conductorSize(value);
  if (!overlaps(place.span, span) || facts === undefined || size === undefined) return [];
  const other = standardSizes(size.system === 'mm2').find((one) => area(one) >= area(size) * (1 - 1e-9));
  if (other === undefined) return [];
  // Of several that are selected it is done to the first.
  const name = statement.node.names[0]?.value;
  const among = span.end > spanOf(statement).end && name !== undefined ? ` in ${name}` : '';
  return [
    {
      title: `Write ${other.written} for ${size.written}${among}: ${changes(asked, statement, facts, size, other).join('; ')}`,
      kind: swapSizeKind,
      edits: [{ place, newText: other.written }],
    },
  ];
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

function changes(
  asked: Asked,
  statement: ShapedPlaced,
  facts: Facts,
  from: ConductorSize,
  to: ConductorSize,
): string[] {
  const { analysis } = asked;
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
  const limits = limitsWith(analysis, statement, to);
  return [
    `${squareMm(area(to))} mm² of conductor instead of ${squareMm(area(from))} mm²`,
    percent === '0' ? 'the same resistance' : `${percent} % ${ratio < 1 ? 'less' : 'more'} resistance`,
    ...carrying(analysis, statement, from, to),
    ...(takers.length === 0 ? [] : [`in ${takers.length === 1 ? takers[0] : `${takers.length} runs`}`]),
    ...(limits === undefined ? [] : [`its limits are then those of ${limits.title}`]),
    ...(facts.says('od') ? ['correct its od too'] : []),
  ];
}

/** What a run may carry where it lies, before and after. */
function carrying(analysis: Analysis, statement: ShapedPlaced, from: ConductorSize, to: ConductorSize): string[] {
  const { model, answers } = analysis;
  const run = runOf(analysis, statement);
  if (run === undefined) return [];
  const good = (size: ConductorSize, limits: LimitSet) => capacityOf(run, size, model, limits, answers.systemVolts);
  const before = good(from, answers.limits);
  const after = good(to, limitsWith(analysis, statement, to) ?? answers.limits);
  // Of neither is there anything to tell where no current at all is left, or none is known.
  if (before.reason !== undefined && after.reason !== undefined) return [];
  const [was, is] = [amps(before.amps), amps(after.amps)];
  return [was === is ? `good for ${is} where it lies, as before` : `good for ${is} where it lies instead of ${was}`];
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
function limitsWith(analysis: Analysis, statement: ShapedPlaced, to: ConductorSize): LimitSet | undefined {
  return limitsAfter(analysis, ({ facts, size }) => {
    if (size === undefined) return [];
    return [facts.fact('size')?.origin.statement === statement ? to : size];
  });
}
