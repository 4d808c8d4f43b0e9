/** Protecting devices by the conventions: the smallest sum of ratings that cuts a conductor from what can drive it. */
import { describe, expect, it } from 'vitest';
import { answersOf, devices, limited } from './spec.ts';

/** Ends and lengths do not matter here: a run a line from `X to Y`. */
function runs(...ends: string[]): string {
  return ends.map((end, i) => `run W${i + 1} 10 mm² red, 0.5 m, ${end}`).join('\n');
}

const battery = 'battery B1 lead-acid, 12 V, 80 Ah';

describe('a core behind devices in series', () => {
  const made = answersOf(`${battery}
fuse F1 60 A
fuse F2 10 A
busbar POS 100 A
load LAMP 5 A
${runs('B1:+ to F1:in', 'F1:out to POS', 'POS to F2:in', 'F2:out to LAMP:+', 'LAMP:- to B1:-')}
`);

  it('has the smallest of those before it', () => {
    expect([made.core('W2').protection.amps, devices(made.core('W2'))]).toEqual([60, ['F1']]);
    expect([made.core('W3').protection.amps, devices(made.core('W3'))]).toEqual([60, ['F1']]);
    expect([made.core('W4').protection.amps, devices(made.core('W4'))]).toEqual([10, ['F2']]);
  });

  it('as a return has the device of the feed it returns', () => {
    expect([made.core('W5').protection.amps, devices(made.core('W5')), made.core('W5').isReturn]).toEqual([
      10,
      ['F2'],
      true,
    ]);
  });

  it('before the first device counts as protected by that', () => {
    const first = made.core('W1');
    expect([first.protection.amps, devices(first), first.beforeFirstDevice]).toEqual([60, ['F1'], true]);
    expect(first.protection.unprotectedFrom).toEqual([]);
    expect(made.core('W2').beforeFirstDevice).toBe(false);
  });

  it('serves what it parts from the source', () => {
    expect(['W1', 'W2', 'W4', 'W5'].map((run) => made.core(run).loads.map(({ name }) => name))).toEqual([
      ['LAMP'],
      ['LAMP'],
      ['LAMP'],
      ['LAMP'],
    ]);
  });
});

it('devices in parallel let through the sum of their ratings', () => {
  const made = answersOf(`${battery}
fuse F1 and F2 30 A
busbar POS 100 A
load LAMP 5 A
${runs('B1:+ to F1:in', 'B1:+ to F2:in', 'F1:out to POS', 'F2:out to POS', 'POS to LAMP:+', 'LAMP:- to B1:-')}
`);
  expect([made.core('W5').protection.amps, devices(made.core('W5'))]).toEqual([60, ['F1', 'F2']]);
  expect(made.core('W6').protection.amps).toBe(60);
  // Behind one of the two the other comes round by the busbar: 30 A from either end, never both the same way.
  expect(made.core('W3').protection.amps).toBe(30);
});

describe('a shared return', () => {
  const shared = (main: string) =>
    answersOf(`${battery}
fuse F1 ${main}
fuse F2 15 A
fuse F3 20 A
busbar POS and NEG 100 A
load LAMP and FAN 5 A
${runs('B1:+ to F1:in', 'F1:out to POS', 'POS to F2:in', 'POS to F3:in', 'F2:out to LAMP:+', 'F3:out to FAN:+', 'LAMP:- to NEG', 'FAN:- to NEG', 'NEG to B1:-')}
`);

  it('has the sum of the devices whose feeds it returns', () => {
    const made = shared('100 A');
    expect([made.core('W7').protection.amps, made.core('W8').protection.amps]).toEqual([15, 20]);
    expect([made.core('W9').protection.amps, devices(made.core('W9'))]).toEqual([35, ['F2', 'F3']]);
  });

  it('capped by the main device of the source', () => {
    const made = shared('30 A');
    expect([made.core('W9').protection.amps, devices(made.core('W9'))]).toEqual([30, ['F1']]);
  });
});

