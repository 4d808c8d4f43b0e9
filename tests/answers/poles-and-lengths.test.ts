/** Linked poles, lengths before the first device, drops along paths, capacities by the conditions of a run. */
import { describe, expect, it } from 'vitest';
import { answersOf } from './spec.ts';

const isolator = (clauses: string, ...links: string[]) => `battery B1 lead-acid, 12 V, 80 Ah
fuse F1 30 A
isolator Q1 ${clauses}
load LAMP 20 A
${links.join('\n')}
run W1 10 mm² red, 0.5 m, B1:+ to F1:in
run W2 10 mm² red, 0.5 m, F1:out to Q1:1
run W3 10 mm² red, 0.5 m, Q1:2 to LAMP:+
run W4 10 mm² black, 0.5 m, LAMP:- to B1:-
case day LAMP on
`;

describe('linked poles', () => {
  it('on both sides have the maker’s 45 A, not twice 32 A', () => {
    const q1 = answersOf(isolator('4 poles, 32 A dc, 2 in parallel 45 A', 'link Q1 1-3, 2-4')).contact('Q1', 1);
    expect([q1.ratedAmps, q1.parallelPoles, q1.oneSidedWith]).toEqual([45, [1, 2], []]);
    // Both carry the circuit together.
    expect(q1.designAmps).toBeCloseTo(20, 9);
  });

  it('without the maker’s figure gain nothing', () => {
    const q1 = answersOf(isolator('4 poles, 32 A dc', 'link Q1 1-3, 2-4')).contact('Q1', 1);
    expect([q1.ratedAmps, q1.parallelPoles]).toEqual([32, [1, 2]]);
  });

  it('have only the figure for as many as they are', () => {
    const q1 = answersOf(
      isolator('4 poles, 32 A dc, 2 in parallel 45 A, 4 in parallel 60 A', 'link Q1 1-3, 3-5, 2-4, 4-6'),
    ).contact('Q1', 3);
    expect([q1.ratedAmps, q1.parallelPoles]).toEqual([32, [1, 2, 3]]);
    const four = answersOf(
      isolator(
        '4 poles, 32 A dc, 2 in parallel 45 A, 4 in parallel 60 A',
        'link Q1 1-3, 3-5, 5-7',
        'link Q1 2-4, 4-6, 6-8',
      ),
    ).contact('Q1', 3);
    expect([four.ratedAmps, four.parallelPoles]).toEqual([60, [1, 2, 3, 4]]);
  });

  it('on one side raise nothing, and that is told', () => {
    const q1 = answersOf(isolator('4 poles, 32 A dc, 2 in parallel 45 A', 'link Q1 1-3')).contact('Q1', 1);
    expect([q1.ratedAmps, q1.parallelPoles, q1.oneSidedWith]).toEqual([32, [1], [2]]);
  });

  it('in series are neither', () => {
    const q1 = answersOf(isolator('4 poles, 32 A dc', 'link Q1 2-3')).contact('Q1', 1);
    expect([q1.parallelPoles, q1.oneSidedWith]).toEqual([[1], []]);
  });

  it('crosswise are in parallel too, and by stated pairs', () => {
    const crossed = answersOf(isolator('2 poles, 32 A dc, 2 in parallel 45 A', 'link Q1 1-4, 2-3'));
    expect(crossed.contact('Q1', 1).ratedAmps).toBe(45);
    // Each pole carries half, the second from its 4 to its 3.
    expect([crossed.in('day').pole('Q1', 1).amps, crossed.in('day').pole('Q1', 2).amps]).toEqual(
      [10, -10].map((a) => expect.closeTo(a, 9)),
    );
    expect(crossed.contact('Q1', 1).designAmps).toBeCloseTo(20, 9);
    const paired = answersOf(isolator('2 poles, 32 A dc, 2 in parallel 45 A, pairs 1-2 5-6', 'link Q1 1-5, 2-6'));
    expect(paired.contact('Q1', 2).parallelPoles).toEqual([1, 2]);
  });

  it('of pairs 1-2, 3-4, 5-6, 7-8 are one way each', () => {
    const { network } = answersOf(isolator('4 poles, 32 A dc')).answers;
    const pairs = network.edges.flatMap((edge) =>
      edge.is === 'contact' && edge.part.name === 'Q1' ? [`${edge.from.spec.name}-${edge.to.spec.name}`] : [],
    );
    expect(pairs).toEqual(['1-2', '3-4', '5-6', '7-8']);
  });
});

