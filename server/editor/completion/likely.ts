/**
 * What the electrics make likely at a place: the size and the rating that the tool would choose itself, the pole that a core
 * belongs to. It decides an order. While a line is being typed the figures may be those of the text before it; then they
 * decide the order still, and are not told.
 */

import type { ClauseSpec } from '../../../grammar/vocabulary.ts';
import type { Analysis, Piece } from '../../analysis.ts';
import { standardSizes } from '../../answers/chosen-sizes.ts';
import { capacityOf, physicalSize } from '../../answers/conditions.ts';
import { standardRatings } from '../../answers/devices.ts';
import type { Sign } from '../../answers/polarity.ts';
import { colours } from '../../kinds/colours.ts';
import type { Model, Run, Terminal } from '../../model/model.ts';
import { areaMm2 } from '../../physics/conductors.ts';
import { amps } from '../../reports/figures.ts';
import { isAtLeast, leastAreaMm2 } from '../../tables/least-sizes.ts';
import { switchAmps } from '../../tables/sizes.ts';
import { type Context, workedOut } from './context.ts';
import { usageOf } from './usage.ts';

export interface Likely {
  /** In the notation's words: `6 mm²`, `10 A`. */
  readonly text: string;
  /** Undefined while its figures are not those of the text as it is. */
  readonly why: string | undefined;
}

export function likely(context: Context, clause: ClauseSpec): Likely | undefined {
  const known = workedOut(context);
  const word = context.at.spec?.spec.word;
  const here = known?.pieces.find(({ model }) => isNamed(model, context.name ?? ''));
  if (here === undefined) return undefined;
  const found =
    word === 'run' && clause.id === 'size'
      ? likelySize(context, here)
      : clause.id === 'rating' || (word === 'fusebox' && clause.id === 'way')
        ? likelyRating(context, here)
        : undefined;
  return found === undefined || known === context.analysis ? found : { ...found, why: undefined };
}

const isNamed = ({ parts, runs }: Model, name: string) => parts.has(name) || runs.has(name);

/** As the tool chooses for a blank; where the size is unsaid by what it must carry alone, since no drop is known then. */
function likelySize({ analysis, name = '' }: Context, { model, answers }: Piece): Likely | undefined {
  const chosen = answers.chosen.find(({ subject, clause }) => subject === name && clause === 'size');
  if (chosen !== undefined) return { text: chosen.text, why: capital(chosen.why) };
  const run = model.runs.get(name);
  const figures = run === undefined ? [] : (answers.runs.get(run) ?? []);
  if (run === undefined || figures.length === 0) return undefined;
  const design = Math.max(0, ...figures.map(({ neededAmps, designAmps }) => neededAmps ?? designAmps));
  const device = Math.max(
    0,
    ...figures.map(({ neededAmps, protection }) =>
      neededAmps === undefined && Number.isFinite(protection.amps) ? protection.amps : 0,
    ),
  );
  const needed = Math.max(design, device);
  if (!(needed > 0)) return undefined;
  const { limits, systemVolts } = answers;
  const size = standardSizes(usageOf(analysis).gauges || limits.sizesIn === 'awg').find((one) => {
    const good = capacityOf(run, one, model, limits, systemVolts);
    const permitted = limits.permittedDeviceAmps(good, systemVolts).amps;
    return (
      isAllowed(run, areaMm2(physicalSize(one)), limits.base ?? limits.id) && good.amps >= design && permitted >= device
    );
  });
  return size === undefined
    ? undefined
    : {
        text: size.written,
        why: `The smallest standard size that carries the ${amps(needed)} of its circuit where it lies.`,
      };
}

function isAllowed(run: Run, area: number, limits: string): boolean {
  const least = leastAreaMm2(limits, run.cores.length > 1 || run.facts.says('sheathed'), run.lengthMetres);
  return least === undefined || isAtLeast(area, least);
}

/** Of a device the next standard rating above its load, of a switch what its circuit cannot exceed. */
function likelyRating({ name = '', segment }: Context, { answers }: Piece): Likely | undefined {
  const [, first, last = first] = /\bways?\s+(\d+)(?:\s+to\s+(\d+))?\s+fuse\s*$/u.exec(segment) ?? [];
  const isHere = ({ pole }: { readonly pole: number }) =>
    first === undefined || (pole >= Number(first) && pole <= Number(last));
  const contacts = (answers.contacts.get(name) ?? []).filter(isHere);
  const [contact] = contacts;
  if (contact === undefined) return undefined;
  const load = Math.max(...contacts.map(({ neededAmps, designAmps }) => neededAmps ?? designAmps));
  if (!(load > 0)) return undefined;
  const { part, device, circuitAmps } = contact;
  if (device !== undefined) {
    const own = Math.max(...contacts.map((one) => (one.device?.blank === true ? (one.device.amps ?? 0) : 0)));
    const ratings = standardRatings(part.kind.word, part.facts.word('style'));
    const rating = own > 0 ? own : ratings.find((one) => one >= load * (1 - 1e-9));
    return rating === undefined
      ? undefined
      : { text: `${rating} A`, why: `The next standard rating above the ${amps(load)} of its load.` };
  }
  const needed = Math.max(load, Number.isFinite(circuitAmps) ? circuitAmps : 0);
  const rating = part.kind.family === 'switching' ? switchAmps.find((one) => one >= needed * (1 - 1e-9)) : undefined;
  return rating === undefined
    ? undefined
    : { text: `${rating} A`, why: `The next usual rating for the ${amps(needed)} of its circuit.` };
}

const capital = (text: string) => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;

const usually: ReadonlyMap<string, Sign> = new Map([
  ['red', '+'],
  ['brown', '+'],
  ['black', '-'],
  ['blue', '-'],
]);

/** The pole that the core at the pointer belongs to: by the end that is written, else by its colour. */
export function likelyPole(context: Context, from: string | undefined): Sign | undefined {
  const { analysis, segment, run } = context;
  const begun = from === undefined ? undefined : analysis.model.terminals.get(from);
  const known = begun === undefined ? undefined : poleOf(analysis, begun);
  if (known !== undefined) return known;
  const said = segment.split(/\s+/u).findLast((word) => colours.has(word));
  // Of several cores each says its colour on its own line.
  const own = (run?.facts.number('size', 'cores') ?? 1) === 1 ? run?.cores[0]?.colour : undefined;
  return usually.get(said ?? own ?? '');
}

/** The pole a terminal has by its marking, else by what it is joined to. */
export function poleOf({ answers }: Analysis, terminal: Terminal): Sign | undefined {
  return terminal.spec.polarity ?? answers.polarities.of(terminal);
}
