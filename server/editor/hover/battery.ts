/** A battery: how long a full charge lasts at what it gives. */
import { plainNumber } from '../../../grammar/units.ts';
import type { Analysis } from '../../analysis.ts';
import type { Part } from '../../model/model.ts';
import { enduranceHours } from '../../physics/peukert.ts';
import { amps } from '../../reports/figures.ts';
import { peukertUsual, usualPeukert } from '../../tables/peukert.ts';
import { type Block, line, quiet } from '../markup.ts';

/** In the case that draws most from it; nothing where none draws on it or its capacity is not known. */
export function enduranceHover({ answers }: Analysis, part: Part): Block[] {
  const chemistry = part.facts.word('chemistry');
  const usual = usualPeukert(chemistry);
  const ampHours = (part.facts.number('capacity') ?? 0) / 3600;
  if (usual === undefined || !(ampHours > 0)) return [];
  const { name, current } = answers.cases
    .map((one) => ({ name: one.name, current: one.parts.get(part.name)?.amps ?? 0 }))
    .reduce((most, one) => (one.current > most.current ? one : most), { name: '', current: 0 });
  // Less than a thousandth of its capacity in an hour: other things empty it first.
  if (current < ampHours / 1000) return [];
  const { exponent, ratedHours } = usual;
  const hours = enduranceHours(ampHours, ratedHours, exponent, current);
  const told = hours < 1 ? `${plainNumber(hours * 60, 0)} min` : `${plainNumber(hours, hours < 10 ? 1 : 0)} h`;
  return [
    line(
      `Full, it lasts about ${told} at the ${amps(current)} of ${name} `,
      quiet(
        `(Peukert’s rule: exponent ${exponent} and capacity rated over ${ratedHours} h, usual for ${chemistry}; ${peukertUsual.status})`,
      ),
      '.',
    ),
  ];
}
