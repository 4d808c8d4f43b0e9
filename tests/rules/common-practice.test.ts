/**
 * Numbers of the trade, common practice, no source, from the text of a spec to its findings and answers: panels in parallel
 * on an isolator, the pairs of its terminals, and poles linked by bars.
 */
import { describe, expect, it, test } from 'vitest';
import { analyseText } from '../analysed.ts';
import { answersOf } from '../answers/spec.ts';

const names = ['P1', 'P2', 'P3', 'P4'];

/** So many 10.3 A panels in parallel through pole 1 of an isolator, their return through poles 3 and 4, to a controller. */
function roof(panels: number, isolator: string, ...links: string[]): string {
  const used = names.slice(0, panels);
  const fuse = panels > 2 ? ', most series fuse 40 A' : ', most series fuse 20 A';
  return [
    'system "Roof" 12 V',
    'battery B1 lead-acid, 12 V, 200 Ah, internal 15 mΩ',
    'fuse F1 60 A, bolt-in, 58 V',
    `panel ${used.join(' and ')} 190 W, voc 23 V, isc 10.3 A, vmp 19 V, imp 9.8 A${fuse}`,
    'controller U1 mppt, pv 100 V 80 A, output 30 A, common negative',
    'splice PP and PN',
    `isolator Q1 ${isolator}`,
    ...links,
    ...used.map((name, i) => `run WP${i} 16 mm² red, 2 m, ${name}:+ to PP`),
    ...used.map((name, i) => `run WN${i} 16 mm² black, 2 m, ${name}:- to PN`),
    // Its return goes through the two other poles, linked.
    'link Q1 5-7, 6-8',
    'run W1 16 mm² red, 1 m, PP to Q1:1',
    'run W2 16 mm² red, 1 m, Q1:2 to U1:pv+',
    'run W3 16 mm² black, 1 m, PN to Q1:5',
    'run W4 16 mm² black, 1 m, Q1:6 to U1:pv-',
    'run W5 16 mm² red, 0.5 m, U1:bat+ to F1:out',
    'run W6 16 mm² red, 0.2 m, F1:in to B1:+',
    'run W7 16 mm² black, 0.7 m, U1:bat- to B1:-',
    '',
  ].join('\n');
}

/** A battery, a fuse, an isolator in the plus and a socket that may take all the fuse lets through. */
function feeder(fuse: number, isolator: string, ...links: string[]): string {
  return [
    'system "Feeder" 12 V',
    'battery B1 lead-acid, 12 V, 200 Ah, internal 15 mΩ',
    `fuse F1 ${fuse} A, bolt-in, 58 V`,
    `isolator Q1 ${isolator}`,
    'socket USB 100 A, plugged in 20 A',
    ...links,
    'run W1 25 mm² red, 0.2 m, B1:+ to F1:in',
    'run W2 25 mm² red, 0.5 m, F1:out to Q1:1',
    'run W3 25 mm² red, 0.5 m, Q1:2 to USB:+',
    'run W4 25 mm² black, 1 m, USB:- to B1:-',
    '',
  ].join('\n');
}

/** What is found apart from terminals left open, and poles linked without a figure, on purpose. */
function found(text: string) {
  return analyseText(text).findings.filter(
    ({ slug }) => slug !== 'terminal-unconnected' && slug !== 'linked-rating-unstated',
  );
}

const isolator = '4 poles, 32 A dc, 150 V';
const parallel = `${isolator}, 2 in parallel 45 A`;
const bothSides = 'link Q1 1-3, 2-4';
const oneSide = 'link Q1 1-3';

describe('two 10.3 A panels in parallel', () => {
  it('make 20.6 A, in every conductor and contact that carries both', () => {
    const made = answersOf(roof(2, isolator));
    for (const run of ['W1', 'W2', 'W3', 'W4']) expect(made.core(run).shortCircuitAmps).toBeCloseTo(20.6, 12);
    for (const pole of [1, 3]) expect(made.contact('Q1', pole).shortCircuitAmps).toBeCloseTo(20.6, 12);
    expect(made.core('WP0').shortCircuitAmps).toBeCloseTo(10.3, 12);
  });

  it('leave a 32 A isolator about half again to spare: 32/20.6 = 1.55, before any factor', () => {
    const { ratedAmps, shortCircuitAmps } = answersOf(roof(2, isolator)).contact('Q1', 1);
    expect((ratedAmps ?? 0) / (shortCircuitAmps ?? 1)).toBeCloseTo(1.5534, 4);
    expect(found(roof(2, isolator))).toEqual([]);
  });

  test.each([
    // rating, passes: 1.25 × 20.6 = 25.75 A is needed
    [16, false],
    [20, false],
    [25, false],
    [26, true],
    [32, true],
  ])('on a %d A isolator: passes %j', (rating, passes) => {
    const findings = found(roof(2, isolator.replace('32', String(rating))));
    expect(findings.map(({ slug }) => slug)).toEqual(passes ? [] : ['switch-below-load']);
    for (const { figures, subject, message } of findings) {
      expect(subject).toBe('Q1');
      expect(figures).toMatchObject({
        ratedAmps: rating,
        shortCircuitAmps: expect.closeTo(20.6, 9),
        neededAmps: expect.closeTo(25.75, 9),
      });
      expect(message).toContain('20.6 A');
    }
  });
});

