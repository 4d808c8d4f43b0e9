import { describe, expect, it } from 'vitest';
import type { MarkupContent } from 'vscode-languageserver';
import type { Analysis } from '../../server/analysis.ts';
import { hover } from '../../server/editor/hover.ts';
import { analyseText } from '../analysed.ts';
import { analyseFile, parsed, wordsOf } from '../reports/cards/drawing.ts';
import { placeOf } from './hovering.ts';

const van = analyseFile('samples/spokewagon.amps');

function told(analysis: Analysis, word: string, options: { markdown: boolean; pictures?: boolean }): string {
  const here = hover(analysis, placeOf(String(analysis.text), word), options);
  return (here?.contents as MarkupContent | undefined)?.value ?? '';
}

const picture = /!\[((?:\\.|[^\]\\])*)\]\(data:image\/svg\+xml;base64,([A-Za-z0-9+/=]+)\)/;

function drawn(markdown: string): { readonly words: string; readonly svg: string } | undefined {
  const match = picture.exec(markdown);
  return match === null ? undefined : { words: match[1] ?? '', svg: Buffer.from(match[2] ?? '', 'base64').toString() };
}

describe('the card on hover', () => {
  const shows = { markdown: true, pictures: true };

  it('is a picture of a part with many terminals, with its words for those who cannot see it', () => {
    const card = drawn(told(van, 'Q1', shows));
    const words = wordsOf(parsed(card?.svg ?? ''));
    expect(words).toEqual(expect.arrayContaining(['W1 +', 'to P1:+', 'to PV-NEG', 'pole 4']));
    expect(card?.words).toContain('Terminal 1: W1 red 6 mm² to P1:+.');
  });

  it('is left to the table where the client shows no pictures', () => {
    for (const options of [{ markdown: true }, { markdown: false }, { markdown: false, pictures: false }]) {
      const value = told(van, 'Q1', options);
      expect(value).not.toContain('data:');
      expect(value).toContain('W1 red to P1:+');
      expect(value).not.toMatch(/\n{3}/);
    }
  });

  it('is not drawn of two terminals, nor of what has no card', () => {
    for (const name of ['Q2', 'F1', 'P1', 'POS']) expect(drawn(told(van, name, shows)), name).toBeUndefined();
  });

  it('leaves a board of many ways and long names to words rather than have the hover cut off', () => {
    const ways = Array.from(
      { length: 60 },
      (_, i) =>
        `load L${i} "A lamp with a long title" 1 W\nrun ${'R'.repeat(30)}${i} 1 mm² red, 1 m, FB:${i + 1} to L${i}:+\n`,
    );
    const board = analyseText(`fusebox FB 60 ways\n${ways.join('')}`);
    const value = told(board, 'FB', shows);
    expect(drawn(value)).toBeUndefined();
    expect(value).not.toContain('![');
    for (const name of ['FB', 'K1', 'U1']) expect(told(van, name, shows).length).toBeLessThan(100_000);
  });

  it('cannot be broken out of by a name', () => {
    const hostile = analyseText(`isolator Q1 "](http://x) <img src=x onerror=alert(1)> \\\\](" 2 poles, 25 A dc\n`);
    const value = told(hostile, 'Q1', shows);
    const card = drawn(value);
    expect(card).toBeDefined();
    expect(parsed(card?.svg ?? '').getElementsByTagName('img')).toHaveLength(0);
    expect(value.replace(picture, '').replaceAll(/\\./g, '')).not.toMatch(/[<>[\]]/);
  });

  it('costs a few milliseconds at most', () => {
    const least = Math.min(
      ...Array.from({ length: 8 }, () => {
        const before = process.cpuUsage();
        told(van, 'FB', shows);
        const { user, system } = process.cpuUsage(before);
        return (user + system) / 1000;
      }),
    );
    expect(least).toBeLessThan(25);
  });
});
