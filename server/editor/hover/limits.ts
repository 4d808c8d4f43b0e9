/** A set of limits: all that it decides, each with where it comes from. */
import { formatQuantity } from '../../../grammar/units.ts';
import type { Analysis } from '../../analysis.ts';
import { limitsNamed } from '../../answers/limits-of.ts';
import type { Stock } from '../../model/model.ts';
import type { LimitSet } from '../../physics/limits/limit-set.ts';
import { cite, type TableSource } from '../../tables/table.ts';
import { type Block, bold, line, list, quiet } from '../markup.ts';
import { heading, said } from './about.ts';

/** `limits our-van`: the set by its name. */
export function limitsHover(analysis: Analysis, name: string): Block[] {
  const set = limitsNamed(name, analysis.model);
  if (set === undefined) return [];
  const stock = analysis.model.stocks.get(name);
  if (set.base !== undefined && stock !== undefined) return ownLimitsHover(analysis, stock);
  return [line(bold(set.id), `: ${set.title}`), ...figuresOf(analysis, set)];
}

/** The stock of a set of one's own. */
export function ownLimitsHover(analysis: Analysis, stock: Stock): Block[] {
  const set = limitsNamed(stock.name, analysis.model);
  const counts = analysis.answers.limits.id === stock.name;
  return [
    ...heading(stock, 'set of limits of your own'),
    ...said(stock.facts),
    ...(set === undefined ? [] : figuresOf(analysis, set)),
    line(counts ? 'This spec is held to it.' : 'This spec is not held to it.'),
  ];
}

function figuresOf({ answers: { systemVolts } }: Analysis, set: LimitSet): Block[] {
  const [drop, strict] = [set.drop(false), set.drop(true)];
  const [bare, sheathed] = [set.unfusedLength(false), set.unfusedLength(true)];
  const [tail, tailSheathed] = [set.tail(false), set.tail(true)];
  const device = set.permittedDeviceAmps({ amps: 100 }, systemVolts);
  const { lightlyLoaded, pvFactor, base } = set;
  return [
    ...list([
      `Device: up to ${device.amps} % of the cable’s capacity${from(device.source)}.`,
      `Voltage drop: up to ${formatQuantity(drop.ratio, '%')}${from(drop.source)}; ${formatQuantity(strict.ratio, '%')} where essential${from(strict.source)}.`,
      `Without a fuse: up to ${formatQuantity(bare.metres, 'm', 2)}${from(bare.source)}${sheathed.metres === bare.metres ? '' : `; ${formatQuantity(sheathed.metres, 'm', 2)} where sheathed${from(sheathed.source)}`}.`,
      `A device at the far end of a thin tail: within ${formatQuantity(tail.metres, 'm', 2)}${from(tail.source)}${tailSheathed.metres === tail.metres ? '' : `; ${formatQuantity(tailSheathed.metres, 'm', 2)} where sheathed${from(tailSheathed.source)}`}.`,
      lightlyLoaded === undefined
        ? 'Bunches: every cable counts.'
        : `Bunches: a cable that carries no more than ${formatQuantity(lightlyLoaded.ratio, '%')} of its capacity does not count${from(lightlyLoaded.source)}.`,
      `Panels: rated for ${pvFactor.factor} times the short-circuit current${from(pvFactor.source)}.`,
    ]),
    ...(base === undefined ? [] : [line(`All else is as in ${base}.`)]),
    ...(set.cautionOn?.('capacity') === undefined ? [] : [line(quiet(set.cautionOn('capacity') ?? ''))]),
  ];
}

function from(source: TableSource | undefined): string {
  return source === undefined ? '' : `, by ${cite(source)}`;
}
