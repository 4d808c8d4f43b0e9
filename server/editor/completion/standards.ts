/** Standard sizes and ratings: those that fit what is said, what the electrics make likely before all else. */
import { type Expected, quantityTypes } from '../../../grammar/forms.ts';
import { unitAt } from '../../../grammar/units.ts';
import type { ClauseSpec } from '../../../grammar/vocabulary.ts';
import { standardRatings } from '../../answers/devices.ts';
import { limitSets } from '../../physics/limits/sets.ts';
import { dcCategories } from '../../tables/utilisation-categories.ts';
import type { Context } from './context.ts';
import { type Likely, likely } from './likely.ts';
import { kinds, type Offer } from './offers.ts';
import { usageOf } from './usage.ts';

interface Standard {
  readonly text: string;
  /** Types of slots that take it. */
  readonly takes: (types: readonly string[]) => boolean;
}

const standards = new WeakMap<ClauseSpec, readonly Standard[]>();

/** Standard values of a clause without the keywords before them, which are offered or written already. */
function standardsOf(clause: ClauseSpec): readonly Standard[] {
  let values = standards.get(clause);
  if (values === undefined) {
    const literals = new Set(clause.form.match(/(?<![{\w=|-])[a-z-]+(?![\w:}=])/gu) ?? []);
    values = (clause.standardValues ?? []).map((value) => {
      const words = value.split(' ');
      while (words.length > 1 && literals.has(words[0] as string)) words.shift();
      return standard(words.join(' '));
    });
    standards.set(clause, values);
  }
  return values;
}

function standard(text: string): Standard {
  const number = /^[\d./]+\s*/u.exec(text)?.[0];
  if (number !== undefined) {
    const dimension = unitAt(text, number.length)?.unit.dimension;
    return dimension === undefined
      ? { text, takes: (types) => types.includes('number') }
      : { text, takes: (types) => types.some((type) => quantityTypes.get(type)?.includes(dimension) === true) };
  }
  return { text, takes: (types) => types.includes('word') || (types.includes('thread') && /^M\d/u.test(text)) };
}

export function standardOffers(context: Context, { clause, types }: Expected & { is: 'slot' }): Offer[] {
  const best = likely(context, clause);
  return withFirst(usual(context, clause), best)
    .filter(({ takes }) => takes(types))
    .map(({ text }) => ({
      label: text,
      kind: kinds.Value,
      ...(best?.text === text && best.why !== undefined ? { detail: best.why } : told(context, clause, text)),
    }));
}

/** What fits here, what the electrics make likely before all else. */
export function fitting(context: Context, clause: ClauseSpec): readonly Standard[] {
  return withFirst(usual(context, clause), likely(context, clause));
}

function withFirst(values: readonly Standard[], best: Likely | undefined): readonly Standard[] {
  const found = values.find(({ text }) => text === best?.text);
  return found === undefined ? values : [found, ...values.filter((one) => one !== found)];
}

/** Ratings of the body style that is said; sizes of the system that the spec uses first. */
function usual({ analysis, at, part }: Context, clause: ClauseSpec): readonly Standard[] {
  const values = standardsOf(clause);
  const word = at.spec?.spec.word ?? '';
  if ((word === 'fuse' && clause.id === 'rating') || (word === 'fusebox' && clause.id === 'way')) {
    const ratings = new Set(standardRatings(word, part?.facts.word('style')).map((amps) => `${amps} A`));
    return values.filter(({ text }) => ratings.has(text));
  }
  if (clause.id !== 'size' || !usageOf(analysis).gauges) return values;
  const isGauge = ({ text }: Standard) => text.endsWith('AWG');
  return [...values.filter(isGauge), ...values.filter((value) => !isGauge(value))];
}

function told({ at }: Context, clause: ClauseSpec, text: string): { readonly detail?: string } {
  const category = dcCategories.get(text);
  if (category !== undefined) return { detail: category };
  if (clause.id === 'limits' || clause.id === 'base') {
    const detail = limitSets.get(text)?.title;
    return detail === undefined ? {} : { detail };
  }
  if (clause.id === 'class') return { detail: classes[text] ?? clause.meaning };
  if (clause.id === 'size')
    return { detail: text.endsWith('AWG') ? 'Gauge of ASTM B258.' : 'Nominal cross-section of IEC 60228.' };
  if (at.spec?.spec.word === 'fuse' && clause.id === 'rating') return { detail: 'Rated current of a fuse.' };
  return {};
}

/** IEC 60228. */
const classes: Readonly<Record<string, string>> = {
  '1': 'solid',
  '2': 'stranded',
  '5': 'flexible',
  '6': 'extra flexible',
};
