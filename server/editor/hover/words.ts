/** Words of the notation: statements, kinds, clauses, colours, findings; and quantities in other units. */
import type { QuantityAtom } from '../../../grammar/tree.ts';
import { formatQuantity, units } from '../../../grammar/units.ts';
import type { ClauseSpec, StatementSpec } from '../../../grammar/vocabulary.ts';
import type { Analysis } from '../../analysis.ts';
import { colours } from '../../kinds/colours.ts';
import { awgAreaMm2 } from '../../physics/conductors.ts';
import { amps, listed, watts } from '../../reports/figures.ts';
import { areasMm2, gauges } from '../../tables/sizes.ts';
import { type Block, bold, code, line, spec } from '../markup.ts';
import { readableForm } from './form.ts';

export function statementHover(statement: StatementSpec): Block[] {
  const title = statement.title === statement.word ? '' : `: ${statement.title}`;
  return [line(bold(statement.word), title), line(statement.meaning), spec(statement.example)];
}

export function clauseHover(clause: ClauseSpec, statement: StatementSpec): Block[] {
  const instead = statement.clauses
    .filter((other) => other !== clause && clause.oneOf !== undefined && other.oneOf === clause.oneOf)
    .map(({ id }) => id.replaceAll('-', ' '));
  const rules = [
    ...(instead.length > 0
      ? [`This or ${listed(instead, 'or')} must be said.`]
      : clause.required === true || clause.oneOf !== undefined
        ? ['Must be said.']
        : []),
    ...(clause.repeatable === true ? ['May stand several times.'] : []),
  ];
  return [
    line(bold(`${statement.word}: ${clause.id.replace(/-of$/, '').replaceAll('-', ' ')}`)),
    line(clause.meaning, ...(rules.length === 0 ? [] : [` ${rules.join(' ')}`])),
    line('Form: ', code(readableForm(clause.form))),
    line('Example: ', code(clause.example)),
  ];
}

/** `red` or `green/yellow`: the letter code of IEC 60757. */
export function colourHover(word: string): Block[] {
  const parts = word.split('/').map((one) => colours.get(one));
  if (parts.some((one) => one === undefined)) return [];
  const letters = parts.map((one) => one?.code ?? '').join('');
  return [line(bold(word), ': core colour, ', code(letters), ' in the letters of IEC 60757')];
}

/** A quantity in the units that others would use for it; nothing where no other unit tells more. */
export function quantityHover(analysis: Analysis, atom: QuantityAtom): Block[] {
  if (atom.si === undefined || atom.value === undefined) return [];
  const same = otherUnits(analysis, atom, atom.si);
  return same.length === 0 ? [] : [line(bold(formatQuantity(atom.si, atom.unit)), ` is ${listed(same, 'or')}`)];
}

function otherUnits({ answers, isWorkedOut }: Analysis, atom: QuantityAtom, si: number): string[] {
  const nominal = isWorkedOut ? answers.systemVolts : 0;
  const here = `at ${formatQuantity(nominal, 'V')}`;
  switch (atom.dimension) {
    case 'area':
      return [
        between(
          si * 1e6,
          gauges.map((gauge) => ({
            area: awgAreaMm2(gauge),
            text: `${formatQuantity(gauge, 'AWG')} (${formatQuantity(awgAreaMm2(gauge) * 1e-6, 'mm²', 2)})`,
          })),
        ),
      ];
    case 'gauge':
      return [
        `${formatQuantity(awgAreaMm2(si) * 1e-6, 'mm²', 2)}, ${between(
          awgAreaMm2(si),
          areasMm2.map((area) => ({ area, text: `${area} mm²` })),
        )}`,
      ];
    case 'length':
      return others(
        atom,
        si,
        atom.unit === 'ft' || atom.unit === 'inch'
          ? [si < 1 ? 'mm' : 'm', si < 1 ? 'inch' : 'ft']
          : si < 0.1
            ? ['mm', 'inch']
            : ['m', 'ft'],
        2,
      );
    case 'temperature':
      return others(atom, si, ['°C', '°F'], 1);
    case 'power':
      return nominal > 0 ? [`${amps(si / nominal)} ${here}`] : [];
    case 'current':
      return [
        ...others(atom, si, si < 1 ? ['mA', 'A'] : ['A'], 3),
        // A fault current is not a load.
        ...(nominal > 0 && si < 1000 ? [`${watts(si * nominal)} ${here}`] : []),
      ];
    case 'voltage':
      return others(atom, si, si < 1 ? ['mV', 'V'] : si < 1000 ? ['V'] : ['V', 'kV'], 3);
    case 'charge':
      return nominal > 0 ? [`${formatQuantity(si * nominal, 'Wh', 0)} ${here}`] : [];
    case 'energy':
      return [
        ...others(atom, si, ['Wh', 'kWh'], 2),
        ...(nominal > 0 ? [`${formatQuantity(si / nominal, 'Ah', 1)} ${here}`] : []),
      ];
    default:
      return others(
        atom,
        si,
        units.filter(({ dimension }) => dimension === atom.dimension).map(({ symbol }) => symbol),
        3,
      );
  }
}

/** Where a cross-section lies among the sizes of the other system: about one of them, or between two. */
function between(area: number, sizes: readonly { readonly area: number; readonly text: string }[]): string {
  const same = sizes.find((size) => Math.abs(size.area / area - 1) <= 0.02);
  if (same !== undefined) return `about ${same.text}`;
  const under = sizes.filter((size) => size.area < area).at(-1);
  const over = sizes.find((size) => size.area > area);
  if (under === undefined) return `less than ${over?.text ?? ''}`;
  return over === undefined ? `more than ${under.text}` : `between ${under.text} and ${over.text}`;
}

/** In the given units but the written one; what rounds to nought says nothing. */
function others(atom: QuantityAtom, si: number, symbols: readonly string[], digits: number): string[] {
  return symbols
    .filter((symbol) => symbol !== atom.unit)
    .map((symbol) => formatQuantity(si, symbol, digits))
    .filter((text) => si === 0 || !/^-?0 /.test(text));
}
