/** A conductor that goes in on one pole of a switch and comes out on another. */
import { keptWith } from '../model/lazily.ts';
import type { Core, Model, Part, Place } from '../model/model.ts';
import type { Layout, Network } from '../model/network.ts';
import { lampSpec } from './language.ts';
import type { Fix, Reported, Rule } from './rule.ts';

const q1 = 'isolator Q1 2 poles, 16 A dc, 60 V';
const out = 'run W2 1.5 mm² red, 1.2 m, F1:out to Q1:1';

export const rule: Rule = {
  slug: 'poles-crossed',
  severity: 'error',
  group: 'switching',
  restsOnAllNames: true,
  reads: ['isolator.pairs', 'switch.pairs', 'breaker.pairs', 'run.ends'],
  page: {
    title: 'In on one pole, out on another',
    why: 'A pole joins only its own two terminals. A core in on 1 and out on 4 is never joined, so the circuit is dead; two conductors that swap poles join positive to negative when the switch is closed: a short-circuit.',
    limit:
      'Terminals come in pairs, odd in and even out: 1-2, 3-4, 5-6, 7-8 (EN 50005, confirmed for three poles, the fourth from memory), unless the part says other pairs.',
    mend: 'Move the core to the terminal across from the one it comes in on. If the maker’s drawing shows other pairs, say them: `pairs 1-5 2-6`.',
    see: ['bar-on-one-side', 'terminal-unconnected', 'face-and-terminals'],
    wrong: [
      lampSpec({ out }, q1, 'run W4 1.5 mm² red, 1 m, Q1:4 to LAMP:+ # finds: poles-crossed "Q1:4"'),
      lampSpec(
        {
          out,
          back: 'run W3 1.5 mm² black, 1.3 m, LAMP:- to Q1:2',
        },
        q1,
        'run W4 1.5 mm² red, 1 m, Q1:4 to LAMP:+ # finds: poles-crossed "Q1:4"',
        'run W5 1.5 mm² black, 1 m, Q1:3 to B1:-',
      ),
    ],
    right: [
      lampSpec({ out }, q1, 'run W4 1.5 mm² red, 1 m, Q1:2 to LAMP:+'),
      lampSpec(
        { out, back: 'run W3 1.5 mm² black, 1.3 m, LAMP:- to Q1:4' },
        q1,
        'run W4 1.5 mm² red, 1 m, Q1:2 to LAMP:+',
        'run W5 1.5 mm² black, 1 m, Q1:3 to B1:-',
      ),
    ],
  },
  ofPart(part) {
    if (!mayCross(part)) return undefined;
    return ({ model, answers }) => {
      const found = crossing(part, model, answers.network);
      return found === undefined ? [] : [found];
    };
  },
};

/** Names of all parts that are found here. */
export function crossedParts(model: Model, network: Network): Set<string> {
  const crossed = new Set<string>();
  for (const part of model.parts.values()) if (crossing(part, model, network) !== undefined) crossed.add(part.name);
  return crossed;
}

/** Whether any of these runs and parts is found here: then what comes of it need not be told again. */
export function anyCrossed(names: readonly string[], model: Model, network: Network): boolean {
  return names.some((name) => {
    const part = model.parts.get(name);
    return part !== undefined && crossing(part, model, network) !== undefined;
  });
}

function mayCross({ contacts }: Part): boolean {
  return contacts.length > 1 && contacts.every(({ operated }) => operated === 'hand');
}

/** Parts that are joined as they should be. */
const straight = keptWith((_: Layout) => new Set<Part>());

function crossing(part: Part, model: Model, network: Network): Reported | undefined {
  const known = straight(network.layout);
  if (!mayCross(part) || known.has(part)) return undefined;
  const found = halfWired(part, model, network) ?? swapped(part, model, network);
  if (found === undefined) known.add(part);
  return found;
}

/** Cores that end on a terminal, with the place where that end is written. */
function coresAt(part: Part, terminal: string, network: Network): { core: Core; place: Place }[] {
  const id = `${part.name}:${terminal}`;
  return (network.at.get(id) ?? []).flatMap((edge) => {
    if (edge.is !== 'core') return [];
    const place = edge.core.from?.id === id ? edge.core.fromPlace : edge.core.toPlace;
    return place === undefined ? [] : [{ core: edge.core, place }];
  });
}

function wired(part: Part, terminal: string, network: Network): boolean {
  return (network.at.get(`${part.name}:${terminal}`) ?? []).some(({ is }) => is === 'core' || is === 'bar');
}

/** One terminal of each of two poles is wired: a conductor goes in on one and out on the other. */
function halfWired(part: Part, model: Model, network: Network): Reported | undefined {
  const half = part.contacts.flatMap(({ from, to, pole }) => {
    const [a, b] = [wired(part, from, network), wired(part, to, network)];
    return a === b ? [] : [{ pole, used: a ? from : to, across: a ? to : from, isIn: a }];
  });
  if (half.length < 2) return undefined;
  const beyond = beyondOf(part, model, network);
  const [first, second] =
    half.flatMap((one, i) =>
      half
        .slice(i + 1)
        .flatMap((other) =>
          areTwo(beyond(one.used), beyond(other.used), one.isIn === other.isIn) ? [] : [[one, other]],
        ),
    )[0] ?? [];
  if (first === undefined || second === undefined) return undefined;
  const [end] = coresAt(part, second.used, network);
  if (end === undefined) return undefined;
  const right = `${part.name}:${first.across}`;
  return {
    message: `${part.name} is wired on ${first.used} and ${second.used}, which are not one pole’s pair, so these are never joined: ${first.used} goes with ${first.across}. Move this core to ${right}.`,
    place: end.place,
    subject: part.name,
    figures: { in: first.used, out: second.used, pairedWith: first.across },
    related: coresAt(part, first.used, network).map(({ core, place }) => ({
      message: `${core.run.name} ends on ${first.used} here`,
      place,
    })),
    fixes: [{ title: `Move it to ${right}`, safe: false, edits: [{ place: end.place, newText: right }] }],
  };
}