describe('lengths before the first device', () => {
  it('are the shortest way to each device out of a battery', () => {
    const { answers } = answersOf(`battery B1 lead-acid, 12 V, 80 Ah
isolator Q1 1 pole, 100 A dc
busbar POS 100 A
fuse F1 and F2 30 A
fuse F3 10 A
run W1 10 mm² red, 0.5 m, B1:+ to Q1:1
run W2 10 mm² red, 0.25 m, Q1:2 to POS
run W3 10 mm² red, 0.125 m, POS to F1:in
run W4 10 mm² red, 2 m, POS to F2:in
run W5 10 mm² red, 1 m, F1:out to F3:in
`);
    expect(
      answers.unfused.map(({ battery, device, metres, cores }) => [
        battery.name,
        device?.name,
        metres,
        cores.map(({ run }) => run.name),
      ]),
    ).toEqual([
      ['B1', 'F1', 0.875, ['W1', 'W2', 'W3']],
      ['B1', 'F2', 2.75, ['W1', 'W2', 'W4']],
    ]);
  });

  it('start at the plus of batteries in series', () => {
    const { answers } = answersOf(`battery B1 and B2 lead-acid, 12 V, 80 Ah
fuse F1 30 A
run W1 10 mm² red, 0.5 m, B2:+ to F1:in
run W2 10 mm² black, 0.25 m, B1:+ to B2:-
`);
    expect(answers.unfused.map(({ battery, device, metres }) => [battery.name, device?.name, metres])).toEqual([
      ['B2', 'F1', 0.5],
    ]);
  });
});