it('a fusebox caps the return of its ways by its own feed', () => {
  const made = answersOf(`${battery}
fuse F1 100 A
fuse F2 12 A
fusebox FB 3 ways, ways 1 to 3 fuse 5 A
load LAMP and FAN and PUMP 2 A
busbar NEG and NEG2 100 A
${runs('B1:+ to F1:in', 'F1:out to F2:in', 'F2:out to FB:in', 'FB:1 to LAMP:+', 'FB:2 to FAN:+', 'FB:3 to PUMP:+', 'LAMP:- to NEG2', 'FAN:- to NEG2', 'PUMP:- to NEG2', 'NEG2 to NEG', 'NEG to B1:-')}
`);
  expect(devices(made.core('W5'))).toEqual(['FB:2']);
  // 3 × 5 A = 15 A, but F2 lets through 12 A.
  expect([made.core('W10').protection.amps, devices(made.core('W10'))]).toEqual([12, ['F2']]);
});

describe('current-limited sources', () => {
  const made = answersOf(`${battery}
battery B2 lead-acid, 12 V, 80 Ah
fuse F1 60 A
fuse F4 30 A
fuse F5 40 A
charger U2 12 V, 18 A
controller U1 mppt, pv 50 V 20 A, output 20 A
busbar POS and NEG 100 A
load LAMP 5 A
${runs('B1:+ to F1:in', 'F1:out to POS', 'POS to F4:in', 'F4:out to U2:out+', 'U2:out- to NEG', 'POS to U1:bat+', 'U1:bat- to NEG', 'POS to LAMP:+', 'LAMP:- to NEG', 'NEG to B1:-', 'B2:+ to F5:in', 'F5:out to U2:in+', 'B2:- to U2:in-')}
`);

  it('count as their own greatest current beside the battery’s device', () => {
    // To the lamp: F1 60 A, the charger 18 A (its F4 is larger) and the controller 20 A.
    const lamp = made.core('W8');
    expect([lamp.protection.amps, devices(lamp), limited(lamp)]).toEqual([98, ['F1'], ['U1', 'U2']]);
    expect(made.core('W9').protection.amps).toBe(98);
  });

  it('need no device at their end: from the other it is the battery’s', () => {
    // W4 carries the charger's 18 A one way; the other way the 30 A of F4. W6: 20 A one way, F1 and the charger the other.
    expect([made.core('W4').protection.amps, devices(made.core('W4'))]).toEqual([30, ['F4']]);
    expect([made.core('W6').protection.amps, devices(made.core('W6')), limited(made.core('W6'))]).toEqual([
      78,
      ['F1'],
      ['U2'],
    ]);
    // The battery's cable carries F1's 60 A out, or both chargers' 38 A in.
    expect([made.core('W2').protection.amps, devices(made.core('W2'))]).toEqual([60, ['F1']]);
    expect([made.core('W1').protection.amps, made.core('W1').beforeFirstDevice]).toEqual([60, true]);
  });

  it('an input hangs on its own battery', () => {
    expect([made.core('W12').protection.amps, devices(made.core('W12'))]).toEqual([40, ['F5']]);
    expect([made.core('W13').protection.amps, made.core('W13').isReturn]).toEqual([40, true]);
  });

  it('alone protect what they feed', () => {
    const usb = answersOf(`${battery}
fuse F1 10 A
converter U3 5 V, 6 A
load PHONE 10 W
${runs('B1:+ to F1:in', 'F1:out to U3:in+', 'U3:in- to B1:-', 'U3:out+ to PHONE:+', 'PHONE:- to U3:out-')}
`);
    expect([usb.core('W4').protection.amps, devices(usb.core('W4')), limited(usb.core('W4'))]).toEqual([6, [], ['U3']]);
    expect([usb.core('W5').protection.amps, limited(usb.core('W5'))]).toEqual([6, ['U3']]);
  });
});

