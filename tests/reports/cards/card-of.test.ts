import { describe, expect, it } from 'vitest';
import { cardOf, cardsOf } from '../../../server/reports/cards/card-of.ts';
import { analyseText } from '../../analysed.ts';
import { analyseFile } from './drawing.ts';

function card(name: string, text: string) {
  const analysis = analyseText(text);
  const part = analysis.model.parts.get(name);
  if (part === undefined) throw new Error(`no ${name}`);
  return cardOf(analysis, part);
}

const bench = `system "Bench" 12 V
battery B1 "House battery" agm, 12 V, 60 Ah
isolator Q1 "Main" 3 poles, 25 A dc, 60 V, 2 in parallel 40 A, at SHELF
place SHELF indoors
load L1 20 W
link Q1 1-3, 2-4
run W1 6 mm² green/yellow, 1 m, B1:+ to Q1:1
run W2 2 x 1.5 mm², 1 m
    core 1 Q1:2 to L1:+
    core 2 L1:- to B1:-
run W3 ? mm² black, 1 m, Q1:5 to B1:-
run W4 8 AWG, 1 m, Q1:1 to B1:+
`;

describe('what goes on a terminal', () => {
  const { terminals, ways, bars, ratings, where, caution, spoken } = card('Q1', bench);
  const on = (name: string) => terminals.find((terminal) => terminal.name === name);

  it('is each core with its colour, size, sign and other end', () => {
    expect(on('1')?.cores).toEqual([
      {
        run: 'W1',
        core: '',
        colour: 'green/yellow',
        shades: ['#2c8a3d', '#f0cf1d'],
        size: '6 mm²',
        sign: '+',
        other: 'B1:+',
        otherTitle: 'House battery',
      },
      {
        run: 'W4',
        core: '',
        colour: undefined,
        shades: [],
        size: '8 AWG',
        sign: '+',
        other: 'B1:+',
        otherTitle: 'House battery',
      },
    ]);
    expect(on('2')?.cores).toMatchObject([{ run: 'W2', core: 'core 1', size: '1.5 mm²', other: 'L1:+', sign: '+' }]);
    expect(on('5')?.cores).toMatchObject([{ run: 'W3', size: 'size still open', colour: 'black', sign: '-' }]);
  });

  it('is a bar, or nothing', () => {
    expect(terminals.map(({ name, barsTo, empty }) => [name, barsTo, empty])).toEqual([
      ['1', ['3'], false],
      ['2', ['4'], false],
      ['3', ['1'], false],
      ['4', ['2'], false],
      ['5', [], false],
      ['6', [], true],
    ]);
    expect(bars).toEqual([
      { from: '1', to: '3', is: 'link' },
      { from: '2', to: '4', is: 'link' },
    ]);
  });

  it('puts poles in use, in half or not at all', () => {
    expect(ways.map(({ label, use }) => [label, use])).toEqual([
      ['pole 1', 'used'],
      ['pole 2', 'used'],
      ['pole 3', 'one side'],
    ]);
    expect(card('Q1', 'isolator Q1 1 pole, 25 A dc').ways).toMatchObject([{ label: '', use: 'unused' }]);
  });

  it('comes with the ratings as they are written, the place, and the caution', () => {
    expect(ratings).toEqual(['3 poles', '25 A dc', '60 V', '2 in parallel 40 A']);
    expect(where).toBe('at SHELF');
    expect(caution).toBe('Isolate and prove dead before you touch a terminal. Switched off, 1, 3 and 5 stay live.');
  });

  it('is said in words too', () => {
    expect(spoken).toContain('isolator Q1, Main.');
    expect(spoken).toContain('Terminal 1: W1 green/yellow 6 mm² to B1:+, W4 8 AWG to B1:+ and a bar to 3.');
    expect(spoken).toContain('Terminal 6: empty.');
    expect(spoken).toContain('OFF: 1–3 and 2–4 beep.');
  });
});