describe('the drop of a load', () => {
  it('at the end of a loop counts out and back, warm', () => {
    // Two ways out, 2 m and 6 m of 2.5 mm² (7.98 mΩ/m), and 3 m back; 8 A. At 20 °C: 6 A and 2 A, 95.76 mV out;
    // 8 × 23.94 = 191.52 mV back. Warm (70 °C, clipped, Iz 27 A, ambient 30 °C):
    // R(θ) = R20 (1 + 0.00393 (10 + 40 (I/27)²)) for each, and the two ways share by those.
    const made = answersOf(`battery B1 lead-acid, 12 V, 80 Ah, internal 10 mΩ
fuse F1 20 A
splice J1
load LAMP 8 A
run W1 10 mm² red, 0.1 m, B1:+ to F1:in
run W2 2.5 mm² red, 2 m, F1:out to J1
run W3 2.5 mm² red, 6 m, F1:out to J1
run W4 2.5 mm² red, 0.5 m, J1 to LAMP:+
run W5 2.5 mm² black, 3 m, LAMP:- to B1:-
case cold LAMP on, conductors at 20 °C
case warm LAMP on
`);
    const cold = made.in('cold');
    expect([cold.core('W2').amps, cold.core('W3').amps]).toEqual([6, 2].map((a) => expect.closeTo(a, 9)));
    // 8 × 0.191 (W1) + 95.76 + 8 × 3.99 (W4) + 191.52 mV = 320.728 mV.
    expect(cold.part('LAMP').dropVolts).toBeCloseTo(0.320728, 9);
    const warm = made.in('warm');
    const r = (metres: number, amps: number) => metres * 0.00798 * (1 + 0.00393 * (10 + 40 * (amps / 27) ** 2));
    let one = 6;
    for (let i = 0; i < 50; i++) one = (8 * r(6, 8 - one)) / (r(2, one) + r(6, 8 - one));
    // The shorter way is warmer, and so carries a little less than 6 A.
    expect(one).toBeCloseTo(5.99, 3);
    expect(warm.core('W2').amps).toBeCloseTo(one, 8);
    const w1 = 8 * 0.000191 * (1 + 0.00393 * (10 + 40 * (8 / 65) ** 2));
    expect(warm.core('W1').capacityAmps).toBe(65);
    expect(warm.part('LAMP').dropVolts).toBeCloseTo(w1 + one * r(2, one) + 8 * r(3.5, 8), 8);
    // The figures over all cases are those of the worst.
    expect([made.load('LAMP').worstCase, made.load('LAMP').dropVolts]).toEqual([
      'warm',
      expect.closeTo(w1 + one * r(2, one) + 8 * r(3.5, 8), 8),
    ]);
    expect(made.load('LAMP').dropPercent).toBeCloseTo((100 * made.load('LAMP').dropVolts) / 12, 9);
  });

  it('counts from the nearest battery that is joined to it in the case', () => {
    const made = answersOf(`battery B1 and B2 lead-acid, 12 V, 80 Ah, internal 10 mΩ
switch S1 1 pole, 50 A dc
load LAMP 5 A
run W1 10 mm² red, 1 m, B1:+ to LAMP:+
run W2 10 mm² black, 1 m, LAMP:- to B1:-
run W3 10 mm² red, 5 m, B2:+ to S1:1
run W4 10 mm² red, 1 m, S1:2 to LAMP:+
run W5 10 mm² black, 6 m, LAMP:- to B2:-
case both LAMP on, conductors at 20 °C
case alone LAMP on, B1 off, conductors at 20 °C
`);
    const both = made.in('both');
    // From B1, whose share goes over 2 × 1.91 mΩ.
    expect(both.part('LAMP').dropVolts).toBeCloseTo((both.part('B1').amps ?? 0) * 0.00382, 9);
    // From B2 alone: 5 A over 12 × 1.91 mΩ.
    expect(made.in('alone').part('LAMP').dropVolts).toBeCloseTo(5 * 12 * 0.00191, 9);
    expect([
      made.load('LAMP').worstCase,
      made.load('LAMP').source?.name,
      made.load('LAMP').cores.map(({ run }) => run.name),
    ]).toEqual(['alone', 'B2', ['W3', 'W4', 'W5']]);
    expect(made.load('LAMP').lowestVolts).toBeCloseTo(12 - 5 * (0.01 + 12 * 0.00191), 9);
  });

  it('of a load that no case turns on is nothing', () => {
    const made = answersOf(isolator('4 poles, 32 A dc').replace('case day LAMP on', 'case night sun 0 %'));
    expect([
      made.load('LAMP').worstCase,
      made.load('LAMP').dropVolts,
      made.core('W3').designAmps,
      made.core('W3').designFrom,
    ]).toEqual(['', 0, 0, '']);
    expect(made.load('LAMP').designAmps).toBe(20);
  });
});

