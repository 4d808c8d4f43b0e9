/** The batteries that an alternator charges with nothing between that limits it. */
import { standsClosed } from '../answers/contacts-in-case.ts';
import type { Model, Part, Terminal } from '../model/model.ts';
import type { ContactEdge, Network } from '../model/network.ts';
import { reach } from './reach.ts';
import { isClosedInUse, isHandSwitch } from './two-systems.ts';

/** Over relays and diodes, and over switches that are closed while it runs. */
export function batteriesChargedBy(alternator: Part, plus: Terminal, network: Network, model: Model): Part[] {
  return batteriesIn(
    reach(
      plus,
      network,
      (edge) => edge.is !== 'contact' || !isHandSwitch(edge) || isClosedWith(alternator, edge, network, model),
    ),
  );
}

/** Those whose plus is among the terminals. */
export function batteriesIn(terminals: ReadonlySet<Terminal>): Part[] {
  return [...terminals].flatMap(({ part, spec }) =>
    part.kind.word === 'battery' && spec.polarity === '+' ? [part] : [],
  );
}

/** Where cases are stated with the alternator on they tell; else whether it is closed in ordinary use. */
function isClosedWith(alternator: Part, edge: ContactEdge, network: Network, model: Model): boolean {
  const driven = model.cases.filter(
    ({ implied, on, allSources }) => !implied && (on.get(alternator.name) ?? allSources ?? false),
  );
  return driven.length > 0 ? driven.some((one) => standsClosed(edge, one)) : isClosedInUse(edge, network, model);
}
