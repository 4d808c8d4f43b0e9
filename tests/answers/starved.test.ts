/** Loads of constant current that more is asked of than can be driven: the closed form is E/R. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const winch = (load: string, more = '') => `system "Shed" 12 V
battery B1 lead-acid, 12 V, 80 Ah, internal 20 mΩ
fuse F1 100 A, bolt-in, 58 V
load WINCH ${load}
run W1 16 mm² red, 0.1 m, B1:+ to F1:in
run W2 16 mm² red, 9 m, F1:out to WINCH:+
run W3 16 mm² black, 9 m, WINCH:- to B1:-
${more}case pull WINCH on, B1 at 12.5 V, conductors at 20 °C
`;

/** IEC 60228 class 5 plain copper, 16 mm²: 1.21 Ω/km; the run from battery to fuse is one of 0.1 m. */
const ohms = 0.02 + (1.21 / 1000) * 18.1;
const most = 12.5 / ohms;

const pull = (text: string) => {
  const { answers, findings } = analyseText(text);
  const one = answers?.cases.find(({ name }) => name === 'pull');
  if (one === undefined) throw new Error('no case');
  return { one, found: findings.filter(({ slug }) => slug === 'voltage-collapse') };
};

describe('a load of constant current', () => {
  it('is answered as long as anything is left at it', () => {
    const { one, found } = pull(winch(`${(most * 0.999).toFixed(3)} A`));
    expect(one.converged).toBe(true);
    expect(one.overloads).toEqual([]);
    expect(one.parts.get('WINCH')?.volts).toBeCloseTo(12.5 * 0.001, 3);
    expect(found).toEqual([]);
  });

  it('has no answer beyond what source and wiring can drive, and is told that', () => {
    const { one, found } = pull(winch('300 A'));
    expect(one.converged).toBe(false);
    expect(one.parts.size).toBe(0);
    const [overload] = one.overloads;
    expect(overload?.unit).toBe('A');
    expect(overload?.asked).toBe(300);
    expect((overload?.fed ?? 0) / most).toBeCloseTo(1, 8);
    expect(found).toHaveLength(1);
    expect(found[0]?.message).toMatch(/^WINCH asks 300 A in case pull, but sources and wiring can bring 298 A at most/);
    expect(found[0]?.figures).toMatchObject({ askedAmps: 300, cases: 'pull' });
  });

  it('leaves no wrong figure however much is asked', () => {
    const { one, found } = pull(winch('1000000 A'));
    expect(one.converged).toBe(false);
    expect((one.overloads[0]?.fed ?? 0) / most).toBeCloseTo(1, 6);
    expect(found).toHaveLength(1);
  });
});
