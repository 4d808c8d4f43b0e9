/**
 * Whether a switch that is worked by hand parts two batteries in ordinary use, as a link for emergencies does, or is the
 * isolator of one of them, which is closed as long as it is in use (common practice, no source).
 */
import { arrangementOf } from '../answers/arrangement.ts';
import { standsClosed } from '../answers/contacts-in-case.ts';
import { isOn } from '../answers/sources.ts';
import { keptWith } from '../model/lazily.ts';
import type { Case, Model, Part, Terminal } from '../model/model.ts';
import type { ContactEdge, Edge, Joint, Layout, Network } from '../model/network.ts';
import { reach } from './reach.ts';

/** For the pages: the line that is drawn. */
export const twoSystems =
  'A switch worked by hand parts two batteries where each has a life of its own with it open: an engine, or a charger and a load on its side; where a charger, relay or diode joins the two past it; or where every stated case has it off. Else it is the isolator of one of them, and closed in use (common practice, no source).';

export function isHandSwitch(edge: Joint): boolean {
  return edge.is === 'contact' && edge.contact.operated === 'hand' && !edge.contact.protects;
}

/** What only a tool opens, and breakers. */
export function isFirm(edge: Joint): boolean {
  return edge.is !== 'contact' || edge.contact.operated === 'fixed' || edge.contact.protects;
}

/** Whether a hand switch is closed in ordinary use: it parts no two systems, and is not said to be off wherever something is on. */
export function isClosedInUse(edge: ContactEdge, network: Network, { cases }: Model): boolean {
  const live = cases.filter((one) => !one.implied && isLive(one));
  if (live.length > 0 && live.every((one) => !standsClosed(edge, one))) return false;
  return !partsTwoSystems(edge, network);
}

function isLive({ on, sun = 0, allLoads, allSources }: Case): boolean {
  return sun > 0 || allLoads === true || allSources === true || [...on.values()].includes(true);
}

/** A case in which something gives current that is no battery: a charger, an alternator, or a controller with the sun on its panels. */
export function isCharging(stated: Case, { layout }: Network): boolean {
  return arrangementOf(layout).sources.some((source) => {
    const { is, part } = source;
    if (is === 'battery' || is === 'panel' || is === 'load-output' || part.kind.word === 'converter') return false;
    return isOn(source, stated) && (part.kind.word !== 'controller' || (stated.sun ?? 0) > 0);
  });
}

const known = keptWith((_: Layout) => new Map<string, boolean>());

function partsTwoSystems(edge: ContactEdge, network: Network): boolean {
  const before = known(network.layout);
  const key = `${edge.part.name}:${edge.contact.pole}`;
  const made = before.get(key) ?? areTwo(edge, network);
  before.set(key, made);
  return made;
}

function areTwo(open: ContactEdge, network: Network): boolean {
  const side = (start: Terminal, alsoByItself: boolean) =>
    reach(start, network, (edge) => passes(edge, alsoByItself) && !(edge.is === 'contact' && edge.part === open.part));
  const [near, far] = [sideOf(side(open.from, false)), sideOf(side(open.to, false))];
  // Two hand switches beside one another: neither parts more than the other does.
  if (near.terminals.has(open.to) || !near.hasBattery || !far.hasBattery) return false;
  if (side(open.from, true).has(open.to) || near.feeds(far) || far.feeds(near)) return true;
  return near.livesAlone && far.livesAlone;
}

/** What is closed in use; relays and diodes count only where it is asked what joins the two past the switch. */
function passes(edge: Edge, alsoByItself: boolean): boolean {
  if (isFirm(edge) || isHandSwitch(edge)) return true;
  return alsoByItself && edge.is === 'contact' && edge.contact.operated !== 'position';
}

interface Side {
  readonly terminals: ReadonlySet<Terminal>;
  readonly hasBattery: boolean;
  /** Something charges it and something draws from it, or it has an engine. */
  readonly livesAlone: boolean;
  feeds(other: Side): boolean;
}

const given = new Set(['out', 'bat']);

function sideOf(terminals: ReadonlySet<Terminal>): Side {
  const all = [...terminals];
  const parts = all.map(({ part }) => part);
  const isGiven = ({ part, spec }: Terminal) =>
    part.kind.behaviour.is === 'converter' ? given.has(spec.side ?? '') : part.facts.says('charges');
  const isTaken = ({ part: { kind }, spec }: Terminal) =>
    kind.behaviour.is === 'converter' ? (spec.side ?? '').startsWith('in') : drawing.has(kind.behaviour.is);
  return {
    terminals,
    hasBattery: parts.some(({ kind }) => kind.word === 'battery'),
    livesAlone: parts.some(isOfEngine) || (all.some(isGiven) && all.some(isTaken)),
    feeds: (other) =>
      all.some(
        (terminal) =>
          isTaken(terminal) &&
          terminal.part.kind.behaviour.is === 'converter' &&
          terminal.part.terminals.some((one) => isGiven(one) && other.terminals.has(one)),
      ),
  };
}

const drawing = new Set(['load', 'socket', 'inverter']);

function isOfEngine({ kind, facts }: Part): boolean {
  return kind.word === 'alternator' || facts.says('cranking');
}
