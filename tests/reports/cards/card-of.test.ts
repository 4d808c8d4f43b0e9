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
    expect(caution).toBe(
      'Isolate and prove dead before you touch a terminal. Switched off, its supply side stays live.',
    );
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
    expect(van.get('Q2')).toContain('Open, both its sides stay live: one by U1 and B1, the other by U2.');
    expect(van.get('Q1')).toContain('Switched off, its supply side stays live.');
    expect(van.get('FB')).not.toContain('stay live');
    expect(cautions('samples/tuning-van.amps').get('K1')).toContain('one by A1 and B1, the other by B2.');
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
