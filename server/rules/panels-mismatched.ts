/** Panels that together give much less than each by itself: unlike currents in series, or unlike voltages in parallel. */

import { pointsOf } from '../answers/panels.ts';
import type { StringFigures } from '../answers/strings.ts';
import type { Rule } from './rule.ts';
import { inParallel, inSeries, sunSpec } from './sun-examples.ts';
import { amps, names, percent, volts } from './words.ts';

/** Part of their power that unlike panels may cost before it is told of (common practice, no source). */
const mostLost = 0.05;

const strong = 'panel P1 100 W, voc 22.5 V, isc 5.9 A, vmp 18.6 V, imp 5.4 A, voc drift -0.30 %/°C';
const weak = 'P2 50 W, voc 22.2 V, isc 3.0 A, vmp 18.4 V, imp 2.7 A, voc drift -0.30 %/°C';

export const rule: Rule = {
  slug: 'panels-mismatched',
  severity: 'warning',
  group: 'panels',
  reads: ['panel.voc', 'panel.isc', 'panel.vmp', 'panel.imp'],
  page: {
    title: 'Panels that hold one another back',
    why: 'In series one current flows through all, so the weakest panel decides, or the others drive past it and its part is lost. In parallel one voltage holds for all, so panels of another voltage give little of their power.',
    limit:
      'The greatest power of the panels together, by their curves at 25 °C, against the sum of their own: told of where more than 5 % is lost (common practice, no source).',
    mend: 'Put panels of like current in series and of like voltage in parallel, or give the odd one a controller of its own.',
    see: ['pv-current-over-controller', 'panel-figures-disagree'],
    wrong: [sunSpec({ panels: `${strong}\npanel ${weak} # finds: panels-mismatched "P2"`, wiring: inSeries })],
    right: [
      sunSpec({ panels: `${strong}\npanel ${weak}`, wiring: inParallel }),
      sunSpec({ panels: strong.replace('P1', 'P1 and P2'), wiring: inSeries }),
    ],
  },
  *check({ answers }) {
    for (const { strings, watts, controller } of answers.strings.inputs) {
      for (const string of strings) {
        const lost = 1 - string.watts / string.panelWatts;
        const [odd, other] = apart(string);
        // One panel loses nothing to itself: a figure of it is missing.
        if (!(lost > mostLost) || odd === undefined || other === undefined || odd === other) continue;
        yield {
          message: `In series ${names(string.panels)} lose ${percent(100 * lost)} of their power, since ${odd.name} is for ${amps(pointsOf(odd).imp)} and ${other.name} for ${amps(pointsOf(other).imp)}: put panels of like current in series, or give the odd one a controller of its own.`,
          place: odd.namePlace,
          subject: odd.name,
          figures: { lostPercent: 100 * lost, watts: string.watts, panelWatts: string.panelWatts },
          related: [{ message: `${other.name} is in series with it`, place: other.namePlace }],
        };
      }
      const each = strings.reduce((sum, string) => sum + string.watts, 0);
      const lost = 1 - watts / each;
      const byVolts = [...strings].sort((one, two) => one.vmp - two.vmp);
      const [low, high] = [byVolts[0], byVolts.at(-1)];
      const odd = low === undefined || high === undefined || low.watts <= high.watts ? low : high;
      const most = odd === low ? high : low;
      const [part] = odd?.panels ?? [];
      if (!(lost > mostLost) || odd === undefined || most === undefined || part === undefined) continue;
      if (most.panels.includes(part)) continue;
      yield {
        message: `In parallel at ${controller.name} ${names(strings.flatMap(({ panels }) => panels))} lose ${percent(100 * lost)} of their power, since ${names(odd.panels)} ${odd.panels.length > 1 ? 'are' : 'is'} for ${volts(odd.vmp)} and ${names(most.panels)} for ${volts(most.vmp)}: put panels of like voltage in parallel, or give the odd ones a controller of their own.`,
        place: part.namePlace,
        subject: part.name,
        figures: { lostPercent: 100 * lost, watts, panelWatts: each },
        related: most.panels
          .slice(0, 2)
          .map((one) => ({ message: `${one.name} is in parallel with it`, place: one.namePlace })),
      };
    }
  },
};

/** Of a string the panel of least current, and that of most. */
function apart({ panels }: StringFigures) {
  const byAmps = [...panels].sort((one, two) => pointsOf(one).imp - pointsOf(two).imp);
  return [byAmps[0], byAmps.at(-1)] as const;
}
