/** Panels whose open-circuit voltage in the greatest cold is above what their controller bears. */
import type { StringFigures } from '../answers/strings.ts';
import { coldVoc, coldVocFactor } from '../tables/photovoltaic.ts';
import { cite } from '../tables/table.ts';
import { exceeds } from './exceeds.ts';
import type { Rule } from './rule.ts';
import { inParallel, inSeries, sunSpec } from './sun-examples.ts';
import { names, temperature, volts } from './words.ts';

/** Frost that is nowhere strange, °C: what it makes of a voltage is told where nobody says how cold it gets. */
const commonFrostCelsius = -10;

const two = 'panel P1 and P2 100 W, voc 22.5 V, isc 5.9 A, vmp 18.6 V, imp 5.4 A, voc drift -0.30 %/°C';

export const rule: Rule = {
  slug: 'pv-voltage-over-controller',
  severity: 'error',
  group: 'panels',
  reads: ['panel.voc', 'panel.voc-drift', 'controller.pv', 'charger.pv', 'system.coldest'],
  page: {
    title: 'Panels above their controller’s voltage in the cold',
    why: 'A panel’s voltage rises as it gets colder and is highest when nothing draws from it: on the first clear frosty morning it destroys the controller, with no fuse to stop it.',
    limit:
      'The open-circuit voltages of all panels in series, at the system’s coldest temperature by their stated drift, must not be above the greatest panel voltage of the controller (its maker’s figure). Where a drift is not stated, the factors of NEC table 690.7(A), from memory, stand in, and that alone makes a warning. Where the coldest is not stated, panels that would pass the limit at -10 °C are told of (common practice, no source).',
    mend: 'Put fewer panels in series, take a single one of lower open-circuit voltage, or take a controller for a higher panel voltage.',
    see: ['pv-current-over-controller', 'pv-below-charging-voltage'],
    wrong: [
      sunSpec({
        panels: two,
        wiring: inSeries,
        controller:
          'controller U1 mppt, pv 48 V 15 A, output 15 A, common negative # finds: pv-voltage-over-controller "48 V"',
      }),
    ],
    right: [
      sunSpec({ panels: two, wiring: inParallel, controller: 'controller U1 mppt, pv 48 V 15 A, output 15 A' }),
      sunSpec({ panels: two, wiring: inSeries }),
    ],
  },
  *check({ model, answers }) {
    const { coldestCelsius } = model.system;
    for (const { controller, strings, mostVolts } of answers.strings.inputs) {
      if (mostVolts === undefined) continue;
      const worst = highest(strings);
      if (worst === undefined) continue;
      const { panels, openVolts, coldVolts, byTable } = worst;
      const now = exceeds(openVolts, mostVolts);
      const frost = openVolts * coldVocFactor(commonFrostCelsius);
      const cold = coldVolts ?? frost;
      if (!now && !exceeds(cold, mostVolts)) continue;
      const who = `${names(panels)}${panels.length > 1 ? ' in series' : ''}`;
      const bears = `${controller.name} bears ${volts(mostVolts)}`;
      const known = coldestCelsius !== undefined && coldVolts !== undefined;
      const when = known ? `at ${temperature(coldestCelsius, model)}` : 'at -10 °C';
      const how = known && byTable.length === 0 ? '' : `, by ${cite(coldVoc)}`;
      const fewer = panels.length > 1 ? 'put fewer panels in series' : 'take a panel of lower open-circuit voltage';
      const mend = `${fewer}, or take a controller for a higher panel voltage`;
      const state = [
        ...(known ? [] : ['how cold it gets, such as coldest -10 °C']),
        ...(byTable.length > 0 || !known ? [`the panels’ voc drift`] : []),
      ].join(' and ');
      yield {
        severity: now || (known && byTable.length === 0) ? 'error' : 'warning',
        message: now
          ? `${bears}, but ${who} ${reach(panels.length)} ${volts(openVolts)} at 25 °C already, and more in the cold: ${mend}.`
          : known && byTable.length === 0
            ? `${bears}, but ${who} ${reach(panels.length)} ${volts(cold)} ${when}: ${mend}.`
            : `${bears}, but ${who} ${reach(panels.length)} some ${volts(cold)} ${when}${how}: state ${state}, or ${mend}.`,
        place: controller.facts.place('pv', 'voltage'),
        subject: controller.name,
        figures: { mostVolts, openVolts, coldVolts: cold },
        related: panels
          .slice(0, 4)
          .map((part) => ({ message: `${part.name} is in the string`, place: part.namePlace })),
      };
    }
  },
};

function reach(count: number): string {
  return count > 1 ? 'reach' : 'reaches';
}

function highest(strings: readonly StringFigures[]): StringFigures | undefined {
  const voltsOf = (string: StringFigures) => string.coldVolts ?? string.openVolts;
  return strings.reduce<StringFigures | undefined>(
    (worst, one) => (worst === undefined || voltsOf(one) > voltsOf(worst) ? one : worst),
    undefined,
  );
}
