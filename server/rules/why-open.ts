/** Why something in the way of a load lets nothing through in a case, and what would change that. */
import type { CaseAnswer } from '../answers/answers.ts';
import { type Barrier, barriersBefore, type Standing } from '../answers/barred.ts';
import { closedPositions, pickUpVolts } from '../answers/contacts-in-case.ts';
import { drawsOf } from '../answers/ports.ts';
import { isOn } from '../answers/sources.ts';
import type { Case, Model, Part } from '../model/model.ts';
import type { ContactEdge, Network } from '../model/network.ts';
import { positionsOf } from '../model/selector-positions.ts';
import { deadVolts } from './coil-voltage.ts';
import { reach } from './reach.ts';
import { isCommonSwapped } from './selector-common-swapped.ts';
import { names, volts } from './words.ts';

/** `S1 is off`, and `have S1 on`; no mend where the case cannot bring it about. */
export interface Why {
  readonly part: Part;
  readonly says: string;
  readonly mends: string | undefined;
  /** What else may be wrong, where the wiring may be meant otherwise. */
  readonly unless?: string;
}

/** How contacts and sources stand in a case that has an answer. */
export function standingIn(stated: Case, answer: CaseAnswer): Standing {
  const closed = new Set(answer.contacts.flatMap((one) => (one.closed ? [`${one.part.name} ${one.pole}`] : [])));
  return {
    isClosed: ({ part, contact }) => closed.has(`${part.name} ${contact.pole}`),
    gives: (source) => isOn(source, stated),
  };
}

export interface WithinCase {
  readonly stated: Case;
  readonly answer: CaseAnswer;
  /** Of all cases: what never pulls in is told itself. */
  readonly answers: readonly CaseAnswer[];
  readonly network: Network;
  readonly model: Model;
}

/**
 * Undefined where it is not the case that opens one of them, so that nothing is to be put right in it: a cut-off that opens by
 * itself, a coil that no wire leads to.
 */
export function whyOpen(
  barriers: readonly Barrier[],
  within: WithinCase,
  asked: ReadonlySet<Part> = new Set(),
): readonly Why[] | undefined {
  const edgesOf = new Map<Part, ContactEdge[]>();
  for (const { part, edge } of barriers)
    edgesOf.set(part, [...(edgesOf.get(part) ?? []), ...(edge === undefined ? [] : [edge])]);
  const all: Why[] = [];
  for (const [part, edges] of edgesOf) {
    const why = whyOf(part, edges, within, asked);
    if (why === undefined) return undefined;
    all.push(why);
  }
  return all;
}

function whyOf(
  part: Part,
  edges: readonly ContactEdge[],
  within: WithinCase,
  asked: ReadonlySet<Part>,
): Why | undefined {
  const said = within.stated.on.get(part.name);
  const [edge] = edges;
  const onThere = `have ${part.name} on`;
  const isOff = { part, says: `${part.name} is off`, mends: onThere };
  if (edge === undefined)
    return said === false ? isOff : { part, says: `${part.name} is off unless a case has it on`, mends: onThere };
  switch (edge.contact.operated) {
    case 'diode':
      return { part, says: `${part.name} lets current pass the other way only`, mends: undefined };
    case 'position':
      return said === false ? isOff : turned(part, edges, within);
    case 'coil':
      return said === false ? isOff : unpulled(part, within, asked);
    case 'coil-rest': {
      const opens = `${part.name}:${edge.contact.to}`;
      return said === true
        ? { part, says: `${part.name} is on, which opens ${opens}`, mends: `have ${part.name} off` }
        : {
            part,
            says: `${part.name} has pulled in, which opens ${opens}`,
            mends: undefined,
            unless: `what is to be fed while ${part.name} is pulled in goes on 87`,
          };
    }
    default:
      return isOff;
  }
}

/** A selector that stands where it does not join what it would have to; undefined where its wiring is told as wrong itself. */
function turned(part: Part, edges: readonly ContactEdge[], { stated, network, model }: WithinCase): Why | undefined {
  const needed = edges.map(({ contact }) => contact.from);
  const all = positionsOf(part);
  const said = all.find(({ name }) => name === stated.positions.get(part.name));
  const usual = all.find(({ joins }) => joins.join() === closedPositions(part).join());
  const joins = (said ?? usual)?.joins ?? [];
  if (joins.length > 0 && isCommonSwapped(part, model, network)) return undefined;
  const onIts = joins.some((name) => hasBattery(part, name, network));
  const unless = onIts
    ? { unless: `if ${part.name} is to choose between batteries, they go on 1 and 2 and what they feed on common` }
    : {};
  const joining = all.filter((one) => needed.every((name) => one.joins.includes(name)));
  if (joining.length === 0)
    return { part, says: `${part.name} has no position that joins ${ends(part, needed)}`, mends: undefined, ...unless };
  const now = said?.name ?? `${usual?.name ?? ''} unless a case turns it`;
  const to = joining.map(({ name }) => name).reverse();
  return { part, says: `${part.name} stands at ${now}`, mends: `turn ${part.name} to ${to.join(' or ')}`, ...unless };
}

/** Whether a battery is on a terminal of a selector, all other contacts being closed. */
function hasBattery(part: Part, name: string, network: Network): boolean {
  const start = part.terminals.find(({ spec }) => spec.name === name);
  if (start === undefined) return false;
  const there = reach(start, network, (edge) => edge.is !== 'contact' || edge.part !== part);
  return [...there].some((one) => one.part.kind.word === 'battery' && one.spec.polarity === '+');
}

function ends({ name }: Part, needed: readonly string[]): string {
  return needed.length > 1 ? names(needed.map((end) => ({ name: `${name}:${end}` }))) : `${name}:${needed[0]}`;
}

/** A relay that has not pulled in, because of what opens the way to its coil. */
function unpulled(part: Part, within: WithinCase, asked: ReadonlySet<Part>): Why | undefined {
  const { stated, answer, answers, network } = within;
  const has = Math.abs(answer.partIn(part)?.coilVolts ?? 0);
  if (has > deadVolts) {
    const needed = pickUpVolts(part, false) ?? 0;
    const pullsElsewhere = answers.some((one) => Math.abs(one.partIn(part)?.coilVolts ?? 0) >= needed);
    const opensByItself = part.facts.says('opens-below') || part.facts.says('closes-above');
    if (opensByItself || !pullsElsewhere) return undefined;
    return { part, says: `the coil of ${part.name} has only ${volts(has)}`, mends: undefined };
  }
  const coil = drawsOf([part]).find(({ is }) => is === 'coil');
  if (coil === undefined || asked.has(part)) return undefined;
  const barriers = barriersBefore(coil, network, standingIn(stated, answer));
  if (barriers === undefined || barriers.length === 0 || barriers.some((one) => one.part === part)) return undefined;
  const why = whyOpen(barriers, within, new Set([...asked, part]));
  if (why === undefined) return undefined;
  const mends = why.flatMap((one) => one.mends ?? []);
  return {
    part,
    says: `${part.name} has not pulled in because ${listed(why.map(({ says }) => says))}`,
    mends: mends.length === 0 ? undefined : listed(mends),
  };
}

/** `a, b and c`, each once. */
export function listed(words: readonly string[]): string {
  return names(words.map((name) => ({ name })));
}
