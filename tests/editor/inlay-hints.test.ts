/** Inlay hints: the text with its hints written in, in [brackets], as a reader sees it. */
import { describe, expect, it } from 'vitest';
import { inlayHints } from '../../server/editor/inlay-hints.ts';
import { type Shown, usuallyShown } from '../../server/editor/shown.ts';
import { analyseText } from '../analysed.ts';
import { edited } from './editing.ts';

const none: Shown = { runHints: false, blankHints: false, poleHints: false, lenses: false };
const hintsOf = (text: string, shown: Partial<Shown>, within = { start: 0, end: text.length }) =>
  inlayHints(analyseText(text), within, { ...none, ...shown });
const seen = (text: string, shown: Partial<Shown>) =>
  edited(
    text,
    hintsOf(text, shown).map(({ position, label }) => ({
      range: { start: position, end: position },
      newText: ` [${String(label)}]`,
    })),
  );
const plain = (text: string) => text.replaceAll(/ \[[^\]]*\]/gu, '');

const lampWithHints = `system "Lamp" 12 V
battery B1  lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1  20 A, blade, 32 V
load LAMP  24 W
run W1  4 mm² red, 0.1 m, B1:+ to F1:in [2.29 A of 35 A, 0.001 V lost]  # a remark
run W2  2 x 4 mm², 1.2 m
    red    F1:out to LAMP:+ [2.29 A of 35 A, 0.011 V lost]
    black  B1:- to LAMP:- [2.29 A of 35 A, 0.011 V lost],
    in conduit
run W4  4 mm² black, 1 m, B1:- to B1:-
`;

describe('hints at the end of a run', () => {
  it('tell its design current, what it is good for and what it loses, a line each core', () => {
    const text = plain(lampWithHints);
    const told = seen(text, { runHints: true });
    expect(
      told.split('\n').map((line) => /\[([\d.]+) A of ([\d.]+) A, ([\d.]+) V lost\]/u.exec(line) !== null),
    ).toEqual(lampWithHints.split('\n').map((line) => line.includes('[')));
    const [first] = hintsOf(text, { runHints: true });
    expect(first?.tooltip).toMatch(
      /^Design current [\d.]+ A, in case [\w-]+\. As it lies it is good for [\d.]+ A\. It loses at most [\d.]+ V, in case [\w-]+\.$/,
    );
  });

  it('stand before a remark, and behind all other words of the line', () => {
    const text = plain(lampWithHints);
    const ends = hintsOf(text, { runHints: true }).map(({ position }) =>
      text.split('\n')[position.line]?.slice(0, position.character),
    );
    expect(ends).toEqual([
      'run W1  4 mm² red, 0.1 m, B1:+ to F1:in',
      '    red    F1:out to LAMP:+',
      '    black  B1:- to LAMP:-,',
    ]);
  });

  it('equal what the answers say', () => {
    const text = plain(lampWithHints);
    const { answers, model } = analyseText(text);
    const core = model.runs.get('W1')?.cores[0];
    const figures = core === undefined ? undefined : answers.cores.get(core);
    const [first] = hintsOf(text, { runHints: true });
    const [, current, good] = /^([\d.]+) A of ([\d.]+) A/u.exec(String(first?.label)) ?? [];
    expect(Number(current)).toBeCloseTo(figures?.designAmps ?? Number.NaN, 1);
    expect(Number(good)).toBeCloseTo(figures?.capacity?.amps ?? Number.NaN, 1);
  });

  it('are none for wiring that is wrong, since its figures mean nothing', () => {
    const shorted = `${plain(lampWithHints)}run W5  4 mm² red, 1 m, B1:+ to B1:-\n`;
    expect(hintsOf(shorted, { runHints: true })).toEqual([]);
  });

  it('of panels are what the cable must be good for', () => {
    const text = `panel P1  80 W, voc 22 V, isc 4 A, vmp 18 V, imp 3.8 A
controller U1  mppt, pv 75 V 15 A, output 15 A, common negative
battery B1  lead-acid, 12 V, 80 Ah
run W1  4 mm² red, 1 m, P1:+ to U1:pv+
run W2  4 mm² black, 1 m, P1:- to U1:pv-
run W3  4 mm² red, 1 m, U1:bat+ to B1:+
run W4  4 mm² black, 1 m, U1:bat- to B1:-
`;
    const [first] = hintsOf(text, { runHints: true });
    expect(first?.label).toMatch(/^5 A of /);
    expect(first?.tooltip).toMatch(/^Must be good for 5 A: its panels give 4 A into a short circuit\./);
  });
});

