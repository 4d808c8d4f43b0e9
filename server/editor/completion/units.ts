/** Units behind a number, standard values that begin with it, and words that may follow it. */
import type { Expected } from '../../../grammar/forms.ts';
import { quantityTypes } from '../../../grammar/forms.ts';
import { dimensionNames, gaugeOf, unitOf } from '../../../grammar/units.ts';
import { isStocked, offersFor, wanted } from './clauses.ts';
import type { Context } from './context.ts';
import { kinds, type Offer } from './offers.ts';
import { fitting } from './standards.ts';
import { symbolsFor } from './usage.ts';

type Slot = Expected & { is: 'slot' };

export function unitOffers(context: Context): Offer[] {
  const { at, segment } = context;
  const number = /\S+$/u.exec(segment.trimEnd())?.[0] ?? '';
  const before: Context = { ...context, segment: segment.trimEnd().slice(0, -number.length) };
  // What must be said or comes in standard sizes is most likely meant: the length of a run before its rated voltage.
  const likely = ({ clause }: Slot) => {
    if (isStocked(context, clause)) return 2;
    return clause.required === true || clause.oneOf !== undefined || clause.standardValues !== undefined ? 0 : 1;
  };
  const slots = wanted(before, at.values)
    .filter((one): one is Slot => one.is === 'slot')
    .sort((a, b) => likely(a) - likely(b));
  // `2.` goes on to 2.5 as 2 does.
  const attached = !/\s$/u.test(segment) && /^\.?$/u.test(at.prefix);
  // Poles, ways and holes come whole; `to` behind the least of two sizes may follow any number.
  const words = wanted(context, at.expected).filter(
    (one) => /^(?:\d+|\?)$/u.test(number) || (one.is === 'word' && one.word === 'to'),
  );
  // So few are counted, and no rating: `2` are poles, `25` are ampere.
  const isUsual = ({ clause }: Expected) =>
    clause.required === true && clause.standardValues?.some((value) => value.split(' ')[0] === number) === true;
  const counted = words.filter((one) => /^[1-4]$/u.test(number) || isUsual(one));
  return [
    ...offersFor(context, counted),
    ...(attached ? standardFrom(before, slots, number) : []),
    ...slots.flatMap((slot) => symbols(before, slot, number)),
    ...(/^\d+$/u.test(number) && slots.some(({ types }) => types.includes('times'))
      ? [{ label: 'x', kind: kinds.Operator, detail: 'So many, each of what follows.' }]
      : []),
    ...offersFor(
      context,
      words.filter((one) => !counted.includes(one)),
    ),
  ];
}

/** Standard values that go on from what is typed: `2` may become `2.5 mm²`. */
function standardFrom(context: Context, slots: readonly Slot[], number: string): Offer[] {
  const { at } = context;
  const typed = `${number}${at.prefix}`;
  const replace = { start: at.replace.start - number.length, end: at.replace.end };
  return slots.flatMap(({ clause, types }) =>
    fitting(context, clause)
      .filter(({ text, takes }) => takes(types) && text.startsWith(typed) && text.charAt(typed.length) !== ' ')
      .map(({ text }) => ({ label: text, kind: kinds.Value, detail: clause.meaning, replace })),
  );
}

/** Canonical symbols of what the number may be here. What can be typed on any keyboard finds them too: `mm2`, `ohm`. */
function symbols(context: Context, slot: Slot, number: string): Offer[] {
  // `2/0` is a gauge and nothing else; `4.2` is none.
  const isGauge = number === '?' || gaugeOf(number) !== undefined;
  const dimensions = slot.types
    .flatMap((type) => quantityTypes.get(type) ?? [])
    .filter((dimension) => (dimension === 'gauge' ? isGauge : !number.includes('/')));
  return dimensions.flatMap((dimension) =>
    symbolsFor(context.analysis, dimension, slot.clause).map((symbol) => {
      const plain = unitOf(symbol)?.accepted.find((spelling) => /^[a-z][a-z0-9/]*$/iu.test(spelling));
      return {
        label: symbol,
        kind: kinds.Unit,
        detail: `${dimensionNames[dimension]}: ${slot.clause.meaning}`,
        filter: plain === undefined ? symbol : `${plain} ${symbol}`,
        ...(symbol === '°' ? { tight: true } : {}),
      };
    }),
  );
}
