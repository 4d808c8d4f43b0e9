/** A battery isolator that leaves a controller with its panels and no battery. */
import { keptWith } from '../model/lazily.ts';
import type { Part, Run, Terminal } from '../model/model.ts';
import type { Edge, Layout, Network } from '../model/network.ts';
import { isAccepted } from './accepted.ts';
import { panelIsolation } from './panel-isolation.ts';
import { reach } from './reach.ts';
import type { Rule, RuleContext } from './rule.ts';
import { sunny } from './sunny.ts';

const behind = [
  'isolator Q2 1 pole, 50 A dc, 48 V',
  'run W5 4 mm² red, 0.4 m, U1:bat+ to Q2:1',
  'run W8 4 mm² red, 0.4 m, Q2:2 to F1:out',
];

export const rule: Rule = {
  slug: 'battery-opened-before-panels',
  severity: 'advice',
  group: 'switching',
  reads: ['controller.battery-first', 'isolator.poles', 'panel.voc', 'run.ends'],
  page: {
    title: 'A battery isolator that leaves a controller on its panels alone',
    why: 'Without its battery a controller has nothing that holds its output: the voltage of the panels may reach the loads, and some controllers fail.',
    limit:
      'Panels are opened before the battery is. Found where the controller’s maker wants the battery connected first, and where it is accepted that the panels have no isolator (common practice, no source); else no-isolation tells of that.',
    mend: 'Join the controller to the battery’s side of the isolator, through a fuse of its own; or open the panels’ isolator first each time, and mark the battery’s so.',
    see: ['no-isolation', 'controller-output-unfused', 'essential-load-isolated'],
    wrong: [
      sunny({
        controller: ', connect battery first # finds: battery-opened-before-panels "connect battery first"',
        onward: behind,
      }),
    ],
    right: [sunny({ onward: behind }), sunny({ controller: ', connect battery first' })],
  },
  *check(context) {
    for (const { controller, first } of wantBattery(context)) {
      const isolator = opening(controller, context);
      if (isolator === undefined) continue;
      yield {
        message: first
          ? `Opened first, ${isolator.name} leaves ${controller.name} with its panels and no battery, which its maker forbids: join it before ${isolator.name} through a fuse of its own, or open the panels first.`
          : `Opened in the sun, ${isolator.name} leaves ${controller.name} with its panels and no battery, and nothing opens the panels first: join it before ${isolator.name} through a fuse of its own, or fit an isolator for the panels.`,
        place: first ? controller.facts.place('battery-first') : controller.namePlace,
        subject: controller.name,
        figures: { isolator: isolator.name },
        related: [{ message: `${isolator.name} opens the battery`, place: isolator.namePlace }],
      };
    }
  },
};

/** Controllers that must not be left with their panels alone; `first` where their maker says so. */
function wantBattery(context: RuleContext): { readonly controller: Part; readonly first: boolean }[] {
  const inputs = panelIsolation(context);
  const controllers = [...new Set(inputs.map(({ input }) => input.controller))];
  return controllers.flatMap((controller) => {
    if (controller.kind.word !== 'controller') return [];
    const first = controller.facts.says('battery-first');
    // That nothing opens the panels is told by no-isolation, unless that is accepted.
    const open =
      isAccepted(context.model, 'no-isolation', controller.name) &&
      inputs.some(
        ({ input, plus, minus }) => input.controller === controller && plus !== 'switch' && minus !== 'switch',
      );
    return first || open ? [{ controller, first }] : [];
  });
}

/** A controller that would be left so if the cores of a run were opened, and is not by anything yet. */
export function controllerWithout(run: Run, context: RuleContext): Part | undefined {
  const { model, answers } = context;
  const { network } = answers;
  const found = wantBattery(context).find(({ controller }) => {
    if (opening(controller, context) !== undefined) return false;
    return (['+', '-'] as const).some((sign) => {
      const start = model.terminals.get(`${controller.name}:bat${sign}`);
      const has = (passes: (edge: Edge) => boolean) =>
        start !== undefined && [...reach(start, network, passes)].some((one) => isBattery(one, sign));
      return has(() => true) && !has((edge) => edge.is !== 'core' || edge.core.run !== run);
    });
  });
  return found?.controller;
}

const isBattery = ({ part, spec }: Terminal, sign: '+' | '-'): boolean =>
  part.kind.word === 'battery' && spec.polarity === sign;

/** By controller: what opens its battery follows from the layout alone. */
const opensBattery = keptWith((_: Layout) => new Map<Part, Part | undefined>());

function opening(controller: Part, { model, answers: { network } }: RuleContext): Part | undefined {
  const known = opensBattery(network.layout);
  if (!known.has(controller)) known.set(controller, openingOf(controller, model.terminals, network));
  return known.get(controller);
}

/** A switch by hand without which no battery is joined to the controller; the first by name. */
function openingOf(controller: Part, terminals: ReadonlyMap<string, Terminal>, network: Network): Part | undefined {
  const found: Part[] = [];
  for (const sign of ['+', '-'] as const) {
    const start = terminals.get(`${controller.name}:bat${sign}`);
    if (start === undefined) continue;
    const wanted = (one: Terminal) => isBattery(one, sign);
    // One that opens every way lies on whichever way is looked at.
    for (const part of switchesOnAWay(start, network, wanted))
      if (![...reach(start, network, (edge: Edge) => edge.is !== 'contact' || edge.part !== part)].some(wanted))
        found.push(part);
  }
  return found.sort((a, b) => (a.name < b.name ? -1 : 1))[0];
}

/** Switches by hand on one of the ways to a terminal that is wanted; none where there is no way. */
function switchesOnAWay(start: Terminal, network: Network, wanted: (terminal: Terminal) => boolean): Set<Part> {
  const cameBy = new Map<Terminal, Edge | undefined>([[start, undefined]]);
  for (const terminal of cameBy.keys()) {
    if (wanted(terminal)) {
      const switches = new Set<Part>();
      for (let at = terminal, edge = cameBy.get(at); edge !== undefined; edge = cameBy.get(at)) {
        if (edge.is === 'contact' && isBatterySwitch(edge.part)) switches.add(edge.part);
        at = edge.from === at ? edge.to : edge.from;
      }
      return switches;
    }
    for (const edge of network.at.get(terminal.id) ?? []) {
      const other = edge.from === terminal ? edge.to : edge.from;
      if (!cameBy.has(other)) cameBy.set(other, edge);
    }
  }
  return new Set();
}

function isBatterySwitch({ kind }: Part): boolean {
  return kind.word === 'isolator' || kind.word === 'switch' || kind.word === 'selector';
}