/** Feed and return, or the leads of two sources, or of two loads: two conductors, whose other halves are not written yet. */
function areTwo(one: Beyond, other: Beyond, isOneSide: boolean): boolean {
  const areUnlike = one.polarity !== undefined && other.polarity !== undefined && one.polarity !== other.polarity;
  const areAlike = one.feeds === other.feeds || (isOneSide && one.feeds !== 'surely' && other.feeds !== 'surely');
  return areUnlike || areAlike;
}

/** All poles are wired, but one joins a positive conductor to a negative one. */
function swapped(part: Part, model: Model, network: Network): Reported | undefined {
  const beyond = beyondOf(part, model, network);
  const polarity = (terminal: string) => beyond(terminal).polarity;
  const wrong = part.contacts.filter(({ from, to }) => {
    const [a, b] = [polarity(from), polarity(to)];
    return a !== undefined && b !== undefined && a !== b;
  });
  const [first, second] = wrong;
  if (first === undefined || second === undefined) return undefined;
  // Red goes on as red and black as black: what is the wrong way round stands beyond.
  if (wrong.every(({ from, to }) => isOneColour([...coresAt(part, from, network), ...coresAt(part, to, network)])))
    return undefined;
  // The one of the other pole that belongs to what comes in on the first.
  const other = polarity(second.to) === polarity(first.from) ? second.to : second.from;
  const ends = [first.to, other].map((terminal) => ({ terminal, cores: coresAt(part, terminal, network) }));
  // The end of the positive conductor is the one shown; both are changed together.
  const shown = ends.find(({ terminal }) => polarity(terminal) === '+') ?? ends[0];
  const place = shown?.cores[0]?.place;
  if (shown === undefined || place === undefined) return undefined;
  const fix: Fix = {
    title: `Swap ${part.name}:${first.to} and ${part.name}:${other}`,
    safe: false,
    edits: ends.flatMap(({ terminal, cores }) =>
      cores.map((core) => ({
        place: core.place,
        newText: `${part.name}:${terminal === first.to ? other : first.to}`,
      })),
    ),
  };
  return {
    message: `${part.name} joins a positive to a negative conductor: ${first.from} goes with ${first.to} and ${second.from} with ${second.to}, but the cores on ${first.to} and ${other} are swapped. Closed, this is a short-circuit: swap them.`,
    place,
    subject: part.name,
    figures: { poles: `${first.pole} ${second.pole}` },
    related: ends.flatMap(({ terminal, cores }) =>
      cores
        .filter((core) => core.place !== place)
        .map((core) => ({ message: `${core.core.run.name} ends on ${terminal} here`, place: core.place })),
    ),
    fixes: [fix],
  };
}

function isOneColour(ends: readonly { readonly core: Core }[]): boolean {
  const colours = new Set(ends.map(({ core }) => core.colour));
  return colours.size === 1 && !colours.has(undefined);
}

/** What a terminal is joined to without its part's own contacts. */
interface Beyond {
  /** Undefined when none or both. */
  readonly polarity: '+' | '-' | undefined;
  /** `surely` where a panel, a battery or an alternator is; `maybe` where only what gives out what others gave is. */
  readonly feeds: 'surely' | 'maybe' | 'no';
}

const sources: ReadonlySet<string> = new Set(['panel', 'battery', 'alternator']);
const handingOn: ReadonlySet<string> = new Set(['converter', 'charger', 'controller']);

function beyondOf(part: Part, model: Model, network: Network): (terminal: string) => Beyond {
  const known = new Map<string, Beyond>();
  return (name) => {
    const before = known.get(name);
    if (before !== undefined) return before;
    const start = model.terminals.get(`${part.name}:${name}`);
    const found = new Set<string>();
    const seen = new Set<string>();
    let feeds: Beyond['feeds'] = 'no';
    const queue = start === undefined ? [] : [start];
    for (const terminal of queue) {
      if (seen.has(terminal.id)) continue;
      seen.add(terminal.id);
      if (terminal.spec.polarity !== undefined) found.add(terminal.spec.polarity);
      const { word } = terminal.part.kind;
      if (sources.has(word)) feeds = 'surely';
      else if (feeds === 'no' && handingOn.has(word)) feeds = 'maybe';
      for (const edge of network.at.get(terminal.id) ?? []) {
        if (edge.is === 'contact' && edge.part === part) continue;
        queue.push(edge.from === terminal ? edge.to : edge.from);
      }
    }
    const [only] = found;
    const result = { polarity: found.size === 1 ? (only as '+' | '-') : undefined, feeds };
    known.set(name, result);
    return result;
  };
}
