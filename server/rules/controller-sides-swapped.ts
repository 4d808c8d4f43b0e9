/** A controller with its panels on the battery side and its battery on the panel side. */
import { type Arrangement, arrangementOf } from '../answers/arrangement.ts';
import { endsAt } from '../answers/joining-paths.ts';
import { feedsBattery } from '../answers/ports.ts';
import { isBattery } from '../answers/supplies.ts';
import { type Joined, joinedBy } from '../answers/surely-joined.ts';
import { keptWith } from '../model/lazily.ts';
import type { Part, Terminal } from '../model/model.ts';
import type { Layout } from '../model/network.ts';
import type { Example, Rule } from './rule.ts';
import { sunSpec } from './sun-examples.ts';
import { names } from './words.ts';

const isolated = 'controller U1 mppt, pv 50 V 15 A, output 15 A, isolated';

export const rule: Rule = {
  slug: 'controller-sides-swapped',
  severity: 'error',
  group: 'network',
  reads: ['run.ends', 'controller.common'],
  page: {
    title: 'Panels and battery on each other’s terminals of a controller',
    why: 'The battery then drives the panel side, and the panels the battery side, where nothing holds their voltage down: nothing is charged, and the controller is mostly destroyed.',
    limit:
      'Panels belong on the panel side (`pv+`, `pv-`) and the battery on the battery side (`bat+`, `bat-`) of a controller (common practice, no source). Switches and relays count as closed.',
    mend: 'With the battery’s fuse out and the panels isolated or covered, swap the cores on the two sides.',
    see: ['polarity-reversed', 'battery-opened-before-panels'],
    wrong: [
      swapped(['+', '-'], { controller: `${isolated} # finds: controller-sides-swapped "U1"` }),
      swapped(['+'], {
        controller:
          'controller U1 mppt, pv 50 V 15 A, output 15 A, common negative # finds: controller-sides-swapped "U1"',
      }),
    ],
    right: [
      sunSpec({ controller: isolated }),
      // A negative that both sides share may go on either.
      swapped(['-']),
    ],
  },
  *check({ answers: { network } }) {
    for (const { part, panels, batteries, pairs } of swappedIn(network.layout)) {
      const ends = pairs.flatMap(({ panel, battery }) => [
        ...endsAt(panel, network).map(({ place }) => ({ place, newText: battery.id })),
        ...endsAt(battery, network).map(({ place }) => ({ place, newText: panel.id })),
      ]);
      const swaps = pairs.map(({ panel, battery }) => ({ name: `${battery.id} with ${panel.id}` }));
      const [first] = pairs;
      if (first === undefined) continue;
      yield {
        message: `${names(panels)} ${panels.length > 1 ? 'are' : 'is'} on ${first.battery.id} and ${names(batteries)} on ${first.panel.id}: that charges nothing and can destroy ${part.name}. With the panels isolated and the battery’s fuse out, swap ${names(swaps)}.`,
        place: part.namePlace,
        subject: part.name,
        figures: { panels: names(panels), batteries: names(batteries) },
        related: [...panels, ...batteries].map((one) => ({
          message: `${one.name} is on the wrong side`,
          place: one.namePlace,
        })),
        fixes: [{ title: `Swap ${names(swaps)}`, safe: false, edits: ends }],
      };
    }
  },
};

/** The same controller with the cores on some of its terminals swapped. */
function swapped(signs: readonly string[], changes: Parameters<typeof sunSpec>[0] = {}): Example {
  const { spec } = sunSpec(changes);
  const other = (text: string, side: string, sign: string) =>
    signs.includes(sign) ? `${side === 'pv' ? 'U1:bat' : 'U1:pv'}${sign}` : text;
  return { spec: spec.replace(/U1:(pv|bat)([+-])/gu, other) };
}

interface Swapped {
  readonly part: Part;
  readonly panels: readonly Part[];
  readonly batteries: readonly Part[];
  /** Terminals to be swapped, that of the sign which tells first. */
  readonly pairs: readonly Pair[];
}

interface Pair {
  readonly panel: Terminal;
  readonly battery: Terminal;
}

type Sign = '+' | '-';

const swappedIn = keptWith((layout: Layout): readonly Swapped[] => {
  const controllers = layout.parts.filter(({ kind }) => feedsBattery(kind));
  if (controllers.length === 0) return [];
  const arrangement = arrangementOf(layout);
  const joined = joinedBy(() => true, { layout, wiring: { terminals: arrangement.wiring.terminals, inner: [] } });
  return controllers.flatMap((part) => {
    // A pole that both sides share tells nothing.
    const isPositiveShared = part.facts.word('common') === 'common' && part.facts.word('common', 'pole') === 'positive';
    const signs: readonly Sign[] = isPositiveShared ? ['-', '+'] : ['+', '-'];
    const [telling, other] = signs.map((sign) => swappedPole(part, sign, arrangement, joined));
    if (telling === undefined) return [];
    return [{ part, ...telling, pairs: [telling.pair, ...(other === undefined ? [] : [other.pair])] }];
  });
});

/** Panels alone on the battery's terminal of one sign, and batteries alone on the panels'. */
function swappedPole(
  part: Part,
  sign: Sign,
  { sources, supplies }: Arrangement,
  { net }: Joined,
): (Pick<Swapped, 'panels' | 'batteries'> & { readonly pair: Pair }) | undefined {
  const named = (name: string) => part.terminals.find(({ spec }) => spec.name === name);
  const [panel, battery] = [named(`pv${sign}`), named(`bat${sign}`)];
  if (panel === undefined || battery === undefined) return undefined;
  const poleOf = ({ plus, minus }: { readonly plus: Terminal; readonly minus: Terminal }) =>
    net(sign === '+' ? plus : minus);
  const panelsOn = (terminal: Terminal) =>
    sources.filter((one) => one.is === 'panel' && poleOf(one) === net(terminal)).map((one) => one.part);
  const batteriesOn = (terminal: Terminal) =>
    supplies.filter((one) => isBattery(one) && poleOf(one) === net(terminal)).map((one) => one.part);
  const [panels, batteries] = [panelsOn(battery), batteriesOn(panel)];
  const isSwapped = panels.length > 0 && batteries.length > 0;
  if (!isSwapped || panelsOn(panel).length > 0 || batteriesOn(battery).length > 0) return undefined;
  return { panels, batteries, pair: { panel, battery } };
}
