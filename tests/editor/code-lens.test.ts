import { describe, expect, it } from 'vitest';
import { codeLenses } from '../../server/editor/code-lens.ts';
import { analyseText } from '../analysed.ts';
import { placeOf, read } from './hovering.ts';

const text = `system "Lamp" 12 V
battery B1  lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1  20 A, blade, 32 V
fusebox FB  2 ways
    way 1 fuse 5 A
    way 2 fuse 10 A
load LAMP and FAN  24 W
load IDLE  5 W
busbar NEG  50 A
run W1  4 mm² red, 0.1 m, B1:+ to F1:in
run W2  0.5 mm² red, 1.2 m, F1:out to FB:in
run W3  4 mm² red, 1.2 m, FB:1 to LAMP:+
run W4  4 mm² red, 1.2 m, FB:2 to FAN:+
run W5  4 mm² black, 1.2 m, LAMP:- to NEG
run W6  4 mm² black, 1.2 m, FAN:- to NEG
run W7  4 mm² black, 1.2 m, NEG to B1:-
`;
const lenses = (source = text) =>
  codeLenses(analyseText(source), { showFindings: 'show.it' }).map(({ range, command }) => ({
    line: source.split('\n')[range.start.line]?.split(' ').slice(0, 2).join(' '),
    title: command?.title ?? '',
    command: command?.command,
  }));

describe('lenses', () => {
  it('tell the worst case of sources, devices and loads, and of nothing else', () => {
    const told = lenses().filter(({ title }) => !title.includes('finding'));
    expect(told.map(({ line, title }) => `${line} | ${title.replaceAll(/[\d.]+/gu, '#')}`)).toEqual([
      'battery B1 | gives at most # A at # V, in loads-only',
      'fuse F1 | design current # A of # A',
      'fusebox FB | fullest way FB:#: design current # A of # A',
      'load LAMP | LAMP: # V at least, # % lost in loads-only, design current # A',
      'load LAMP | FAN: # V at least, # % lost in loads-only, design current # A',
    ]);
    expect(told[2]?.title).toMatch(/^fullest way FB:1: design current [\d.]+ A of 5 A$/);
  });

  it('equal what the answers say', () => {
    const { answers } = analyseText(text);
    const lamp = lenses().find(({ title }) => title.startsWith('LAMP:'));
    const figures = answers.loads.get('LAMP');
    expect(lamp?.title).toContain(`${figures?.lowestVolts.toFixed(2)} V at least`);
    expect(lamp?.title).toContain(`lost in ${figures?.worstCase}`);
  });

  it('tell of a converter what is asked of it, as its fuse does, and not all that it has', () => {
    const bus = (lamps: string, rating = '30 A') => `system "Bus" 24 V
battery B1  lithium-iron-phosphate, 25.6 V, 100 Ah, internal 8 mΩ
converter CV  12 V, ${rating}, efficiency 90 %
fuse F1  10 A, blade, 32 V, breaks 6 kA
load LAMPS  ${lamps}
run W1  4 mm² red, 0.1 m, B1:+ to F1:in
run W2  4 mm² red, 0.5 m, F1:out to CV:in+
run W3  4 mm² black, 1 m, CV:in- to B1:-
run W4  4 mm² red, 1 m, CV:out+ to LAMPS:+
run W5  4 mm² black, 1 m, LAMPS:- to CV:out-
`;
    const design = (source: string, word: string) =>
      lenses(source)
        .find(({ line }) => line === word)
        ?.title.match(/design current ([\d.]+ A)/u)?.[1];
    for (const lamps of ['60 W', '10 A'])
      expect(design(bus(lamps), 'converter CV')).toBe(design(bus(lamps), 'fuse F1'));
    // 30 A × 12 V / 0.9 at 0.875 × 25.6 V.
    expect(analyseText(bus('60 W')).answers.loads.get('CV')?.designAmps).toBeCloseTo(17.86, 2);
    const told = (lamps: string) => {
      const source = bus(lamps);
      return read(analyseText(source), placeOf(source, 'CV'))?.value;
    };
    expect(told('60 W')).toMatch(/Design current [\d.]+ A, 17\.9 A when it gives all it can\./u);
    expect(told('30 A')).not.toContain('when it gives');
  });

  it('count what is found about each, and lead to it where the client can', () => {
    const { findings } = analyseText(text);
    const idle = findings.filter(({ subject }) => subject === 'IDLE').length;
    expect(idle).toBeGreaterThan(0);
    const told = lenses().filter(({ line }) => line === 'load IDLE');
    expect(told).toEqual([
      { line: 'load IDLE', title: idle === 1 ? '1 finding' : `${idle} findings`, command: 'show.it' },
    ]);
    const dumb = codeLenses(analyseText(text), { showFindings: undefined });
    expect(dumb.map(({ command }) => command?.command)).toEqual(lenses().map(() => ''));
  });

  it('lead from a case to the picture, where the client has one', () => {
    const cases = `${text}case night  LAMP on\ncase day \n    FAN on\n`;
    const shown = codeLenses(analyseText(cases), {
      showFindings: undefined,
      showCase: 'show',
      address: 'file:///a%20b',
    });
    const title = 'Show this case in the picture';
    expect(
      shown.flatMap(({ command, range }) =>
        command?.command === 'show' ? [{ ...command, line: range.start.line }] : [],
      ),
    ).toEqual([
      { title, command: 'show', arguments: ['file:///a%20b', 'night'], line: text.split('\n').length - 1 },
      { title, command: 'show', arguments: ['file:///a%20b', 'day'], line: text.split('\n').length },
    ]);
    const titles = (source: string, showCase?: string) =>
      codeLenses(analyseText(source), { showFindings: undefined, showCase }).map(({ command }) => command?.title);
    expect(titles(cases)).not.toContain(title);
    // Cases that the spec does not state have no place.
    expect(titles(text, 'show')).not.toContain(title);
  });

  it('are none in a spec without figures, nor for parts of a used file', () => {
    expect(lenses('')).toEqual([]);
    expect(codeLenses(analyseText('use "lamp.amps"\n', { 'lamp.amps': text }), { showFindings: undefined })).toEqual(
      [],
    );
  });
});
