/** Panels that nothing parts from their controller. */
import { exceeds } from './exceeds.ts';
import { type PanelIsolation, panelIsolation } from './panel-isolation.ts';
import type { Rule } from './rule.ts';
import { sunny, throughIsolator } from './sunny.ts';
import { names, volts } from './words.ts';

/** Above it both conductors are opened, and under load: where direct current begins to be dangerous to touch in the dry (common practice, no source). */
const touchVolts = 60;

const straight = ['run W1 4 mm² red, 5 m, P1:+ to U1:pv+', 'run W2 4 mm² black, 5 m, P1:- to U1:pv-'];
const plugged = [
  'connector X1 2 pins, 30 A, 600 V',
  'run W1 4 mm² red, 2 m, P1:+ to X1:1',
  'run W2 4 mm² black, 2 m, P1:- to X1:2',
  'run W3 4 mm² red, 3 m, X1:1 to U1:pv+',
  'run W4 4 mm² black, 3 m, X1:2 to U1:pv-',
];
const onePole = [
  'isolator Q1 1 pole, 16 A dc, 150 V, category DC-PV2',
  'run W1 4 mm² red, 2 m, P1:+ to Q1:1',
  'run W2 4 mm² black, 5 m, P1:- to U1:pv-',
  'run W3 4 mm² red, 3 m, Q1:2 to U1:pv+',
];
const high = (voc: number) => ({
  panel: `300 W, voc ${voc} V, isc 6.2 A, vmp 50 V, imp 5.7 A, voc drift 0 %/°C`,
  system: 'system "Shed" 12 V, coldest 25 °C',
});

export const rule: Rule = {
  slug: 'no-isolation',
  severity: 'warning',
  group: 'switching',
  reads: ['panel.voc', 'panel.voc-drift', 'system.coldest', 'isolator.poles', 'connector.pins', 'run.ends'],
  page: {
    title: 'Panels that nothing can isolate',
    why: 'Panels cannot be switched off while there is light. Without an isolator nobody can work on the controller, and a fault behind the panels burns on until night.',
    limit: `Panels can be parted from their controller (IEC 60364-7-712 clause 712.537, from memory). Plugs or fuses that are pulled when no current flows will do for advice while the string stays below ${touchVolts} V in the greatest cold (common practice, no source); above it, both conductors are opened by a switch. A battery is parted by its isolator, breaker or fuse; one with none of them is found as \`supply-unfused\`.`,
    mend: 'Fit an isolator for direct current of the category DC-PV2 between panels and controller, one that opens both conductors.',
    see: ['battery-opened-before-panels', 'switch-category', 'isolator-out-of-reach'],
    wrong: [
      sunny({ between: straight, controller: ' # finds: no-isolation "pv 150 V 15 A"' }),
      sunny({ between: plugged, controller: ' # finds: no-isolation "pv 150 V 15 A"' }),
      sunny({ between: onePole, controller: ' # finds: no-isolation "pv 150 V 15 A"', ...high(60.1) }),
      sunny({ between: plugged, controller: ' # finds: no-isolation "pv 150 V 15 A"', ...high(60.1) }),
    ],
    right: [sunny({}), sunny({ between: onePole, ...high(60) }), sunny({ between: throughIsolator, ...high(60.1) })],
  },
  *check(context) {
    const byInput = new Map<PanelIsolation['input'], PanelIsolation[]>();
    for (const one of panelIsolation(context)) byInput.set(one.input, [...(byInput.get(one.input) ?? []), one]);
    for (const [{ controller }, strings] of byInput) {
      const bad = strings.filter((one) => fault(one) !== undefined);
      const worst = bad.find((one) => fault(one) !== 'plug') ?? bad[0];
      if (worst === undefined) continue;
      const kind = fault(worst);
      const cold = coldest(worst);
      const panels = names(bad.flatMap(({ string }) => string.panels));
      const how =
        kind === 'plug'
          ? `${panels} can be parted from ${controller.name} only by pulling a plug or fuse, and never while current flows: an isolator would let them be switched off in the sun`
          : kind === 'one'
            ? `${panels} can reach ${volts(cold)} in the cold, but not both conductors to ${controller.name} can be switched off: above ${touchVolts} V fit an isolator that opens both`
            : `Nothing can part ${panels} from ${controller.name}, and panels are live in any light: fit an isolator for direct current between them`;
      yield {
        ...(kind === 'plug' ? { severity: 'advice' as const } : {}),
        message: `${how}.`,
        place: controller.facts.place('pv'),
        subject: controller.name,
        figures: { coldVolts: cold, touchVolts, plus: worst.plus, minus: worst.minus },
        related: bad.flatMap(({ string }) =>
          string.panels.map((panel) => ({ message: `${panel.name} stays live`, place: panel.namePlace })),
        ),
      };
    }
  },
};

function coldest({ string }: PanelIsolation): number {
  return string.coldVolts ?? string.openVolts;
}

/** `plug`: advice; `one`: one conductor stays joined above 60 V; `bare`: nothing parts it. */
function fault(one: PanelIsolation): 'plug' | 'one' | 'bare' | undefined {
  const { plus, minus } = one;
  const both = plus === 'switch' && minus === 'switch';
  const any = plus === 'switch' || minus === 'switch';
  if (both) return undefined;
  const plugs = plus === 'plug' || minus === 'plug';
  if (exceeds(coldest(one), touchVolts)) return any || plugs ? 'one' : 'bare';
  if (any) return undefined;
  return plugs ? 'plug' : 'bare';
}
