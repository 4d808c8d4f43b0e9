/** Panels that in the heat give their power below the voltage that the battery is charged to. */
import { nominalCellTemperature, typicalDrift } from '../tables/photovoltaic.ts';
import { cite } from '../tables/table.ts';
import { exceeds } from './exceeds.ts';
import type { Rule } from './rule.ts';
import { inSeries, sunSpec } from './sun-examples.ts';
import { names, temperature, volts } from './words.ts';

const short = 'P1 70 W, voc 18.0 V, isc 5.3 A, vmp 14.8 V, imp 4.8 A';

export const rule: Rule = {
  slug: 'pv-below-charging-voltage',
  severity: 'warning',
  group: 'panels',
  reads: ['panel.vmp', 'panel.power-drift', 'panel.noct', 'controller.charge-voltage', 'system.hottest'],
  page: {
    title: 'Panels too low in voltage to charge their battery',
    why: 'A controller steps the panels’ voltage down and cannot step it up. In the sun their voltage falls as they get hot, and below the charging voltage the battery is never filled, in the very weeks that have most sun.',
    limit:
      'The string’s voltage at greatest power, with its cells at the system’s hottest or as hot as full sun makes them (IEC 61215, confirmed; 48 °C nominal where not stated), against the charging voltage that the controller is set to or the battery’s maker asks for, else typical of its chemistry (from memory). What cables and controller lose comes on top. Where a drift is not stated a typical one is taken (from memory).',
    mend: 'Put two such panels in series, or take panels of a higher voltage.',
    see: ['pv-voltage-over-controller', 'panels-mismatched'],
    wrong: [sunSpec({ panels: `panel ${short} # finds: pv-below-charging-voltage "P1"` })],
    right: [sunSpec({ panels: `panel ${short.replace('P1', 'P1 and P2')}`, wiring: inSeries }), sunSpec()],
  },
  *check({ model, answers }) {
    for (const { controller, strings, chargeVolts, chargeFrom } of answers.strings.inputs) {
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
      const give = panels.length === 1 ? 'gives' : worst.panels.length > 1 ? 'in series give' : 'each give';
      yield {
        message: `${names(panels)} ${give} the most power at ${volts(hotVmp)} with cells at ${temperature(hotCelsius, model)}, below the ${volts(chargeVolts)} that ${controller.name} charges to, and a controller only steps down: put more panels in series, or take panels of a higher voltage.`,
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
