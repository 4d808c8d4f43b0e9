/** The terminal that a core was meant for which ends on another by mistake. */
import type { Place, Terminal } from '../model/model.ts';
import type { Edge, Network } from '../model/network.ts';
import { type Pole, poleAt } from './poles.ts';
import type { RuleContext } from './rule.ts';

export interface MeantTerminal {
  readonly terminal: Terminal;
  /** Where the core's end is written. */
  readonly place: Place;
}

/**
 * Of a core that shorts a source the terminal of the same part that nothing is joined to. Undefined for a bar or contact, and
 * where no terminal is empty, or several are.
 */
export function meantTerminal(by: Edge, { at }: Network): MeantTerminal | undefined {
  if (by.is !== 'core') return undefined;
  const { from, to, fromPlace, toPlace } = by.core;
  const isEmpty = ({ id, spec }: Terminal) => spec.optional !== true && (at.get(id) ?? []).every(isInside);
  const found = [
    { end: from, place: fromPlace },
    { end: to, place: toPlace },
  ].flatMap(({ end, place }) => {
    const empty = end === undefined || end.part.kind.oneNode ? [] : end.part.terminals.filter(isEmpty);
    const [terminal] = empty;
    return place === undefined || terminal === undefined || empty.length > 1 ? [] : [{ terminal, place }];
  });
  return found.length === 1 ? found[0] : undefined;
}

const isInside = ({ is }: Edge): boolean => is !== 'core' && is !== 'bar';

/** Of a spec the one terminal that nothing reaches and that belongs to a pole: what ends on the other pole was meant for it. */
export function onlyEmptyOn(pole: Pole, context: RuleContext): Terminal | undefined {
  const { problems, terminals } = context.model;
  const empty = problems.flatMap(({ slug, figures }) => {
    const terminal = slug === 'terminal-unconnected' ? terminals.get(String(figures?.terminals)) : undefined;
    return terminal !== undefined && poleAt(terminal, context) === pole ? [terminal] : [];
  });
  return empty.length === 1 ? empty[0] : undefined;
}
