/** Poles that open one circuit together, above what one of them is rated for, without the maker’s figure. */
import { isAbove, openVolts } from './open-volts.ts';
import type { Rule } from './rule.ts';
import { sunny, throughIsolator } from './sunny.ts';
import { names, volts } from './words.ts';

const panel = (voc: number) => ({
  panel: `300 W, voc ${voc} V, isc 6.2 A, vmp 48 V, imp 5.7 A, voc drift 0 %/°C`,
  system: 'system "Shed" 12 V, coldest 25 °C',
});
const one = (isolator: string) => ({ between: [isolator, ...throughIsolator.slice(1)] });

export const rule: Rule = {
  slug: 'series-rating-unstated',
  severity: 'warning',
  group: 'switching',
  reads: [
    'isolator.series',
    'switch.series',
    'isolator.voltage',
    'switch.voltage',
    'panel.voc',
    'panel.voc-drift',
    'system.coldest',
  ],
  page: {
    title: 'Poles in series without the maker’s figure',
    why: 'Several poles that open one circuit share its voltage, but never evenly. How much they open together only the maker knows.',
    limit:
      'The maker’s figure for poles in series, said as `2 in series 600 V`; without it a circuit has no more than the voltage of one pole (common practice, no source).',
    mend: 'Take the figure from the data sheet and say it; where there is none, fit a switch whose pole is for the whole voltage.',
    see: ['switch-voltage', 'linked-rating-unstated'],
    wrong: [
      sunny({
        ...panel(60.1),
        ...one('isolator Q1 2 poles, 16 A dc, 60 V, category DC-PV2 # finds: series-rating-unstated "60 V"'),
      }),
    ],
    right: [
      sunny({ ...panel(60), ...one('isolator Q1 2 poles, 16 A dc, 60 V, category DC-PV2') }),
      sunny({ ...panel(60.1), ...one('isolator Q1 2 poles, 16 A dc, 60 V, 2 in series 120 V, category DC-PV2') }),
    ],
  },
  *check(context) {
    for (const open of openVolts(context)) {
      const { part, needed, from, by, rated, poles, series } = open;
      if (poles < 2 || series !== undefined || !isAbove(open, rated)) continue;
      yield {
        message: `${part.name} opens ${volts(needed)} (${names(by)}) with ${poles} poles, each rated ${volts(rated)}, but what they open in series is not said: say the maker’s figure (${poles} in series … V), or fit one for ${volts(needed)} a pole.`,
        place: part.facts.place('voltage'),
        subject: part.name,
        figures: { ratedVolts: rated, neededVolts: needed, poles },
        related: by.map((other) => ({
          message: `${other.name} makes the voltage`,
          place: other.facts.place(from === 'panels' ? 'voc' : 'voltage'),
        })),
      };
    }
  },
};
