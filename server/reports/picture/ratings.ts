/** What a fitter wants to read beside a symbol: the figures as the spec writes them, a blank as `?`. */
import type { Facts, Part } from '../../model/model.ts';

/** By kind, a line each: `clause.slot` with the words before and behind it. */
const wanted: Readonly<Record<string, readonly string[]>> = {
  alternator: ['{voltage.voltage}, {current.current}'],
  battery: ['{voltage.voltage}, {capacity.capacity}'],
  block: ['{rating.current}'],
  breaker: ['{poles.poles} poles, {rating.rating}'],
  busbar: ['{rating.current}'],
  charger: ['{voltage.voltage}, {current.current}'],
  connector: ['{rating.current}'],
  controller: ['{method.method}, {pv.voltage}', '{output.current} out'],
  converter: ['{voltage.voltage}, {current.current}'],
  diode: ['{rating.current}'],
  fuse: ['{rating.rating}'],
  fusebox: ['{total.current} in all'],
  inverter: ['{power.power}'],
  isolator: ['{poles.poles} poles, {rating.current}'],
  load: ['{power.power}, {current.current}, {resistance.resistance}'],
  panel: ['{power.power}'],
  relay: ['coil {coil.voltage}', '{rating.current}'],
  selector: ['{rating.current}'],
  shunt: ['{rating.current}'],
  socket: ['{rating.current}'],
  switch: ['{poles.poles} poles, {rating.current}'],
};

export function ratingsOf({ kind, facts }: Part): string[] {
  return (wanted[kind.word] ?? []).flatMap((line) => {
    const pieces = line.split(', ').flatMap((piece) => {
      const [, before = '', clause = '', slot = '', after = ''] = /^(.*)\{(.*)\.(.*)\}(.*)$/.exec(piece) ?? [];
      const text = writtenOf(facts, clause, slot);
      // A single pole goes without saying.
      return text === undefined || (text === '1' && after === ' poles') ? [] : [before + text + after];
    });
    return pieces.length === 0 ? [] : [pieces.join(', ')];
  });
}

/** As written, on one line. */
export function writtenOf(facts: Facts, clause: string, slot: string): string | undefined {
  const text = facts.written(clause, slot)?.replaceAll(/\s+/g, ' ').trim();
  return text === '' ? undefined : text;
}