describe('terminals pair 1-2, 3-4, 5-6, 7-8', () => {
  const lamp = (from: number, to: number, clauses = '') => `system "Lamp" 12 V
battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1 5 A, blade, 32 V
isolator Q1 4 poles, 32 A dc, 150 V${clauses}
load LAMP 3 A
run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 1.5 mm² red, 0.5 m, F1:out to Q1:${from}
run W3 1.5 mm² red, 0.5 m, Q1:${to} to LAMP:+
run W4 1.5 mm² black, 1 m, LAMP:- to B1:-
case closed LAMP on
case open LAMP on, Q1 off
`;
  const terminals = [1, 2, 3, 4, 5, 6, 7, 8];
  const ways = terminals.flatMap((from) =>
    terminals.filter((to) => to !== from).map((to) => ({ from, to, pair: Math.ceil(from / 2) === Math.ceil(to / 2) })),
  );

  test.each(ways)('in on $from, out on $to: a way through $pair', ({ from, to, pair }) => {
    const made = answersOf(lamp(from, to));
    expect(made.in('closed').core('W3').amps).toBeCloseTo(pair ? 3 : 0, 9);
    expect(made.in('open').core('W3').amps).toBe(0);
    expect(found(lamp(from, to)).map(({ slug }) => slug)).toEqual([pair ? 'dead-in-case' : 'poles-crossed']);
  });

  it('unless the part says others', () => {
    const crossed = answersOf(lamp(1, 5, ', pairs 1-5 2-6 3-7 4-8'));
    expect(crossed.in('closed').core('W3').amps).toBeCloseTo(3, 9);
    expect(
      answersOf(lamp(1, 2, ', pairs 1-5 2-6 3-7 4-8'))
        .in('closed')
        .core('W3').amps,
    ).toBe(0);
  });
});

describe('two poles of 32 A', () => {
  test.each([
    // what is done, links, isolator, rating that counts
    ['linked on both sides have the stated 45 A, not 64 A', [bothSides], parallel, 45],
    ['linked on both sides with no figure stated have 32 A', [bothSides], isolator, 32],
    ['with a bar on one side have 32 A', [oneSide], parallel, 32],
    ['with a bar on the other side have 32 A', ['link Q1 2-4'], parallel, 32],
    ['not linked have 32 A', [], parallel, 32],
  ])('%s', (_, links, clauses, rated) => {
    expect(answersOf(roof(2, clauses, ...links)).contact('Q1', 1).ratedAmps).toBe(rated);
    expect(answersOf(feeder(40, clauses, ...links)).contact('Q1', 1).ratedAmps).toBe(rated);
  });

  // 1.25 × 30.9 = 38.6 A and 1.25 × 41.2 = 51.5 A are needed: 64 A would carry both.
  test.each([
    ['three panels, linked', 3, parallel, [bothSides], []],
    ['three panels, linked, no figure', 3, isolator, [bothSides], [['switch-below-load', 32]]],
    [
      'three panels, one bar',
      3,
      parallel,
      [oneSide],
      [
        ['switch-below-load', 32],
        ['bar-on-one-side', undefined],
      ],
    ],
    ['three panels, no bar', 3, parallel, [], [['switch-below-load', 32]]],
    ['four panels, linked', 4, parallel, [bothSides], [['switch-below-load', 45]]],
  ])('%s', (_, panels, clauses, links, expected) => {
    const findings = found(roof(panels, clauses, ...links));
    expect(findings.map(({ slug, figures }) => [slug, figures.ratedAmps])).toEqual(expected);
  });

  test.each([
    ['linked, behind 40 A', 40, parallel, [bothSides], []],
    ['linked, behind 50 A', 50, parallel, [bothSides], [['switch-below-fuse', 45]]],
    ['linked, no figure, behind 40 A', 40, isolator, [bothSides], [['switch-below-fuse', 32]]],
    [
      'one bar, behind 40 A',
      40,
      parallel,
      [oneSide],
      [
        ['switch-below-fuse', 32],
        ['bar-on-one-side', undefined],
      ],
    ],
    ['no bar, behind 40 A', 40, parallel, [], [['switch-below-fuse', 32]]],
    ['no bar, behind 30 A', 30, parallel, [], []],
  ])('%s A fuse', (_, fuse, clauses, links, expected) => {
    const findings = found(feeder(fuse, clauses, ...links));
    expect(findings.map(({ slug, figures }) => [slug, figures.ratedAmps])).toEqual(expected);
  });

  it('linked on both sides share the current equally, which is assumed; with one bar all goes through one', () => {
    const withCase = (...links: string[]) =>
      answersOf(`${feeder(40, parallel, ...links)}case closed USB on\n`).in('closed');
    const both = withCase(bothSides);
    expect([both.pole('Q1', 1).amps, both.pole('Q1', 2).amps]).toEqual([10, 10].map((a) => expect.closeTo(a, 9)));
    expect([both.pole('Q1', 1).assumed, both.pole('Q1', 2).assumed]).toEqual([true, true]);
    const one = withCase(oneSide);
    expect([one.pole('Q1', 1).amps, one.pole('Q1', 2).amps]).toEqual([20, 0].map((a) => expect.closeTo(a, 9)));
    expect([one.pole('Q1', 1).assumed, one.pole('Q1', 2).assumed]).toEqual([false, false]);
  });
});
