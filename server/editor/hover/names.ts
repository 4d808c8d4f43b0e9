/** Places, cases and stock. */
import type { Analysis } from '../../analysis.ts';
import type { Case, Location, Stock } from '../../model/model.ts';
import { amps, celsius, percent, volts, watts } from '../../reports/figures.ts';
import { type Block, line, list, quiet, table } from '../markup.ts';
import { atMost, heading, said, written } from './about.ts';

export function placeHover(analysis: Analysis, place: Location): Block[] {
  const { model } = analysis;
  const here = [...model.parts.values()].filter(({ location }) => location === place);
  const runs = [...model.runs.values()].filter(({ along }) => along.some(({ location }) => location === place));
  return [
    ...heading(place, 'place'),
    ...said(place.facts),
    ...(place.celsius === undefined ? [line(quiet('No temperature is said: the system’s ambient counts.'))] : []),
    ...(place.engineSpace && !place.facts.says('temperature')
      ? [line(quiet(`An engine space counts as ${celsius(50)} at least.`))]
      : []),
    ...list([
      ...(here.length === 0 ? [] : [`Here: ${atMost(here, 12, ({ name }) => name)}.`]),
      ...(runs.length === 0 ? [] : [`Cables along it: ${atMost(runs, 12, ({ name }) => name)}.`]),
    ]),
  ];
}

export function caseHover(analysis: Analysis, stated: Case): Block[] {
  const answer = analysis.answers.cases.find(({ name }) => name === stated.name);
  const { node } = stated.origin.statement;
  const body = stated.origin.statement.shaped.clauses.map(({ span }) =>
    node.text.slice(span.start, span.end).replace(/\s+/g, ' '),
  );
  const rows = [...(answer?.parts.values() ?? [])]
    .filter(({ volts: across, amps: current }) => across !== undefined && Math.abs(current ?? 0) > 1e-9)
    .map((part) => [part.part.name, volts(part.volts), amps(part.amps), watts(part.watts), percent(part.dropPercent)]);
  return [
    ...heading(stated, 'case'),
    ...(body.length === 0 ? [] : [line(body.join(', '))]),
    ...expected(analysis, stated),
    ...(answer === undefined
      ? []
      : answer.converged
        ? rows.length === 0
          ? [line('Nothing flows.')]
          : table(['part', 'voltage', 'current', 'power', 'drop %'], rows)
        : [line(`No answer: ${answer.trouble ?? 'the wiring cannot feed its loads'}.`)]),
  ];
}

/** What must hold in a case, in the spec's own words. */
function expected({ model }: Analysis, stated: Case): Block[] {
  const lines = model.expectations.flatMap(({ facts }) =>
    facts.all('what').flatMap((fact) => {
      const cases = fact.clause.values.filter(({ slot }) => slot === 'case').map(({ atom }) => atom.text);
      return cases.length === 0 || cases.includes(stated.name) ? [`Expected: ${written(fact)}.`] : [];
    }),
  );
  return list(lines);
}

export function stockHover(analysis: Analysis, stock: Stock): Block[] {
  const takers = [...analysis.model.runs.values(), ...analysis.model.parts.values()].filter(
    ({ facts }) => facts.word('stock') === stock.name,
  );
  return [
    ...heading(stock, `${stock.kindWord} from stock`),
    ...said(stock.facts),
    line(takers.length === 0 ? 'Nothing takes it.' : `Taken by ${atMost(takers, 16, ({ name }) => name)}.`),
  ];
}
