import { describe, expect, it } from 'vitest';
import { cardOf } from '../../../server/reports/cards/card-of.ts';
import { analyseText } from '../../analysed.ts';

/** What beeps, position by position; what beeps besides with the cores on; and the notes. */
function beeps(name: string, text: string) {
  const analysis = analyseText(`system "Bench" 12 V\n${text}\n`);
  const part = analysis.model.parts.get(name);
  if (part === undefined) throw new Error(`no ${name}`);
  const card = cardOf(analysis, part);
  return {
    alone: card.beeps.map(({ when, groups }) => `${when}: ${groups.map((group) => group.join('-')).join(' ')}`),
    also: card.beeps.map(({ also }) => also.map(({ from, to, over }) => `${from}-${to} over ${over}`)),
    notes: card.beepNotes,
  };
}

// Each worked by hand: a line a position, groups of terminals that are one piece of metal in it.
describe('what beeps with all cores off', () => {
  it.each([
    ['two poles', 'isolator Q1 2 poles, 25 A dc', ['ON: 1-2 3-4', 'OFF: ']],
    ['pairs of the maker', 'isolator Q1 2 poles, 25 A dc, pairs 1-3 2-4', ['ON: 1-3 2-4', 'OFF: ']],
    ['a face changes nothing', 'isolator Q1 2 poles, 25 A dc, face 1 4 over 2 3', ['ON: 1-2 3-4', 'OFF: ']],
    [
      'poles linked on both sides',
      'isolator Q1 3 poles, 25 A dc\nlink Q1 1-3, 2-4',
      ['ON: 1-2-3-4 5-6', 'OFF: 1-3 2-4'],
    ],
    ['a bar on one side', 'isolator Q1 2 poles, 25 A dc\nlink Q1 1-3', ['ON: 1-2-3-4', 'OFF: 1-3']],
    ['poles in series', 'isolator Q1 2 poles, 25 A dc\nlink Q1 2-3', ['ON: 1-2-3-4', 'OFF: 2-3']],
    ['a single breaker', 'breaker Q1 20 A', ['ON: in-out', 'OFF: ']],
    ['a selector with all positions', 'selector Q1 100 A', ['BOTH: common-1-2', '1: common-1', '2: common-2', 'OFF: ']],
    ['a selector that is never off', 'selector Q1 100 A, positions 1 2', ['1: common-1', '2: common-2']],
    ['a relay', 'relay Q1 coil 12 V 150 mA, contact 30 A', ['coil fed: 30-87', 'coil at rest: 30-87a']],
    ['a board', 'fusebox Q1 2 ways, negative bar\n    way 1 fuse 5 A', ['fuses in: in-1', 'fuses out: ']],
    ['a shunt', 'shunt Q1 150 A, 50 mV', [': battery-load']],
    ['a diode', 'diode Q1 30 A, 2 outputs', [': ']],
    ['a common negative', 'controller Q1 mppt, pv 75 V, output 9 A, common negative', [': pv--bat-']],
    ['isolated sides', 'controller Q1 mppt, pv 75 V, output 9 A, isolated', []],
    ['a busbar with studs', 'busbar Q1 100 A, 3 studs', [': Q1-1-2-3']],
  ])('%s', (_what, text, expected) => {
    expect(beeps('Q1', text).alone).toEqual(expected);
  });

  it('tells what a coil, a diode and electronics do instead', () => {
    expect(beeps('K1', 'relay K1 coil 12 V 150 mA, contact 30 A').notes).toEqual([
      '86–85 is the coil: about 80 Ω, no beep.',
    ]);
    // 24 Ω is below what many testers beep at.
    expect(beeps('K1', 'relay K1 coil 12 V 500 mA, contact 30 A').notes).toEqual([
      '86–85 is the coil: about 24 Ω, some testers beep at that.',
    ]);
    expect(beeps('K1', 'relay K1 coil 12 V, contact 30 A').notes).toEqual([
      '86–85 is the coil, at which some testers beep.',
    ]);
    expect(beeps('D1', 'diode D1 30 A').notes).toEqual([expect.stringContaining('one way only')]);
    expect(beeps('U1', 'controller U1 mppt, pv 75 V, output 9 A').notes).toEqual([
      expect.stringContaining('electronics'),
    ]);
  });
});

describe('what beeps besides with the cores on', () => {
  const twoPanels = `
panel P1 and P2 100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.5 A
isolator Q1 4 poles, 25 A dc, 150 V
splice PLUS
splice MINUS
run W1 6 mm² red, 1 m, P1:+ to Q1:1
run W2 6 mm² black, 1 m, P1:- to Q1:3
run W3 6 mm² red, 1 m, P2:+ to Q1:5
run W4 6 mm² black, 1 m, P2:- to Q1:7
run W5 6 mm² red, 1 m, Q1:2 to PLUS
run W6 6 mm² black, 1 m, Q1:4 to MINUS
run W7 6 mm² red, 1 m, Q1:6 to PLUS
run W8 6 mm² black, 1 m, Q1:8 to MINUS`;

  it('is what the outgoing cores join, open or closed, and not what a panel joins', () => {
    const besides = ['2-6 over W5, PLUS and W7', '4-8 over W6, MINUS and W8'];
    expect(beeps('Q1', twoPanels).also).toEqual([besides, besides]);
  });

  it('goes through other switches and fuses, and not through loads, sources, coils and diodes', () => {
    const ring = (between: string) => `
battery B1 agm, 12 V, 60 Ah
isolator Q1 2 poles, 25 A dc
${between}
run W1 6 mm² red, 1 m, Q1:1 to X1:in
run W2 6 mm² red, 1 m, X1:out to Q1:3
run W3 6 mm² red, 1 m, B1:+ to Q1:2
run W4 6 mm² black, 1 m, B1:- to Q1:4`;
    expect(beeps('Q1', ring('fuse X1 20 A, blade, 32 V')).also[1]).toEqual(['1-3 over W1, X1 and W2']);
    expect(beeps('Q1', ring('diode X1 20 A')).also[1]).toEqual([]);
  });

  it('names no more than one can follow', () => {
    const chain = Array.from({ length: 6 }, (_, i) => `splice S${i}`).join('\n');
    const runs = Array.from({ length: 5 }, (_, i) => `run V${i} 6 mm² red, 1 m, S${i} to S${i + 1}`).join('\n');
    expect(
      beeps(
        'Q1',
        `isolator Q1 2 poles, 25 A dc\n${chain}\n${runs}\nrun W1 6 mm² red, 1 m, Q1:1 to S0\nrun W2 6 mm² red, 1 m, Q1:3 to S5`,
      ).also[1],
    ).toEqual(['1-3 over the rest of the wiring']);
  });
});
