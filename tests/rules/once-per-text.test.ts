/** Parts that are declared together: what their text makes wrong with all of them is one finding. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const spec = (fuses: string, more = '') => `system "Lamp" 12 V
battery B1  lead-acid, 12 V, 30 Ah
${fuses}
load L1 and L2  12 W
run W1  4 mm² red, 0.1 m, B1:+ to F1:in
run W2  4 mm² red, 1 m, F1:out to L1:+
run W3  4 mm² black, 1 m, L1:- to B1:-
run W4  4 mm² red, 0.1 m, B1:+ to F2:in
run W5  4 mm² red, 1 m, F2:out to L2:+
run W6  4 mm² black, 1 m, L2:- to B1:-
${more}`;
const found = (text: string) => analyseText(text).findings.map(({ slug, message }) => [slug, message]);
const odd = (name: string) => `${name} is 12 A, but there is no blade fuse of that (ISO 8820-3): fit 10 A or 15 A.`;

describe('parts declared together', () => {
  it('have one finding that names them all', () => {
    expect(found(spec('fuse F1 and F2  12 A, blade, 32 V'))).toEqual([
      ['fuse-odd-rating', `${odd('F1')} The same holds for F2.`],
    ]);
  });

  it('have one each where they stand in statements of their own', () => {
    expect(found(spec('fuse F1  12 A, blade, 32 V\nfuse F2  12 A, blade, 32 V'))).toEqual([
      ['fuse-odd-rating', odd('F1')],
      ['fuse-odd-rating', odd('F2')],
    ]);
  });

  it('leave to the others what is accepted of one', () => {
    const accepted = spec('fuse F1 and F2  12 A, blade, 32 V', 'allow fuse-odd-rating on F1 "made to order"\n');
    expect(found(accepted)).toEqual([['fuse-odd-rating', odd('F2')]]);
  });
});
