/** A lowest voltage above a highest: told once where both are said together, judged as they stand where they are not. */
import { describe, expect, it } from 'vitest';
import { analyse } from '../../server/analysis.ts';

const uri = 'file:///van/lamp.amps';

function found(stock: string, load: string): readonly string[] {
  const text = `system "Shed" 12 V
stock strip load ${stock}
battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1 5 A, blade, 32 V
load LAMP = strip${load}
run W1 2.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+
run W3 1.5 mm² black, 1.3 m, LAMP:- to B1:-
case noon LAMP on, B1 at 12.4 V
`;
  return analyse(uri, { read: () => ({ text }), resolve: (_, path) => path }).findings.map(({ slug }) => slug);
}

describe('a lowest voltage above the highest', () => {
  it('in one statement is impossible, and no more is said of the load', () => {
    expect(found('12 W', ', lowest 13 V, highest 12.6 V')).toEqual(['impossible-value']);
    expect(found('12 W, lowest 13 V, highest 12.6 V', '')).toEqual(['impossible-value']);
  });

  it('of the part and of its stock are judged each by itself', () => {
    expect(found('12 W, lowest 13 V', ', highest 12.6 V')).toEqual(['load-below-lowest-voltage']);
    expect(found('12 W, highest 12.2 V', ', lowest 12.3 V')).toEqual(['load-above-highest-voltage']);
  });

  it('is none where the lowest lies below', () => {
    expect(found('12 W, lowest 10.8 V', ', highest 15 V')).toEqual([]);
  });
});