it('two batteries each with its fuse add up where both reach', () => {
  const made = answersOf(`${battery}
battery B2 lead-acid, 12 V, 80 Ah
fuse F1 60 A
fuse F2 40 A
busbar POS and NEG 100 A
load LAMP 5 A
${runs('B1:+ to F1:in', 'B2:+ to F2:in', 'F1:out to POS', 'F2:out to POS', 'POS to LAMP:+', 'LAMP:- to NEG', 'NEG to B1:-', 'NEG to B2:-')}
`);
  expect([made.core('W5').protection.amps, devices(made.core('W5'))]).toEqual([100, ['F1', 'F2']]);
  expect(made.core('W6').protection.amps).toBe(100);
  // Between the two: F1 drives it one way, F2 the other.
  expect([made.core('W3').protection.amps, made.core('W4').protection.amps]).toEqual([60, 60]);
  // Each battery's return has its own fuse, in or out.
  expect([made.core('W7').protection.amps, made.core('W8').protection.amps]).toEqual([60, 40]);
});

describe('nothing on the way', () => {
  const bare = (more = '', ...ends: string[]) => `${battery}
battery B2 lead-acid, 12 V, 80 Ah
busbar POS 100 A
fuse F1 30 A
load LAMP 5 A
load HORN 5 A${more}
${runs('B1:+ to POS', 'POS to F1:in', 'F1:out to LAMP:+', 'LAMP:- to B1:-', 'POS to HORN:+', 'HORN:- to B1:-', ...ends)}
`;

  it('is told, with the battery it is unprotected from', () => {
    const made = answersOf(bare());
    const horn = made.core('W5');
    expect([
      horn.protection.amps,
      horn.protection.unprotectedFrom.map(({ name }) => name),
      horn.beforeFirstDevice,
    ]).toEqual([Number.POSITIVE_INFINITY, ['B1'], false]);
    // The cable before both as well: the horn hangs on it without a device.
    expect(made.core('W1').protection.amps).toBe(Number.POSITIVE_INFINITY);
    // That of the fuse alone is before the first device.
    expect([made.core('W2').protection.amps, made.core('W2').beforeFirstDevice]).toEqual([30, true]);
    expect(made.core('W6').protection.amps).toBe(Number.POSITIVE_INFINITY);
  });

  it('is exempt for a starter motor, which does not spoil what it shares', () => {
    const made = answersOf(bare(', cranking'));
    expect([made.core('W5').crankingOnly, made.core('W6').crankingOnly, made.core('W1').crankingOnly]).toEqual([
      true,
      true,
      false,
    ]);
    expect([made.core('W1').protection.amps, devices(made.core('W1')), made.core('W1').beforeFirstDevice]).toEqual([
      30,
      ['F1'],
      true,
    ]);
    // The lamp's 5 A count for the shared cable, not the cranking.
    expect(made.core('W1').designAmps).toBeCloseTo(5, 9);
    expect(made.core('W5').designAmps).toBeCloseTo(5, 9);
  });

  it('between two batteries in parallel is the length before the first device of both', () => {
    const made = answersOf(bare(', cranking', 'B2:+ to POS', 'B2:- to B1:-'));
    expect([made.core('W7').protection.amps, made.core('W7').beforeFirstDevice]).toEqual([30, true]);
    expect([made.core('W8').protection.amps, made.core('W8').isReturn]).toEqual([30, true]);
  });
});

it('several first devices let through their sum', () => {
  const made = answersOf(`${battery}
busbar POS 100 A
fuse F1 30 A
fuse F2 20 A
fuse F3 10 A
load LAMP and FAN 5 A
${runs('B1:+ to POS', 'POS to F1:in', 'POS to F2:in', 'F1:out to LAMP:+', 'F2:out to FAN:+', 'LAMP:- to B1:-', 'FAN:- to B1:-', 'POS to F3:in')}
`);
  // F3 leads nowhere yet, and so lets through nothing.
  expect([made.core('W1').protection.amps, devices(made.core('W1'))]).toEqual([50, ['F1', 'F2']]);
});

