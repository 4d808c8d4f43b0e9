/** Panels that can give more current than the panel side of their controller takes. */
import { exceeds } from './exceeds.ts';
import type { Rule } from './rule.ts';
import { inParallel, sunSpec } from './sun-examples.ts';
import { amps, names } from './words.ts';

const two = 'panel P1 and P2 100 W, voc 22.5 V, isc 5.9 A, vmp 18.6 V, imp 5.4 A, voc drift -0.30 %/°C';

export const rule: Rule = {
  slug: 'pv-current-over-controller',
  severity: 'error',
  group: 'panels',
  reads: ['panel.isc', 'controller.pv', 'controller.output', 'controller.method', 'charger.pv'],
  page: {
    title: 'Panels above their controller’s current',
    why: 'A controller that ties its panels to the battery passes all they give and burns above its rating. One that follows their greatest power takes what it may and leaves the rest, which is lost; but some makers allow no more than a stated short-circuit current.',
    limit:
      'The sum of the short-circuit currents of the strings in parallel against the greatest panel current stated for the controller, for a tied (pwm) one against its output too (makers’ figures). For one that follows the greatest power it is advice (common practice, no source).',
    mend: 'Put panels in series where the controller’s voltage allows it, share them between two controllers, or take a larger one.',
    see: ['pv-voltage-over-controller', 'panels-mismatched'],
    wrong: [
      sunSpec({
        panels: two,
        wiring: inParallel,
        controller: 'controller U1 pwm, pv 50 V 10 A, output 10 A # finds: pv-current-over-controller "10 A"',
      }),
      sunSpec({
        panels: two,
        wiring: inParallel,
        controller: 'controller U1 mppt, pv 50 V 10 A, output 15 A # finds: pv-current-over-controller "10 A"',
      }),
    ],
    right: [
      sunSpec({ panels: two, wiring: inParallel, controller: 'controller U1 pwm, pv 50 V 15 A, output 15 A' }),
      sunSpec({ panels: two, wiring: inParallel }),
    ],
  },
  *check({ answers }) {
    for (const { controller, strings, shortCircuitAmps, mostAmps } of answers.strings.inputs) {
      const { facts, name } = controller;
      const tied = facts.word('method') === 'pwm';
      const output = tied ? facts.number('output') : undefined;
      const limits = [
        { amps: mostAmps, place: () => facts.place('pv', 'current'), what: 'at its panel side' },
        { amps: output, place: () => facts.place('output', 'current'), what: 'at its output' },
      ];
      const over = limits.find((limit) => limit.amps !== undefined && exceeds(shortCircuitAmps, limit.amps));
      if (over?.amps === undefined) continue;
      const panels = strings.flatMap((string) => string.panels);
      const give = `${names(panels)} can give ${amps(shortCircuitAmps)}`;
      yield {
        severity: tied ? 'error' : 'advice',
        message: tied
          ? `${give}, and ${name} ties them to the battery but takes ${amps(over.amps)} ${over.what}: ${strings.length > 1 ? 'put panels in series where its voltage allows it, or take' : 'take'} a larger controller.`
          : `${give}, but ${name} takes ${amps(over.amps)} ${over.what}: what is over is lost; look whether its maker allows panels of so great a short-circuit current.`,
        place: over.place(),
        subject: name,
        figures: { shortCircuitAmps, mostAmps: over.amps },
      };
    }
  },
};
