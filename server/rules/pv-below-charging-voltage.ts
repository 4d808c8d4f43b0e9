/** Panels that in the heat give their power below the voltage that the battery is charged to. */
import type { PanelInput, StringFigures } from '../answers/strings.ts';
import type { Part } from '../model/model.ts';
import { nominalCellTemperature, typicalDrift } from '../tables/photovoltaic.ts';
import { cite } from '../tables/table.ts';
import { exceeds } from './exceeds.ts';
import type { Rule } from './rule.ts';
import { inSeries, sunSpec } from './sun-examples.ts';
import { names, temperature, volts } from './words.ts';

/** So much below, a string still gives nearly all its current at the charging voltage (common practice, no source). */
const slightly = 1.05;

/** A `pwm` controller ties its panels to the battery: what they have above this part of its voltage is mostly lost (common practice, no source). */
const mostAbove = 1.6;

const short = 'P1 70 W, voc 18.0 V, isc 5.3 A, vmp 14.8 V, imp 4.8 A';

export const rule: Rule = {
  slug: 'pv-below-charging-voltage',
  severity: 'warning',
  group: 'panels',
  reads: [
    'panel.vmp',
    'panel.voc',
    'controller.method',
    'controller.pv',
    'panel.power-drift',
    'panel.noct',
    'controller.charge-voltage',
    'system.hottest',
  ],
  page: {
    title: 'Panels too low in voltage to charge their battery',
    why: 'A controller steps the panels’ voltage down and cannot step it up. In the sun their voltage falls as they get hot, and below the charging voltage the battery is never filled, in the very weeks that have most sun.',
    limit:
      'The string’s voltage at greatest power, with its cells at the system’s hottest or as hot as full sun makes them (IEC 61215, confirmed; 48 °C nominal where not stated), against the charging voltage that the controller is set to or the battery’s maker asks for, else typical of its chemistry (from memory). What cables and controller lose comes on top. Up to 5 % below it is advice, and with a pwm controller, for which panels of 36 cells are made, nothing (common practice, no source). Where a drift is not stated a typical one is taken (from memory).',
    mend: 'Put two such panels in series, or take panels of a higher voltage. With a pwm controller, which ties its panels to the battery, take panels that are made for that battery: 36 cells for 12 V, 72 for 24 V.',
    see: ['pv-voltage-over-controller', 'panels-mismatched', 'panel-without-controller'],
    wrong: [sunSpec({ panels: `panel ${short} # finds: pv-below-charging-voltage "P1"` })],
    right: [sunSpec({ panels: `panel ${short.replace('P1', 'P1 and P2')}`, wiring: inSeries }), sunSpec()],
  },
  *check({ model, answers }) {
    for (const input of answers.strings.inputs) {
      const { controller, strings, chargeVolts, chargeFrom } = input;
      if (chargeVolts === undefined) continue;
      const low = strings.filter(({ hotVmp }) => hotVmp > 0 && exceeds(chargeVolts, hotVmp));
      const [worst] = [...low].sort((one, other) => one.hotVmp - other.hotVmp);
      const [first] = low[0]?.panels ?? [];
      if (worst === undefined || first === undefined) continue;
      const { hotVmp, hotCelsius } = worst;
      const panels = low.flatMap((string) => string.panels);
      const typical = [
        ...(panels.every(({ facts }) => facts.says('power-drift')) ? [] : [cite(typicalDrift)]),
        ...(chargeFrom === 'stated' ? [] : ['a charging voltage typical of the battery']),
        ...(panels.every(({ facts }) => facts.says('noct'))
          ? []
          : [`the cell temperature by ${cite(nominalCellTemperature)}`]),
      ];
      const within = !exceeds(chargeVolts, hotVmp * slightly);
      // Panels of 36 cells are made for this, and lose little then.
      if (within && isTied(controller)) continue;
      const give = panels.length === 1 ? 'gives' : worst.panels.length > 1 ? 'in series give' : 'each give';
      yield {
        ...(within ? { severity: 'advice' as const } : {}),
        message: `${names(panels)} ${give} the most power at ${volts(hotVmp)} with cells at ${temperature(hotCelsius, model)}, below the ${volts(chargeVolts)} that ${controller.name} charges to, ${within ? 'so it charges a little more slowly then' : 'and a controller only steps down'}: ${remedy(worst, input)}.`,
        place: first.namePlace,
        subject: first.name,
        figures: { hotVmp, hotCelsius, chargeVolts },
        related: [
          { message: `${controller.name} takes their current`, place: controller.namePlace },
          ...(typical.length === 0
            ? []
            : [{ message: `What is not said is reckoned with ${typical.join(', ')}`, place: first.namePlace }]),
        ],
      };
    }
  },
};

/** More panels in series where the controller bears and uses their voltage; else other panels. */
function remedy({ panels, hotVmp, coldVolts, openVolts }: StringFigures, input: PanelInput): string {
  const { controller, chargeVolts = 0, mostVolts } = input;
  const count = Math.ceil(chargeVolts / (hotVmp / panels.length));
  const asMany = (volts: number) => (volts * count) / panels.length;
  const bears = mostVolts === undefined || !exceeds(asMany(coldVolts ?? openVolts), mostVolts);
  const uses = !isTied(controller) || !exceeds(asMany(hotVmp), mostAbove * chargeVolts);
  if (bears && uses) return 'put more panels in series, or take panels of a higher voltage';
  if (!uses) return 'take panels of a higher voltage; in series a pwm controller would waste what is too much';
  return `take panels of a higher voltage; ${count} in series are more than the ${volts(mostVolts ?? 0)} it bears`;
}

function isTied({ facts }: Part): boolean {
  return facts.word('method') === 'pwm';
}