describe('batteries in series', () => {
  const made = answersOf(`battery B1 and B2 lead-acid, 12 V, 80 Ah, internal 10 mΩ
fuse F1 60 A
load LAMP 24 W, lowest 20 V
${runs('B2:+ to F1:in', 'B1:+ to B2:-', 'F1:out to LAMP:+', 'LAMP:- to B1:-')}
case day LAMP on, conductors at 20 °C
`);

  it('are one supply of their voltages together', () => {
    expect([made.load('LAMP').supplyVolts, made.load('LAMP').source?.name]).toEqual([24, 'B2']);
    // 24 W at about 24 V: 1 A over 20 mΩ and 4 × 0.955 mΩ.
    expect(made.in('day').part('LAMP').volts).toBeCloseTo(12 + Math.sqrt(144 - 24 * 0.02382), 5);
    // Out and back from their outer terminals: two runs of 0.5 m, 10 mm².
    expect(made.load('LAMP').cores.map(({ run }) => run.name)).toEqual(['W1', 'W3', 'W4']);
    expect(made.core('W3').designAmps).toBeCloseTo(24 / 20, 9);
  });

  it('have their joint protected by the device behind both', () => {
    expect([made.core('W2').protection.amps, devices(made.core('W2')), made.core('W2').beforeFirstDevice]).toEqual([
      60,
      ['F1'],
      true,
    ]);
  });
});

describe('contacts', () => {
  it('are capped by the sum of the devices downstream, cores are not', () => {
    const made = answersOf(`${battery}
fuse F1 100 A
isolator Q1 1 pole, 50 A dc
fusebox FB 3 ways, way 1 fuse 5 A, way 2 fuse 10 A, way 3 fuse 15 A
load LAMP and FAN 2 A
${runs('B1:+ to F1:in', 'F1:out to Q1:1', 'Q1:2 to FB:in', 'FB:1 to LAMP:+', 'FB:2 to FAN:+', 'LAMP:- to B1:-', 'FAN:- to B1:-')}
`);
    const q1 = made.contact('Q1');
    expect([q1.protection.amps, devices(q1)]).toEqual([100, ['F1']]);
    // Ways 1 and 2 lead to loads: 5 + 10 A.
    expect(q1.circuitAmps).toBe(15);
    expect(made.core('W3').protection.amps).toBe(100);
    expect(q1.feeds.map(({ name }) => name)).toEqual(['LAMP', 'FAN']);
    expect([q1.feedsFixed, q1.feedsAmps]).toEqual([true, 4]);
  });

  it('are not where a load downstream has no device of its own', () => {
    const made = answersOf(`${battery}
fuse F1 40 A
switch S1 1 pole, 10 A dc
fuse F2 5 A
load LAMP 2 A
socket USB 10 A
${runs('B1:+ to F1:in', 'F1:out to S1:1', 'S1:2 to F2:in', 'F2:out to LAMP:+', 'LAMP:- to B1:-', 'S1:2 to USB:+', 'USB:- to B1:-')}
`);
    expect(made.contact('S1').circuitAmps).toBe(40);
    expect([made.contact('S1').feedsFixed, made.contact('S1').feedsAmps]).toEqual([false, 12]);
  });

  it('before the first device have what lies behind them', () => {
    const made = answersOf(`${battery}
isolator Q1 1 pole, 200 A dc
fuse F1 100 A
fuse F2 5 A
load LAMP 2 A
${runs('B1:+ to Q1:1', 'Q1:2 to F1:in', 'F1:out to F2:in', 'F2:out to LAMP:+', 'LAMP:- to B1:-')}
`);
    const q1 = made.contact('Q1');
    expect([q1.beforeFirstDevice, q1.protection.amps, q1.circuitAmps]).toEqual([true, 100, 5]);
  });

  it('towards a charger alone have the device before them', () => {
    const made = answersOf(`${battery}
fuse F1 100 A
switch S1 1 pole, 20 A dc
charger U2 12 V, 18 A, from mains
${runs('B1:+ to F1:in', 'F1:out to S1:1', 'S1:2 to U2:out+', 'U2:out- to B1:-')}
`);
    expect(made.contact('S1').circuitAmps).toBe(100);
  });

  it('in a return have what the return has', () => {
    const made = answersOf(`${battery}
fuse F1 40 A
isolator Q1 2 poles, 50 A dc
load LAMP 2 A
${runs('B1:+ to F1:in', 'F1:out to Q1:1', 'Q1:2 to LAMP:+', 'LAMP:- to Q1:4', 'Q1:3 to B1:-')}
`);
    expect([
      made.contact('Q1', 1).circuitAmps,
      made.contact('Q1', 2).circuitAmps,
      made.contact('Q1', 2).isReturn,
    ]).toEqual([40, 40, true]);
    expect(made.contact('Q1', 2).feeds.map(({ name }) => name)).toEqual(['LAMP']);
  });

  it('of devices are protected by themselves, or by a smaller one before', () => {
    const made = answersOf(`${battery}
fuse F1 10 A
breaker CB1 40 A
load LAMP 2 A
${runs('B1:+ to F1:in', 'F1:out to CB1:in', 'CB1:out to LAMP:+', 'LAMP:- to B1:-')}
`);
    expect([devices(made.contact('F1')), devices(made.contact('CB1'))]).toEqual([['F1'], ['F1']]);
  });
});

