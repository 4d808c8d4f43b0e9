/** What is kept rests on what the names that were looked up for it meant, also where a part of it was kept from before. */
import { expect, it } from 'vitest';
import { Kept } from '../../server/model/kept.ts';
import { Lookups } from '../../server/model/lookups.ts';

/** Looks up a name by what is asked of it, as a builder does, time after time. */
function building() {
  const [inner, outer] = [new Kept<object, string>(), new Kept<object, string, string>()];
  const [innerKey, outerKey] = [{}, {}];
  return {
    inner,
    innerKey,
    /** What the outer says, which holds what the inner says of a name; `also` goes into the outer alone. */
    build(meaning: string, also: string, isSure = true): string {
      const lookups = new Lookups([]);
      const parts = lookups.of<string>('part');
      parts.set('B1', meaning);
      const said = () => {
        if (!isSure) lookups.doubt();
        return `${parts.get('B1')}`;
      };
      return outer.of(outerKey, lookups, () => `${also} ${inner.of(innerKey, lookups, said)}`, also);
    },
  };
}

it('is made anew where what it holds is, although that was kept when it was made', () => {
  const { build } = building();
  expect(build('12 V', 'one')).toBe('one 12 V');
  expect(build('12 V', 'two')).toBe('two 12 V');
  expect(build('24 V', 'two')).toBe('two 24 V');
});

it('is not kept where what it holds is not certain', () => {
  const { build, inner, innerKey } = building();
  build('12 V', 'one');
  expect(inner.has(innerKey)).toBe(true);
  build('24 V', 'one', false);
  expect(inner.has(innerKey)).toBe(false);
});