describe('design currents', () => {
  const load = (text: string, ...cases: string[]) =>
    answersOf(`battery B1 lead-acid, 12 V, 80 Ah
load LAMP ${text}
run W1 10 mm² red, 1 m, B1:+ to LAMP:+
run W2 10 mm² black, 1 m, LAMP:- to B1:-
${cases.join('\n')}
`).core('W1');

  it('of constant power are at the lowest stated input voltage, else 0.875 of nominal', () => {
    expect(load('42 W').designAmps).toBeCloseTo(4, 9); // 42/10.5
    expect(load('42 W, lowest 10 V').designAmps).toBeCloseTo(4.2, 9);
    expect(load('4 A, lowest 10 V').designAmps).toBeCloseTo(4, 9);
  });

  it('leave out hours and surge', () => {
    expect(load('42 W, 5 h/day, surge 200 W for 2 s').designAmps).toBeCloseTo(4, 9);
  });

  it('are the greatest over the cases, and name the case', () => {
    const figures = load('2 A', 'case night sun 0 %', 'case day LAMP on', 'case again LAMP on');
    expect([figures.designAmps, figures.designFrom]).toEqual([expect.closeTo(2, 9), 'day']);
  });

  it('of a socket are what is plugged in, else its rating', () => {
    const socket = (text: string) =>
      answersOf(`battery B1 lead-acid, 12 V, 80 Ah
socket USB ${text}
run W1 10 mm² red, 1 m, B1:+ to USB:+
run W2 10 mm² black, 1 m, USB:- to B1:-
`).core('W1').designAmps;
    expect(socket('15 A')).toBeCloseTo(15, 9);
    expect(socket('15 A, plugged in 42 W')).toBeCloseTo(4, 9);
    expect(socket('15 A, plugged in 3 A')).toBeCloseTo(3, 9);
  });
});

describe('capacity', () => {
  const run = (clauses: string, ...more: string[]) =>
    answersOf(`system "Shed" 12 V, ambient 40 °C
battery B1 lead-acid, 12 V, 80 Ah
load LAMP 5 A${more.some((line) => line.startsWith('place')) ? ', at ROOF' : ''}
${more.join('\n')}
run W1 ${clauses}, B1:+ to LAMP:+
run W2 10 mm² black, 1 m, LAMP:- to B1:-
`).core('W1').capacity;
  const roof = 'place ROOF 60 °C\nplace CELLAR 20 °C';

  it('is by the system’s ambient where no place is said', () => {
    // 2.5 mm²: 27 A × √((70 − 40)/40).
    expect(run('2.5 mm² red, 3 m')?.amps).toBeCloseTo(27 * Math.sqrt(0.75), 9);
  });

  it('is by the warmest place it lies in, or ends at when it does not say', () => {
    expect(run('2.5 mm² red, 3 m', roof)?.ambientCelsius).toBe(60);
    expect(run('2.5 mm² red, 3 m, along CELLAR', roof)?.ambientCelsius).toBe(20);
    expect(run('2.5 mm² red, 3 m, along CELLAR 1 m and ROOF 2 m', roof)?.ambientCelsius).toBe(60);
    // 2 m of it are not said to lie anywhere: they lie in the system's 40 °C.
    expect(run('2.5 mm² red, 3 m, along CELLAR 1 m', roof)?.ambientCelsius).toBe(40);
  });

  it('is by its insulation, bunch, method and number of cores', () => {
    expect(run('2.5 mm² red, 90 °C, 3 m')?.insulationCelsius).toBe(90);
    // Five others: ⌈(5 + 1 + 1)/2⌉ → as the set of limits counts; see its own tests.
    expect(run('2.5 mm² red, 3 m, bunched with 5')?.bunchingFactor).toBeLessThan(1);
    expect(run('2.5 mm² red, 3 m, in conduit')?.tableAmps).toBe(24);
    expect(run('? mm² red, 3 m')).toBeUndefined();
  });

  it('is by the set of limits that the spec names, else that of its units', () => {
    const set = (size: string, limits = '') => {
      const { answers } = answersOf(`system "Shed" 12 V${limits}
battery B1 lead-acid, 12 V, 80 Ah
load LAMP 5 A
run W1 ${size} red, 1 m, B1:+ to LAMP:+
run W2 ${size} black, 1 m, LAMP:- to B1:-
`);
      return [answers.limits.id, answers.limitsStated];
    };
    expect(set('6 mm²')).toEqual(['iec-60364-5-52', false]);
    expect(set('10 AWG')).toEqual(['cfr-33-183', false]);
    expect(set('10 AWG', ', limits iec-60364-5-52')).toEqual(['iec-60364-5-52', true]);
  });
});