describe('where as much can come from either end', () => {
  it('a panel’s own cable is limited by that panel, not by its neighbour', () => {
    const made = answersOf(`${battery}
panel P1 and P2 100 W, voc 22 V, isc 5 A, vmp 18 V, imp 5 A
controller U1 mppt, pv 50 V 20 A, output 20 A
splice J1 and J2
fuse F1 30 A
${runs('P1:+ to J1', 'P2:+ to J1', 'J1 to U1:pv+', 'P1:- to J2', 'P2:- to J2', 'J2 to U1:pv-', 'U1:bat+ to F1:out', 'F1:in to B1:+', 'U1:bat- to B1:-')}
`);
    expect([limited(made.core('W1')), limited(made.core('W2')), limited(made.core('W3'))]).toEqual([
      ['P1'],
      ['P2'],
      ['P1', 'P2'],
    ]);
  });

  it('a battery’s cable to the bar is protected by its own fuse', () => {
    const made = answersOf(`${battery}
battery B2 lead-acid, 12 V, 80 Ah
fuse F1 and F2 60 A
busbar POS and NEG 100 A
load LAMP 5 A
${runs('B1:+ to F1:in', 'B2:+ to F2:in', 'F1:out to POS', 'F2:out to POS', 'POS to LAMP:+', 'LAMP:- to NEG', 'NEG to B1:-', 'NEG to B2:-')}
`);
    expect([devices(made.core('W3')), devices(made.core('W4'))]).toEqual([['F1'], ['F2']]);
  });
});

describe('diodes', () => {
  it('let a source drive one way only', () => {
    const made = answersOf(`${battery}
battery B2 lead-acid, 12 V, 80 Ah
alternator A1 14 V, 70 A, fixed
diode D1 100 A, 2 outputs
fuse F1 80 A
fuse F2 90 A
${runs('A1:+ to D1:in', 'D1:out to F1:in', 'F1:out to B1:+', 'D1:out2 to F2:in', 'F2:out to B2:+', 'A1:- to B1:-', 'B2:- to B1:-')}
`);
    // The batteries cannot drive the alternator's cable back through the diode.
    expect([made.core('W1').protection.amps, limited(made.core('W1')), devices(made.core('W1'))]).toEqual([
      70,
      ['A1'],
      [],
    ]);
    // Behind it 70 A come from the alternator, F1's 80 A from B1.
    expect([made.core('W2').protection.amps, devices(made.core('W2'))]).toEqual([80, ['F1']]);
  });
});

