/** The words of a card at a core and beside a way, line by line, and how wide they are. */
import { shortened, textWidth } from '../letters.ts';
import type { CardCore, CardWay } from './card.ts';

export const letter = 11;
export const lineHeight = 14;
/** A swatch of the insulation’s colour and the gap behind it. */
export const swatchRoom = 14;
const mostWords = 150;

export interface CoreLine {
  readonly words: string;
  readonly bold: boolean;
  readonly size: number;
  /** The swatch of the colour stands before this line. */
  readonly swatch: boolean;
}

export function linesOf(core: CardCore): CoreLine[] {
  const sign = core.sign === undefined ? '' : core.sign === '+' ? ' +' : ' −';
  const plain = (words: string, swatch = false): CoreLine => ({
    words: shortened(words, mostWords - (swatch ? swatchRoom : 0), letter),
    bold: false,
    size: letter,
    swatch,
  });
  const name = [core.run, core.core].filter((word) => word !== '').join(' ');
  return [
    { ...plain(''), words: `${shortened(name, mostWords - 20, letter, 'bold')}${sign}`, bold: true },
    plain(core.colour ?? 'colour not said', true),
    plain(core.size),
    plain(`to ${core.other}`),
    ...(core.otherTitle === undefined
      ? []
      : [{ ...plain(''), words: shortened(core.otherTitle, mostWords, 9), size: 9 }]),
  ];
}

export function widthOf(lines: readonly CoreLine[]): number {
  return Math.max(
    ...lines.map(
      ({ words, size, bold, swatch }) => textWidth(words, size, bold ? 'bold' : 'regular') + (swatch ? swatchRoom : 0),
    ),
  );
}

/** What stands beside a way, a line each. */
export function wayWords({ label, rating, use }: CardWay): string[] {
  return [label, rating, useWords[use]].filter((word) => word !== '');
}

/** The same where the way lies level: above it what it is, below it that it is not used. */
export function levelWords({ label, rating, use }: CardWay): readonly [string, string] {
  return [[label, rating].filter((word) => word !== '').join(', '), useWords[use]];
}

const useWords: Readonly<Record<CardWay['use'], string>> = {
  used: '',
  'one side': 'one side empty',
  unused: 'not used',
};

const widest = (lines: readonly string[]) => Math.max(0, ...lines.map((words) => textWidth(words, letter)));
export const wayWidth = (way: CardWay) => widest(wayWords(way));
export const levelWidth = (way: CardWay) => widest(levelWords(way));
