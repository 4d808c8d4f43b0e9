/** What a converter or charger takes in for what it gives, and that it gives nothing where its input has no way back. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const radio = (home: string) => `system "Truck" 24 V, ambient 30 °C
battery B1 lithium-iron-phosphate, 25.6 V, 100 Ah, internal 10 mΩ, heated
fuse F1 20 A, bolt-in, 58 V, breaks 5 kA
converter U1 12 V, 10 A, efficiency 90 %, common negative
load RADIO 60 W
run W1 6 mm² red, 0.2 m, B1:+ to F1:in
run W2 6 mm² red, 1 m, F1:out to U1:in+
run W3 6 mm² red, 1 m, U1:out+ to RADIO:+
run W4 6 mm² black, 1 m, U1:out- to RADIO:-
chassis G1
run W6 6 mm² black, 1 m, B1:- to G1
${home}
case work RADIO on
`;

const work = (home: string) => {
  const { answers, findings } = analyseText(radio(home));
  const one = answers?.cases.find(({ name }) => name === 'work');
  if (one?.converged !== true) throw new Error('no answer');
  return { one, found: findings.map(({ slug }) => slug) };
};

describe('a converter that shares its negative inside', () => {
  it.each(['run W5 6 mm² black, 1 m, U1:in- to B1:-', 'run W5 6 mm² black, 1 m, U1:out- to B1:-'])(
    'takes in what it gives over its efficiency, back by %s',
    (home) => {
      const { one, found } = work(home);
      const battery = one.parts.get('B1')?.watts ?? 0;
      const made = one.parts.get('U1')?.watts ?? 0;
      const back = one.cores.find(({ core }) => core.run.name === 'W5')?.amps ?? 0;
      expect(made).toBeGreaterThan(60);
      // What the two short feeds lose is less than half a per cent.
      expect(battery / (made / 0.9)).toBeGreaterThan(1);
      expect(battery / (made / 0.9)).toBeLessThan(1.005);
      expect(one.parts.get('F1')?.amps).toBeCloseTo(Math.abs(back), 9);
      expect(found).not.toContain('no-return');
    },
  );

  it('gives nothing where nothing leads back to the battery', () => {
    const { one, found } = work('# run W5 is forgotten');
    expect(one.parts.get('F1')?.amps).toBe(0);
    expect(one.parts.get('RADIO')?.amps).toBe(0);
    expect(found).toEqual(['no-return']);
  });
});

it('a charger whose input has no way back charges nothing', () => {
  const { answers, findings } = analyseText(`system "Trailer" 12 V, ambient 30 °C
battery B1 agm, 12 V, 90 Ah, sealed, internal 5 mΩ
charger U1 12 V, 20 A, common negative
fuse F2 and F3 30 A, bolt-in, 58 V, breaks 5 kA
battery B2 agm, 12 V, 100 Ah, sealed, internal 5 mΩ
load FAN 12 W
run W1 10 mm² red, 0.3 m, B1:+ to F2:in
run W2 10 mm² red, 6 m, F2:out to U1:in+
run W3 10 mm² red, 1 m, U1:out+ to F3:out
run W4 10 mm² red, 0.3 m, F3:in to B2:+
run W5 10 mm² black, 1 m, U1:out- to B2:-
run W6 10 mm² red, 1 m, F2:out to FAN:+
run W7 10 mm² black, 1 m, FAN:- to B1:-
case drive U1 on
`);
  const drive = answers?.cases.find(({ name }) => name === 'drive');
  expect(drive?.converged).toBe(true);
  expect(drive?.parts.get('B2')?.amps).toBe(0);
  expect(findings.filter(({ severity }) => severity === 'error').map(({ slug, message }) => [slug, message])).toEqual([
    ['no-return', 'U1 has no way back to B1, so it gets nothing: join U1:in- to B1:-.'],
  ]);
});