describe('loops', () => {
  it('of linked poles part a circuit like one pole', () => {
    const made = answersOf(`${battery}
fuse F1 60 A
isolator Q1 2 poles, 32 A dc, 2 in parallel 45 A
link Q1 1-3, 2-4
load LAMP 5 A
load FAN 5 A
${runs('B1:+ to F1:in', 'F1:out to Q1:1', 'Q1:2 to LAMP:+', 'LAMP:- to B1:-', 'F1:out to FAN:+', 'FAN:- to B1:-')}
`);
    expect([1, 2].map((pole) => made.contact('Q1', pole).feeds.map(({ name }) => name))).toEqual([['LAMP'], ['LAMP']]);
    expect(made.contact('Q1', 2).circuitAmps).toBe(60);
  });

  it('of two cables in parallel leave each with the whole', () => {
    const made = answersOf(`${battery}
fuse F1 60 A
busbar POS 100 A
load LAMP 5 A
${runs('B1:+ to F1:in', 'F1:out to POS', 'F1:out to POS', 'POS to LAMP:+', 'LAMP:- to B1:-', 'LAMP:- to B1:-')}
`);
    expect(['W2', 'W3', 'W5', 'W6'].map((run) => made.core(run).protection.amps)).toEqual([60, 60, 60, 60]);
    expect(['W2', 'W6'].map((run) => made.core(run).loads.map(({ name }) => name))).toEqual([['LAMP'], ['LAMP']]);
  });

  it('of a ring serve what hangs on the ring, not what hangs before it', () => {
    const made = answersOf(`${battery}
fuse F1 60 A
splice J1 and J2 and J3
load LAMP and FAN and PUMP 5 A
busbar NEG 100 A
${runs('B1:+ to F1:in', 'F1:out to J1', 'J1 to J2', 'J2 to J3', 'J3 to J1', 'J2 to LAMP:+', 'J3 to FAN:+', 'J1 to PUMP:+', 'LAMP:- to NEG', 'FAN:- to NEG', 'PUMP:- to NEG', 'NEG to B1:-')}
`);
    for (const run of ['W3', 'W4', 'W5'])
      expect(
        made
          .core(run)
          .loads.map(({ name }) => name)
          .sort(),
      ).toEqual(['FAN', 'LAMP']);
    for (const run of ['W3', 'W4', 'W5']) expect(made.core(run).protection.amps).toBe(60);
  });

  it('through a common negative inside a part do not load its two wires with all there is', () => {
    const made = answersOf(`${battery}
fuse F1 100 A
fuse F2 30 A
fuse F3 80 A
busbar POS and NEG 150 A
converter U3 24 V, 5 A, common negative
load LAMP 10 A
load MOTOR 60 A
${runs('B1:+ to F1:in', 'F1:out to POS', 'POS to F2:in', 'F2:out to U3:in+', 'U3:in- to NEG', 'U3:out- to NEG', 'POS to F3:in', 'F3:out to MOTOR:+', 'MOTOR:- to NEG', 'NEG to B1:-', 'U3:out+ to LAMP:+', 'LAMP:- to NEG')}
`);
    // U3's input has 30 A, its output 5 A.
    expect([made.core('W5').protection.amps, made.core('W6').protection.amps]).toEqual([30, 30]);
    expect(made.core('W12').protection.amps).toBe(5);
  });
});

describe('blank ratings', () => {
  it('are stood in for by the tool’s choice, and that is marked', () => {
    const made = answersOf(`${battery}
fuse F1 ? A, blade
load LAMP 6 A
${runs('B1:+ to F1:in', 'F1:out to LAMP:+', 'LAMP:- to B1:-')}
`);
    expect([made.core('W2').protection.amps, made.core('W2').protection.blank]).toEqual([7.5, true]);
    expect(made.contact('F1').device).toEqual({ amps: 7.5, blank: true });
  });

  it('of which nothing is known are open, not unprotected', () => {
    const made = answersOf(`${battery}
fuse F1 ? A, blade
load LAMP ? A
${runs('B1:+ to F1:in', 'F1:out to LAMP:+', 'LAMP:- to B1:-')}
`);
    const { blank, unprotectedFrom, amps } = made.core('W2').protection;
    expect([blank, unprotectedFrom, amps]).toEqual([true, [], 0]);
  });
});

describe('the same answer', () => {
  it('comes whichever way a run is written', () => {
    const text = `${battery}
fuse F1 60 A
fuse F2 10 A
busbar POS 100 A
load LAMP 5 A
`;
    const ends = ['B1:+ to F1:in', 'F1:out to POS', 'POS to F2:in', 'F2:out to LAMP:+', 'LAMP:- to B1:-'];
    const turned = ends.map((end) => end.split(' to ').reverse().join(' to '));
    const [one, other] = [answersOf(text + runs(...ends)), answersOf(text + runs(...turned))];
    for (const run of ['W1', 'W2', 'W3', 'W4', 'W5'])
      expect(other.core(run).protection.amps).toBe(one.core(run).protection.amps);
  });
});
