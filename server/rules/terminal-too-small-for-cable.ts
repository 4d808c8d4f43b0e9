/** A cable that does not fit the terminal it ends in. */
import type { SlotValue } from '../../grammar/shaped.ts';
import type { Core, Part, Place, Terminal } from '../model/model.ts';
import { conductorSize } from '../model/sizes.ts';
import { areaMm2 } from '../physics/conductors.ts';
import { lampSpec } from './language.ts';
import type { Reported, Rule } from './rule.ts';

export const rule: Rule = {
  slug: 'terminal-too-small-for-cable',
  severity: 'warning',
  group: 'cable',
  reads: ['part.terminals', 'run.size', 'run.ends'],
  page: {
    title: 'A cable that does not fit its terminal',
    why: 'Too thick a cable is cut down strand by strand until it goes in, and carries its full current through what is left; too thin a one is not held and works loose. Both get hot.',
    limit: 'The range of sizes that the maker of the part states with `terminals` (common practice, no source).',
    mend: 'Use a part with larger terminals, join on a short thinner tail if its fuse protects that too, or use a cable within the range.',
    see: ['stud-mismatch', 'too-many-on-one-stud', 'below-least-size'],
    wrong: [
      lampSpec({
        fuse: 'fuse F1 5 A, blade, 32 V, terminals 0.5 to 2.5 mm²',
        out: 'run W2 6 mm² red, 1.2 m, F1:out to LAMP:+ # finds: terminal-too-small-for-cable "F1:out"',
      }),
      lampSpec({
        load: 'load LAMP 12 W, terminals 4 to 16 mm²',
        out: 'run W2 4 mm² red, 1.2 m, F1:out to LAMP:+',
        back: 'run W3 1.5 mm² black, 1.3 m, LAMP:- to B1:- # finds: terminal-too-small-for-cable "LAMP:-"',
      }),
    ],
    right: [
      lampSpec({
        fuse: 'fuse F1 5 A, blade, 32 V, terminals 0.5 to 6 mm²',
        out: 'run W2 6 mm² red, 1.2 m, F1:out to LAMP:+',
      }),
    ],
  },
  ofRun(run) {
    const { size } = run;
    if (size === undefined || !run.cores.some(({ from, to }) => saysRange(from) || saysRange(to))) return undefined;
    const found = new Map<Part, Reported>();
    for (const { terminal, place } of run.cores.flatMap(endsOf)) {
      const { part } = terminal;
      const range = found.has(part) ? undefined : rangeOf(part);
      if (range === undefined) continue;
      const area = areaMm2(size);
      const thick = area > range.most * 1.001;
      if (!thick && area >= range.least * 0.999) continue;
      found.set(part, {
        message: thick
          ? `${run.name} is ${size.written}, and the terminals of ${part.name} take ${range.said} at most: use a part with larger terminals, or a cable that fits.`
          : `${run.name} is ${size.written}, and the terminals of ${part.name} hold nothing below ${range.saidLeast}: use a larger cable, or a part with smaller terminals.`,
        place,
        subject: run.name,
        figures: { areaMm2: area, leastMm2: range.least, mostMm2: range.most, part: part.name },
        related: [{ message: `${part.name} says what its terminals take`, place: part.facts.place('terminals') }],
      });
    }
    return [...found.values()];
  },
};

function saysRange(terminal: Terminal | undefined): boolean {
  return terminal?.part.facts.says('terminals') === true;
}

function endsOf({ from, to, fromPlace, toPlace, run }: Core): { terminal: Terminal; place: Place }[] {
  const end = (terminal: Terminal | undefined, place: Place | undefined) =>
    terminal === undefined ? [] : [{ terminal, place: place ?? run.namePlace }];
  return [...end(from, fromPlace), ...end(to, toPlace)];
}

/** In mm²; the least may be said without a unit, and is then in that of the most. */
function rangeOf({ facts }: Part): { least: number; most: number; said: string; saidLeast: string } | undefined {
  const [least, most] = [facts.slot('terminals', 'least'), facts.slot('terminals', 'most')];
  const large = most === undefined ? undefined : conductorSize(most);
  if (large === undefined || least === undefined) return undefined;
  const small = conductorSize(inUnitOf(least, large.system));
  if (small === undefined) return undefined;
  const [a, b] = [areaMm2(small), areaMm2(large)];
  return a <= b
    ? { least: a, most: b, said: large.written, saidLeast: small.written }
    : { least: b, most: a, said: small.written, saidLeast: large.written };
}

function inUnitOf(value: SlotValue, system: 'mm2' | 'awg'): SlotValue {
  const { atom } = value;
  if (atom.kind !== 'number') return value;
  const unit =
    system === 'awg' ? ({ dimension: 'gauge', unit: 'AWG' } as const) : ({ dimension: 'area', unit: 'mm²' } as const);
  return { ...value, atom: { ...atom, kind: 'quantity', si: atom.value, ...unit } as SlotValue['atom'] };
}
