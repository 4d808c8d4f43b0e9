/** Faults put into a text at random, the same for the same seed. */

/** Numbers from 0 to below 1, the same for the same seed (mulberry32). */
export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

export type Random = () => number;
export type Mutation = (text: string, random: Random) => string;

const below = (random: Random, count: number) => Math.floor(random() * Math.max(1, count));

/** Pieces of a kind with their places; the mutation changes the list, and what stands between stays. */
function inPieces(split: RegExp, change: (pieces: string[], at: number, random: Random) => void): Mutation {
  return (text, random) => {
    const pieces = text.split(split);
    const meant = pieces.flatMap((piece, i) => (piece.trim() === '' ? [] : [i]));
    const at = meant[below(random, meant.length)];
    if (at === undefined) return text;
    change(pieces, at, random);
    return pieces.join('');
  };
}

// A separator in brackets is kept as a piece of its own, so that joining gives the text back.
const words = /(\s+)/;
const lines = /(?<=\n)/;

const take = (pieces: string[], at: number) => {
  pieces[at] = '';
};
const twice = (pieces: string[], at: number) => {
  pieces[at] = `${pieces[at]} ${pieces[at]}`;
};
const twiceLine = (pieces: string[], at: number) => {
  pieces[at] = `${pieces[at]}${pieces[at]}`;
};
const swap = (pieces: string[], at: number, random: Random) => {
  const other = below(random, pieces.length);
  const here = pieces[at] ?? '';
  pieces[at] = pieces[other] ?? '';
  pieces[other] = here;
};

const at = (put: (random: Random) => string, length = 0): Mutation => {
  return (text, random) => {
    const place = below(random, text.length + 1);
    return text.slice(0, place) + put(random) + text.slice(place + length);
  };
};

const one = (from: readonly string[]) => (random: Random) => from[below(random, from.length)] ?? '';

const noise = [
  ...['"', '""', '(', ')', '[', '{', '#', '# ', '=', ':', '::', ',', ',,', ';', '?', '? A', '@', '/', '\\', '`', '$'],
  ...['\n', '\n\n', '\n    ', '\t', ' ', '\r', '\r\n', '\u0000', '\u00a0', '\u2028', '\ufeff'],
  ...['run W1', 'use "stock.amps"', 'use "spec.amps"', 'system 24 V', 'allow', 'case', 'all loads on', 'link Q1 1-3'],
  ...['0 A', '-5 A', '1e308 V', '1e-308 mm²', '99999999999999999999 m', '0 m', '0 mm²', '-300 °C', '2,5 mm²', '#10'],
  ...['to', 'and', 'in', 'at', 'along', 'enters', 'by', 'open', 'B1:+', 'POS', 'F1:in', 'Q1:2', 'NEG to POS'],
];

const odd = [
  'é',
  'e\u0301',
  '😀',
  '\ud83d',
  '\ude00',
  '\u202e',
  'ß',
  'İ',
  '½',
  '٣',
  '－',
  'µ',
  'μ',
  'Ω',
  'Ω',
  '²',
  '\u200b',
];

const numbers = ['0', '-1', '1e9', '1e-9', '0.0', '007', '1.', '.5', '1.2.3', '∞', '--5', '9'.repeat(400)];

export const mutations: Readonly<Record<string, Mutation>> = {
  'a word taken out': inPieces(words, take),
  'a word twice': inPieces(words, twice),
  'two words swapped': inPieces(words, swap),
  'a line taken out': inPieces(lines, take),
  'a line twice': inPieces(lines, twiceLine),
  'two lines swapped': inPieces(lines, swap),
  'a line indented': inPieces(lines, (pieces, i) => {
    pieces[i] = `    ${pieces[i]}`;
  }),
  'a line moved to the margin': inPieces(lines, (pieces, i) => {
    pieces[i] = (pieces[i] ?? '').trimStart();
  }),
  'a line joined with the next': inPieces(lines, (pieces, i) => {
    pieces[i] = (pieces[i] ?? '').replace(/\r?\n$/, ' ');
  }),
  'a character taken out': at(() => '', 1),
  'a character put in': at((random) => String.fromCharCode(32 + below(random, 95))),
  'a character changed': at((random) => String.fromCharCode(32 + below(random, 95)), 1),
  'a character twice': (text, random) => {
    const place = below(random, text.length);
    return text.slice(0, place + 1) + text.slice(place);
  },
  'two characters swapped': (text, random) => {
    const place = below(random, text.length - 1);
    return text.slice(0, place) + (text[place + 1] ?? '') + (text[place] ?? '') + text.slice(place + 2);
  },
  'a stretch taken out': (text, random) => {
    const place = below(random, text.length);
    return text.slice(0, place) + text.slice(place + below(random, 200));
  },
  'a stretch moved': (text, random) => {
    const [from, to, length] = [below(random, text.length), below(random, text.length), below(random, 80)];
    const rest = text.slice(0, from) + text.slice(from + length);
    return rest.slice(0, to) + text.slice(from, from + length) + rest.slice(to);
  },
  'noise put in': at(one(noise)),
  'an odd character put in': at(one(odd)),
  'cut in the middle': (text, random) => text.slice(0, below(random, text.length + 1)),
  'its beginning cut off': (text, random) => text.slice(below(random, text.length / 4)),
  'lines ended by CR LF': (text) => text.replaceAll(/\r?\n/g, '\r\n'),
  'some lines ended by CR LF': (text, random) => text.replaceAll(/\r?\n/g, (end) => (random() < 0.3 ? '\r\n' : end)),
  'a number changed': (text, random) => {
    const found = [...text.matchAll(/\d+(?:\.\d+)?/g)];
    const hit = found[below(random, found.length)];
    if (hit === undefined) return text;
    const factor = [0.5, 2, 10, 0][below(random, 5)];
    const put = factor === undefined ? one(numbers)(random) : String(Number(hit[0]) * factor);
    return text.slice(0, hit.index) + put + text.slice(hit.index + hit[0].length);
  },
};

/** One of the mutations, whichever comes. */
export function mutate(text: string, random: Random): { readonly text: string; readonly what: string } {
  const names = Object.keys(mutations);
  const what = names[below(random, names.length)] ?? '';
  return { text: mutations[what]?.(text, random) ?? text, what };
}
