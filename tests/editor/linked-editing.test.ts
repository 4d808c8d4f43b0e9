import { describe, expect, it } from 'vitest';
import { linkedEditing } from '../../server/editor/linked-editing.ts';
import { analyseFiles } from './editing.ts';
import { type Marked, marked } from './marking.ts';

const linked = ({ text, offset }: Marked, more = {}, users = {}) =>
  linkedEditing(
    analyseFiles({ 'spec.amps': text, ...more }),
    offset,
    Object.values(users).map((user) => analyseFiles({ 'spec.amps': String(user) })),
  );

describe('linked editing', () => {
  it('binds the uses of a name to its declaration', () => {
    const source = `load «LÜF|TER» "LÜFTER"  24 W  # LÜFTER
run W1  1 mm² red, 1 m, «LÜFTER»:+ to «LÜFTER»:-
case night  «LÜFTER» on
`;
    const found = linked(marked(source));
    expect(marked(source).with(found?.ranges ?? [])).toBe(source.replace('|', ''));
    const word = new RegExp(`^(?:${found?.wordPattern})$`);
    expect(['LÜFTER', 'ROOF-BOX', 'F_1', 'X'].every((name) => word.test(name))).toBe(true);
    expect(['A B', 'A:1', '', 'A,', '"A"'].some((name) => word.test(name))).toBe(false);
  });

  it.each([
    ['a use, where another thing may be meant', 'load FAN  24 W\ncase night  F|AN on\n'],
    ['a name that nothing uses', 'load F|AN  24 W\n'],
    ['a terminal', 'load FAN  24 W\nrun W1  1 mm² red, 1 m, FAN:|+ to FAN:-\n'],
    ['a name declared twice', 'load F|AN  24 W\nfuse FAN  5 A\ncase a  FAN on\n'],
    ['a remark', '# F|AN\nload FAN  24 W\ncase a  FAN on\n'],
    ['a name written in two ways of Unicode', `load L${'\u00dc'}F|TER  24 W\ncase a  L${'U\u0308'}FTER on\n`],
  ])('does not bind %s', (_, source) => {
    expect(linked(marked(source))).toBeNull();
  });

  it('leaves a name that another file has too to rename', () => {
    const taking = { 'stock.amps': 'stock thin  cable 1 mm²\nstock thinner  cable = thin\n' };
    expect(linked(marked('use "stock.amps"\nrun W1  = th|in red, 1 m\n'), taking)).toBeNull();
  });
});
