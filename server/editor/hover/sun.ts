/** Panels in cold and heat: the string that a panel is in, and the panel side of a controller. */
import type { Analysis } from '../../analysis.ts';
import type { Part } from '../../model/model.ts';
import { amps, listed, volts } from '../../reports/figures.ts';
import { type Block, line } from '../markup.ts';

export function sunHover({ answers: { strings } }: Analysis, part: Part): Block[] {
  const own = strings.strings.find(({ panels }) => panels.includes(part));
  const input = strings.inputs.find(({ controller }) => controller === part);
  return [
    ...(own === undefined
      ? []
      : [
          line(
            `Its string (${listed(own.panels.map(({ name }) => name))}): ${own.coldVolts === undefined ? `${volts(own.openVolts)} open at 25 °C` : `${volts(own.coldVolts)} open in the greatest cold`}, ${volts(own.hotVmp)} at greatest power with its cells hottest; ${amps(own.reverseAmps)} can be driven backwards through it.`,
          ),
        ]),
    ...(input === undefined || input.strings.length === 0
      ? []
      : [
          line(
            `Its panels: ${input.coldVolts === undefined ? '' : `${volts(input.coldVolts)} open in the greatest cold, `}${amps(input.shortCircuitAmps)} shorted together.`,
          ),
        ]),
  ];
}
