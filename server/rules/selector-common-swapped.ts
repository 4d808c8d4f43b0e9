/** A selector of batteries with a battery where what they feed belongs. */
import { arrangementOf } from '../answers/arrangement.ts';
import { endsAt } from '../answers/joining-paths.ts';
import { keptWith } from '../model/lazily.ts';
import type { Model, Part, Terminal } from '../model/model.ts';
import type { Layout, Network } from '../model/network.ts';
import { positionsOf } from '../model/selector-positions.ts';
import { UnionFind } from '../physics/union-find.ts';
import { isAccepted } from './accepted.ts';
import { lampSpec } from './language.ts';
import type { Rule } from './rule.ts';
import { names, someNames } from './words.ts';

/** Two batteries and a lamp on a selector: which of its terminals the first battery and the lamp are on. */
const chosen = (battery: string, lamp: string, marked = '') =>
  lampSpec(
    { out: `run W2 1.5 mm² red, 1.2 m, F1:out to S9:${battery}` },
    'battery B2 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
    'fuse F2 5 A, blade, 32 V',
    `selector S9 50 A dc, 24 V, positions off 1 2 both${marked}`,
    'run W4 1.5 mm² red, 0.1 m, B2:+ to F2:in',
    'run W5 1.5 mm² red, 1.2 m, F2:out to S9:2',
    `run W6 1.5 mm² red, 1 m, S9:${lamp} to LAMP:+`,
    'run W7 1.5 mm² black, 0.5 m, B2:- to B1:-',
  );

export const rule: Rule = {
  slug: 'selector-common-swapped',
  severity: 'warning',
  group: 'switching',
  restsOnAllNames: true,
  reads: ['selector.positions', 'run.ends'],
  page: {
    title: 'A battery on the common terminal of a selector',
    why: 'One of the batteries can then never feed by itself: in its position the selector joins the two batteries and leaves the loads with nothing, so that the battery which is to be in reserve empties into the other.',
    limit:
      'Where a selector chooses between two batteries, each is on a terminal of its own, 1 or 2, and what they feed is on `common` (common practice, no source). Told only where the common terminal has a battery and no load, one of the others a battery and no load, and the third loads and no battery; all other contacts are taken as closed.',
    mend: 'Take the fuses of both batteries out and prove dead, then swap what is on the common terminal with what is on that of the loads.',
    see: ['dead-in-case', 'batteries-mixed', 'controller-sides-swapped'],
    wrong: [chosen('common', '1', ' # finds: selector-common-swapped "S9"')],
    right: [
      chosen('1', 'common'),
      // One battery that feeds two boards by turns.
      lampSpec(
        { out: 'run W2 1.5 mm² red, 1.2 m, F1:out to S9:common' },
        'selector S9 50 A dc, 24 V, positions off 1 2 both',
        'load FAN 12 W',
        'run W4 1.5 mm² red, 1 m, S9:1 to LAMP:+',
        'run W5 1.5 mm² red, 1 m, S9:2 to FAN:+',
        'run W6 1.5 mm² black, 1 m, FAN:- to B1:-',
      ),
    ],
  },
  *check({ answers: { network } }) {
    for (const { part, common, loads, battery, others, fed } of swappedIn(network.layout)) {
      const ends = [
        ...endsAt(common, network).map(({ place }) => ({ place, newText: loads.id })),
        ...endsAt(loads, network).map(({ place }) => ({ place, newText: common.id })),
      ];
      const [own, other] = [names(battery), names(others.parts)];
      yield {
        message: `${own} ${battery.length > 1 ? 'are' : 'is'} on ${common.id} and ${someNames(fed, 3)} on ${loads.id}, so at ${others.position} ${part.name} joins ${own} to ${other} and feeds nothing: swap what is on ${common.id} with what is on ${loads.id}.`,
        place: part.namePlace,
        subject: part.name,
        figures: { common: own, loads: names(fed) },
        related: [...battery, ...others.parts, ...fed].map((one) => ({
          message: `${one.name} is on ${battery.includes(one) ? common.id : fed.includes(one) ? loads.id : others.terminal}`,
          place: one.namePlace,
        })),
        fixes: [{ title: `Swap ${common.id} with ${loads.id}`, safe: false, edits: ends }],
      };
    }
  },
};

/** Whether a selector is found here, and not accepted. */
export function isCommonSwapped(part: Part, model: Model, { layout }: Network): boolean {
  return swappedIn(layout).some((one) => one.part === part) && !isAccepted(model, rule.slug, part.name);
}

interface Swapped {
  readonly part: Part;
  readonly common: Terminal;
  readonly loads: Terminal;
  /** On the common terminal. */
  readonly battery: readonly Part[];
  readonly others: { readonly parts: readonly Part[]; readonly position: string; readonly terminal: string };
  readonly fed: readonly Part[];
}

const swappedIn = keptWith((layout: Layout): readonly Swapped[] =>
  layout.parts.flatMap((part) => (part.kind.word === 'selector' ? (swapped(part, layout) ?? []) : [])),
);

function swapped(part: Part, layout: Layout): Swapped | undefined {
  const { sources, draws, wiring } = arrangementOf(layout);
  const nets = new UnionFind(layout.terminals.length);
  for (const joint of layout.joints)
    if (joint.is !== 'contact' || joint.part !== part) nets.join(joint.from.index, joint.to.index);
  for (const { from, to } of wiring.inner) nets.join(from.index, to.index);
  const at = (name: string) => part.terminals.find(({ spec }) => spec.name === name);
  const [common, first, second] = [at('common'), at('1'), at('2')];
  if (common === undefined || first === undefined || second === undefined) return undefined;
  const isOn = (one: Terminal, terminal: Terminal) => nets.find(one.index) === nets.find(terminal.index);
  const on = (terminal: Terminal) => ({
    terminal,
    batteries: unique(sources.filter((one) => one.is === 'battery' && isOn(one.plus, terminal))),
    loads: unique(draws.filter((one) => one.is !== 'pass' && isOn(one.plus, terminal))),
  });
  const isBattery = ({ batteries, loads }: ReturnType<typeof on>) => batteries.length > 0 && loads.length === 0;
  const home = on(common);
  if (!isBattery(home) || [first, second].some((one) => isOn(one, common)) || isOn(first, second)) return undefined;
  for (const [loads, battery] of [[on(first), on(second)] as const, [on(second), on(first)] as const]) {
    if (!isBattery(battery) || loads.loads.length === 0 || loads.batteries.length > 0) continue;
    const { name } = battery.terminal.spec;
    const position = positionsOf(part).find(({ joins }) => joins.length === 1 && joins[0] === name);
    if (position === undefined) continue;
    return {
      part,
      common,
      loads: loads.terminal,
      battery: home.batteries,
      others: { parts: battery.batteries, position: position.name, terminal: battery.terminal.id },
      fed: loads.loads,
    };
  }
  return undefined;
}

function unique(ports: readonly { readonly part: Part }[]): Part[] {
  return [...new Set(ports.map(({ part }) => part))];
}
