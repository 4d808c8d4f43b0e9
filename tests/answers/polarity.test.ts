import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

/** A battery, a fuse and a lamp that nothing else is joined to. */
const circuit = (n: number) => `
battery B${n} agm, 12 V, 60 Ah
fuse F${n} 5 A
load L${n} 10 W
run W${n}1 1.5 mm² red, 1 m, B${n}:+ to F${n}:in
run W${n}2 1.5 mm² red, 1 m, F${n}:out to L${n}:+
run W${n}3 1.5 mm² black, 1 m, L${n}:- to B${n}:-
`;

describe('which conductors are plus and which minus', () => {
  it('is told of each circuit by itself, however many there are', () => {
    const { answers, model } = analyseText(`system "Two" 12 V\n${[1, 2, 3].map(circuit).join('')}fuse LOOSE 5 A\n`);
    const signs = answers.polarities;
    const of = (id: string) => {
      const terminal = model.terminals.get(id);
      return terminal === undefined ? 'no such terminal' : signs.of(terminal);
    };
    for (const n of [1, 2, 3]) {
      expect([of(`B${n}:+`), of(`F${n}:in`), of(`F${n}:out`), of(`L${n}:+`)]).toEqual(['+', '+', '+', '+']);
      expect([of(`B${n}:-`), of(`L${n}:-`)]).toEqual(['-', '-']);
    }
    expect(of('LOOSE:in')).toBeUndefined();
  });

  it('is not told of a bond, which carries no current, but of a green and yellow core that does', () => {
    const { answers, model } = analyseText(
      `system "Bond" 12 V\n${circuit(1)}inverter INV 300 W\nchassis G1\n` +
        'run W4 4 mm² black, 1 m, B1:- to G1\nrun W5 6 mm² green/yellow, 1 m, INV:case to G1\n' +
        'run W6 6 mm² green/yellow, 1 m, B1:- to G1\nrun W7 6 mm² green/yellow, 1 m, B1:+ to INV:+\n',
    );
    const signs = answers.polarities;
    const told = [...model.runs.values()].flatMap(({ name, cores }) => cores.map((core) => [name, signs.ofCore(core)]));
    expect(Object.fromEntries(told)).toMatchObject({ W4: '-', W5: undefined, W6: undefined, W7: '+' });
  });

  it('is not told of what is joined to both', () => {
    const { answers, model } = analyseText(
      `system "Short" 12 V\n${circuit(1)}run W9 1.5 mm² red, 1 m, F1:out to B1:-\n`,
    );
    const signs = answers.polarities;
    expect([...model.terminals.values()].map((terminal) => signs.of(terminal))).toEqual(Array(6).fill(undefined));
  });
});