const blanks = `system "Lamp" 12 V
battery B1  lead-acid, 12 V, 80 Ah
fuse F1  ? A, blade, 32 V
load LAMP  24 W
stock thin  cable ? mm²
run W1  4 mm² red, 0.1 m, B1:+ to F1:in
run W2  = thin red, 1.2 m, F1:out to LAMP:+
run W3  = thin black, 1.2 m, B1:- to LAMP:-
`;

describe('hints beside blanks', () => {
  it('are what would be written there, once each, and are written by a double click', () => {
    const told = hintsOf(blanks, { blankHints: true });
    const { answers } = analyseText(blanks);
    expect(told.length).toBeGreaterThanOrEqual(2);
    for (const { position, label, textEdits = [], tooltip } of told) {
      const text = String(label).replace(/^= /u, '');
      const before = blanks.split('\n')[position.line]?.slice(0, position.character) ?? '';
      expect(before).toMatch(/\? (?:A|mm²)$/u);
      expect(answers.chosen.some((one) => one.text === text)).toBe(true);
      expect(edited(blanks, textEdits)).toBe(
        blanks
          .split('\n')
          .map((line, i) => (i === position.line ? line.replace(/\? (?:A|mm²)/u, text) : line))
          .join('\n'),
      );
      expect(tooltip).toContain(`Left open: it would be ${text}, `);
    }
    expect(new Set(told.map(({ position }) => `${position.line} ${position.character}`)).size).toBe(told.length);
  });
});

describe('hints at poles', () => {
  const text = `isolator Q1  2 poles, 20 A dc
selector X1  20 A
fuse F1  5 A
link Q1  1-3
run W1  4 mm² red, 1 m, F1:out to Q1:1
run W2  4 mm² red, 1 m, Q1:4 to X1:common
`;
  it('are the terminal across the pole, with what is on it', () => {
    expect(seen(text, { poleHints: true })).toBe(
      text.replace('to Q1:1', 'to Q1:1 [\u2194 2]').replace('Q1:4 to', 'Q1:4 [\u2194 3] to'),
    );
    expect(hintsOf(text, { poleHints: true }).map(({ tooltip }) => tooltip)).toEqual([
      'Goes through to Q1:2, on which there is nothing.',
      'Goes through to Q1:3, on which there is a bar to Q1:1.',
    ]);
  });

  it('follow the pairs of the maker', () => {
    const paired = text.replace('2 poles', '2 poles, pairs 1-3 2-4').replace('link Q1  1-3\n', '');
    expect(seen(paired, { poleHints: true })).toContain('Q1:1 [\u2194 3]');
  });
});

describe('hints', () => {
  it('are those that stand in the range asked for, so that two ranges side by side have none twice', () => {
    const text = plain(lampWithHints);
    const all = hintsOf(text, { runHints: true });
    for (const cut of [text.indexOf('run W2'), text.indexOf('black'), text.indexOf('F1:in') + 5]) {
      const first = hintsOf(text, { runHints: true }, { start: 0, end: cut - 1 });
      const second = hintsOf(text, { runHints: true }, { start: cut, end: text.length });
      expect([...first, ...second]).toEqual(all);
    }
    expect(hintsOf(text, { runHints: true }, { start: 0, end: 5 })).toEqual([]);
  });

  it('of two cores in one line stand there once where they tell the same', () => {
    const text = `${plain(lampWithHints)}`.replace('\n    black  B1:- to LAMP:-,', ' black  B1:- to LAMP:-,');
    const found = hintsOf(text, { runHints: true }).map(({ position, label }) => `${position.line} ${label}`);
    expect(found).toHaveLength(new Set(found).size);
    expect(found.some((one) => one.startsWith('6 '))).toBe(true);
  });

  it('are shown as settings say, each kind by itself', () => {
    const all = blanks + plain(lampWithHints).replaceAll('W', 'V').replaceAll('B1', 'B2');
    const lines = (shown: Partial<Shown>) => hintsOf(all, shown).length;
    expect(lines({})).toBe(0);
    expect(lines({ ...usuallyShown })).toBe(lines({ runHints: true }) + lines({ blankHints: true }));
  });

  it('come in order of place, and none from a file that is used', () => {
    const analysis = analyseText('use "lamp.amps"\nload FAN  5 W\n', { 'lamp.amps': blanks });
    expect(inlayHints(analysis, { start: 0, end: 1000 }, usuallyShown)).toEqual([]);
    const places = hintsOf(blanks, { runHints: true, blankHints: true }).map(({ position }) => position.line);
    expect(places).toEqual([...places].sort((a, b) => a - b));
  });
});