describe('a card', () => {
  it('warns of daylight where panels feed it', () => {
    const analysis = analyseFile('samples/spokewagon.amps');
    const cautions = new Map(cardsOf(analysis).map((one) => [one.part, one.caution]));
    for (const name of ['Q1', 'U1']) expect(cautions.get(name)).toContain('Panels are live in daylight');
    expect(cautions.get('U1')).toContain('daylight, batteries always.');
    for (const name of ['Q2', 'FB', 'K1']) expect(cautions.get(name)).not.toContain('daylight');
  });

  it('says by what each side stays live where both do, and not where its poles open together what panels share', () => {
    const cautions = (file: string) => new Map(cardsOf(analyseFile(file)).map((one) => [one.part, one.caution]));
    const van = cautions('samples/spokewagon.amps');
    expect(van.get('Q2')).toContain('Open, both its sides stay live: 1 by U1 and B1, 2 by U2.');
    expect(van.get('FB')).not.toContain('stay live');
    expect(cautions('samples/tuning-van.amps').get('K1')).toContain(
      'both its sides stay live: 30 by A1 and B1, 87 by B2.',
    );
  });

  it('names the terminals that stay live when what opens is open', () => {
    const cautions = (file: string) => new Map(cardsOf(analyseFile(file)).map((one) => [one.part, one.caution]));
    const van = cautions('samples/spokewagon.amps');
    // The even ones lead to the controller, whose minus is the battery’s too: that is no voltage.
    expect(van.get('Q1')).toContain('Switched off, 1, 3, 5 and 7 stay live.');
    expect(van.get('S2')).toContain('Switched off, 1 stays live.');
    expect(van.get('K1')).toContain('With its coil at rest, 30 stays live.');
    expect(van.get('FB')).toContain('Fuses out, in stays live.');
    const sharpener = cautions('samples/whetstone.amps');
    expect(sharpener.get('S1')).toContain('Turned off, 1 and 2 stay live.');
    expect(sharpener.get('Q1')).toContain('Switched off, 1 and 3 stay live.');
    // What is joined to nothing yet has a supply side all the same.
    expect(card('Q1', 'isolator Q1 1 pole, 25 A dc').caution).toContain('Switched off, its supply side stays live.');
  });

  it('names the terminals of the supply, whichever way round they are written', () => {
    const lamp = (inward: string, outward: string) => `system "Lamp" 12 V
battery B1 agm, 12 V, 60 Ah
fuse F1 10 A, blade, 32 V
switch S1 1 pole, 10 A dc, 24 V
load L1 24 W
run W1 2.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 2.5 mm² red, 1 m, F1:out to S1:${inward}
run W3 2.5 mm² red, 1 m, S1:${outward} to L1:+
run W4 2.5 mm² black, 1 m, L1:- to B1:-
`;
    expect(card('S1', lamp('1', '2')).caution).toContain('Switched off, 1 stays live.');
    expect(card('S1', lamp('2', '1')).caution).toContain('Switched off, 2 stays live.');
  });

  it('warns of a switch in the negative, of a selector that has no off, and of a fuse-board fed from a way', () => {
    const lamp = `system "Lamp" 12 V
battery B1 agm, 12 V, 60 Ah
battery B2 agm, 12 V, 60 Ah
load L1 24 W
load L2 24 W
switch S1 1 pole, 10 A dc, 24 V
selector S9 100 A dc, 48 V, positions 1 2
fusebox FB 3 ways, total 40 A
    ways 1 to 3 fuse 10 A
run W1 6 mm² red, 0.1 m, B1:+ to S9:1
run W2 6 mm² red, 0.1 m, B2:+ to FB:2
run W3 6 mm² red, 0.1 m, S9:common to FB:in
run W4 2.5 mm² red, 1 m, FB:1 to L1:+
run W5 2.5 mm² black, 1 m, L1:- to S1:1
run W6 2.5 mm² black, 1 m, S1:2 to B1:-
run W7 2.5 mm² black, 1 m, B2:- to B1:-
`;
    expect(card('S1', lamp).caution).toContain(
      'It opens the negative alone: switched off, what it serves stays live at the voltage of the positive.',
    );
    expect(card('S9', lamp).caution).toContain('It has no off position: all its terminals stay live.');
    expect(card('FB', lamp).caution).toContain('Fuses out, in and 2 stay live.');
  });

  it('warns of what is live from two sides, and of the charge that an inverter holds', () => {
    const van = new Map(cardsOf(analyseFile('samples/spokewagon.amps')).map((one) => [one.part, one.caution]));
    expect(van.get('U2')).toContain('Live from both sides: in+ by B2 and A1, out+ by B1. Isolate both.');
    expect(van.get('U1')).not.toContain('both sides');
    expect(van.get('INV')).toContain('Cut off, it holds a charge for a while. The mains side is for licensed people.');
    const hut = new Map(cardsOf(analyseFile('samples/ridge-hut.amps')).map((one) => [one.part, one.caution]));
    expect(hut.get('U2')).not.toContain('both sides');
  });

  it('tells the fuse of each way, and of a used way that has none', () => {
    const { ways } = card(
      'FB',
      'fusebox FB 4 ways\n    way 1 fuse 5 A\n    way 2 fuse ? A\nload L1 5 W\nload L2 5 W\nload L3 5 W\n' +
        'run W1 1 mm² red, 1 m, FB:1 to L1:+\nrun W2 1 mm² red, 1 m, FB:2 to L2:+\nrun W3 1 mm² red, 1 m, FB:3 to L3:+\n',
    );
    expect(ways.map(({ label, rating, use }) => `${label} ${rating} ${use}`)).toEqual([
      'way 1 5 A used',
      'way 2 ? A used',
      'way 3 fuse not said used',
      'way 4  unused',
    ]);
  });

  it('is there for what opens, protects or regulates, and for anything with terminals to choose from', () => {
    const names = cardsOf(analyseFile('samples/spokewagon.amps')).map(({ part }) => part);
    expect(names).toEqual(['Q1', 'U1', 'Q2', 'U2', 'INV', 'Q3', 'K1', 'S1', 'FB', 'S2', 'S3']);
    expect(cardsOf(analyseFile('samples/spokewagon.amps'), new Set(['K1', 'P1'])).map(({ part }) => part)).toEqual([
      'K1',
    ]);
  });

  it('comes of broken text too', () => {
    for (const text of [
      'isolator Q1 0 poles, 25 A dc',
      'isolator Q1',
      'fusebox Q1',
      'fusebox Q1 60 ways',
      'isolator Q1 99 poles, 1 A dc, face over',
      'isolator Q1 2 poles, 1 A dc, pairs 1-1 2-2\nlink Q1 1-1',
      'relay Q1\nrun W1 1 mm² red, 1 m, Q1:30 to Q1:87',
    ])
      expect(card('Q1', `${text}\n`).part, text).toBe('Q1');
  });
});
