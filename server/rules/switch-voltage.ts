/** A switch for less voltage than it has to open. */
import { lampSpec, throughS1 } from './language.ts';
import { isAbove, openVolts } from './open-volts.ts';
import type { Rule } from './rule.ts';
import { sunny, throughIsolator } from './sunny.ts';
import { names, volts } from './words.ts';

const { out, on } = throughS1;

const panel = (voc: number) => ({
  panel: `300 W, voc ${voc} V, isc 6.2 A, vmp 48 V, imp 5.7 A, voc drift 0 %/°C`,
  system: 'system "Shed" 12 V, coldest 25 °C',
});
const one = (isolator: string) => ({ between: [isolator, ...throughIsolator.slice(1)] });
const onePole = (rated: string, found = '') => [
  `isolator Q1 1 pole, 16 A dc, ${rated}, category DC-PV2${found}`,
  'run W1 4 mm² red, 2 m, P1:+ to Q1:1',
  'run W2 4 mm² black, 5 m, P1:- to U1:pv-',
  'run W3 4 mm² red, 3 m, Q1:2 to U1:pv+',
];
const high = {
  system: 'system "Shed" 48 V',
  battery: 'battery B1 lithium-iron-phosphate, 51.2 V, 80 Ah, internal 40 mΩ',
  fuse: 'fuse F1 5 A, cartridge, 125 V, breaks 20 kA',
  out,
};

/** A second circuit through the same switch. */
const besides = (minus: string) => [
  'load FAN 12 W',
  'fuse F2 5 A, cartridge, 125 V, breaks 20 kA',
  'run W6 1.5 mm² red, 0.1 m, B1:+ to F2:in',
  'run W7 1.5 mm² red, 1 m, F2:out to S1:3',
  'run W8 1.5 mm² red, 1 m, S1:4 to FAN:+',
  `run W9 1.5 mm² black, 1 m, FAN:- to ${minus}`,
];

/** A switch of which one pole opens the plus of a lamp and one its minus. */
const bothConductors = (switched: string) =>
  lampSpec(
    { ...high, back: 'run W3 1.5 mm² black, 1 m, LAMP:- to S1:3' },
    switched,
    on,
    'run W5 1.5 mm² black, 1 m, S1:4 to B1:-',
  );

/** A selector before the lamp, of which the battery has but the first supply. */
const eachItsOwn = (selector: string) =>
  lampSpec({ ...high, out: out.replace('S1:1', 'S1:1') }, selector, on.replace('S1:2', 'S1:common')).spec;

export const rule: Rule = {
  slug: 'switch-voltage',
  severity: 'error',
  group: 'switching',
  reads: [
    'isolator.voltage',
    'switch.voltage',
    'selector.voltage',
    'isolator.series',
    'switch.series',
    'panel.voc',
    'panel.voc-drift',
    'system.coldest',
    'battery.voltage',
  ],
  page: {
    title: 'A switch for less voltage than it opens',
    why: 'The higher the voltage, the longer the arc that direct current draws: above its rating a switch opens and the arc stays, and burns in the box.',
    limit:
      'The rated d.c. voltage that the maker states for one pole, or for so many in series, against the panels’ open-circuit voltage in the greatest cold, else against the nominal voltage of the batteries; 12.8 V counts as 12 V (common practice, no source).',
    mend: 'Fit a switch for this voltage. Poles in series help only by the maker’s figure, said as `2 in series 600 V`, and only those that stand in one circuit, in its plus or in its minus; each of two strings or circuits has its own poles.',
    see: ['ratings-unstated', 'series-rating-unstated', 'switch-category', 'switch-below-load'],
    wrong: [
      sunny({ ...panel(50.1), between: onePole('50 V', ' # finds: switch-voltage "50 V"') }),
      sunny({
        ...panel(60.1),
        ...one(
          'isolator Q1 2 poles, 16 A dc, 30 V, 2 in series 60 V, category DC-PV2 # finds: switch-voltage "2 in series 60 V"',
        ),
      }),
      lampSpec(high, 'switch S1 1 pole, 10 A dc, 24 V # finds: switch-voltage "24 V"', on),
      lampSpec(
        high,
        'switch S1 2 poles, 10 A dc, 24 V, 2 in series 60 V # finds: switch-voltage "24 V"',
        on,
        ...besides('LAMP:-'),
      ),
      { spec: eachItsOwn('selector S1 100 A dc, 32 V, positions off 1 2 # finds: switch-voltage "32 V"') },
    ],
    right: [
      sunny({ ...panel(50), between: onePole('50 V') }),
      sunny({ ...panel(60), ...one('isolator Q1 2 poles, 16 A dc, 60 V, category DC-PV2') }),
      lampSpec(high, 'switch S1 1 pole, 10 A dc, 48 V', on),
      bothConductors('switch S1 2 poles, 10 A dc, 24 V, 2 in series 60 V'),
      sunny({ ...panel(60.1), ...one('isolator Q1 2 poles, 16 A dc, 60 V, 2 in series 120 V, category DC-PV2') }),
    ],
  },
  *check(context) {
    for (const open of openVolts(context)) {
      const { part, needed, from, by, rated, poles, circuits, series } = open;
      const best = Math.max(rated, series?.volts ?? 0);
      // Of poles in series without a figure nobody knows: that is told by itself.
      if (!isAbove(open, best) || (poles > 1 && series === undefined)) continue;
      const clause = series !== undefined && series.volts >= rated ? 'series' : 'voltage';
      const what =
        from === 'panels' ? `${names(by)} can reach ${volts(needed)}` : `it opens ${volts(needed)} (${names(by)})`;
      const apart =
        series === undefined && circuits > 1 && part.facts.says('series')
          ? ' Its poles open circuits of their own, so none helps another.'
          : '';
      yield {
        message: `${part.name} is rated ${volts(best)}${clause === 'series' ? ` with ${series?.poles} poles in series` : ''}, but ${what}, and above its rating the arc may stay: fit one for ${volts(needed)} or more.${apart}`,
        place: part.facts.place(clause),
        subject: part.name,
        figures: { ratedVolts: best, neededVolts: needed },
        related: by.map((one) => ({
          message: `${one.name} makes the voltage`,
          place: one.facts.place(from === 'panels' ? 'voc' : 'voltage'),
        })),
      };
    }
  },
};
