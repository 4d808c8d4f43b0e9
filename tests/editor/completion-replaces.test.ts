/** What a taken offer replaces: all of the words or the figure that stand there, and nothing when it is what stands there. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { completion } from '../../server/editor/completion.ts';
import { vocabulary } from '../../server/kinds/vocabulary.ts';
import { analyseText } from '../analysed.ts';
import { type Completed, inShed, shed, take } from './completing.ts';

const plain = { snippets: false, markdown: false };

/** The marked line once the offer is taken. */
function taken(marked: string, label: string): string {
  const at = inShed(marked, plain);
  const item = at.items.find((one) => one.label === label);
  expect(item, `${label} at ${marked}`).toBeDefined();
  return item === undefined ? '' : take(at, item).slice(shed.length);
}

describe('a figure is replaced with its unit', () => {
  it.each([
    ['load X 6| W', 'W', 'load X 6 W'],
    ['load X 6| W', 'A', 'load X 6 A'],
    ['load X 6   | W, in BOX', 'kW', 'load X 6   kW, in BOX'],
    ['load X |6 W', '? W', 'load X ? W 6 W'],
    ['load X 1|2 W', 'W', 'load X 12 W'],
    ['load X 1|2 W', 'A', 'load X 12 A'],
    ['load X 1.|5 W', 'A', 'load X 1.5 A'],
    ['fuse F3 1| A, blade', '10 A', 'fuse F3 10 A, blade'],
    ['fuse F3 1|5 A, blade', '10 A', 'fuse F3 10 A, blade'],
    ['run W3 2|.5 mm², 1 m', '25 mm²', 'run W3 25 mm², 1 m'],
    ['run W3 1|/0 AWG, 1 m', 'AWG', 'run W3 1/0 AWG, 1 m'],
    ['place X 4|0 °C', '°F', 'place X 40 °F'],
    ['place X 40|°C', '°F', 'place X 40 °F'],
    ['panel P1 voc drift -0.3| %/°C', 'V/°C', 'panel P1 voc drift -0.3 V/°C'],
    ['panel P1 tilt 10|°', '°', 'panel P1 tilt 10°'],
    ['isolator Q2 2| pole', 'poles', 'isolator Q2 2 poles'],
    ['load X 5 W, price 12| NZD\nload Y 5 W, price 3 EUR', 'EUR', 'load X 5 W, price 12 EUR\nload Y 5 W, price 3 EUR'],
    ['load X 5 W, price 1|2.50 USD', 'USD', 'load X 5 W, price 12.50 USD'],
    ['busbar X terminals 0.5| to 16 mm²', 'mm²', 'busbar X terminals 0.5 mm² to 16 mm²'],
    ['fuse F3 5|, blade', 'A', 'fuse F3 5 A, blade'],
  ])('%s takes %s', (marked, label, result) => {
    expect(taken(marked, label)).toBe(result);
  });
});

describe('a keyword of several words is replaced whole', () => {
  it.each([
    ['expect LAMP vol|tage at least 11 V', 'voltage at', 'expect LAMP voltage at least 11 V'],
    ['expect W1 vol|tage at least 11 V', 'current at', 'expect W1 current at least 11 V'],
    ['expect W1 voltage|   at least 11 V', 'current at', 'expect W1 current at least 11 V'],
    ['expect W1 voltage a|t least 11 V', 'at', 'expect W1 voltage at least 11 V'],
    ['battery B2 ch|arge voltage 14 V', 'charge voltage', 'battery B2 charge voltage 14 V'],
    ['panel P1 v|oc drift -0.3 %/°C', 'isc drift', 'panel P1 isc drift -0.3 %/°C'],
    ['run W3 bu|nched with W1', 'in conduit', 'run W3 in conduit W1'],
    ['run W3 enters BOX b|y E1', 'by E1', 'run W3 enters BOX by E1'],
    ['run W3 |= thin, 1 m', '= thin', 'run W3 = thin, 1 m'],
    ['run W3 =|  thin, 1 m', 'thin', 'run W3 =  thin, 1 m'],
  ])('%s takes %s', (marked, label, result) => {
    expect(taken(marked, label)).toBe(result);
  });
});

describe('what is complete', () => {
  it('is not offered again in front of its quotes', () => {
    expect(inShed('allow drop-over-limit on W1 | "short"', plain).items.map(({ label }) => label)).not.toContain('"…"');
  });

  it('is no new name because a name may stand there as well', () => {
    const labels = inShed('run W3 enters BOX by gland|', plain).items.map(({ label, detail }) => `${label}: ${detail}`);
    expect(labels.filter((label) => label.includes('write it above'))).toEqual([]);
  });
});

const folder = new URL('../../samples/', import.meta.url);
const samples = readdirSync(folder).filter((name) => /^(?:first|orchard|whetstone|stock|tuning)/u.test(name));
const examples = [...vocabulary.statements.values()].flatMap(({ word, head, example, clauses }) => [
  example,
  ...clauses.map((clause) => `${word} ${head === 'none' ? '' : 'X '}${clause.example}`),
]);
const texts: readonly (readonly [string, string])[] = [
  ...samples.map((name) => [name, readFileSync(new URL(name, folder), 'utf8')] as const),
  ['the example of every clause', examples.join('\n')],
];

const runsOn = /[\p{L}\p{M}\p{N}_²°Ω%]/u;

/** Whether a label stands on its line with the pointer in it or at either end, or behind blanks that follow a number. */
function stands({ text, offset }: Pick<Completed, 'text' | 'offset'>, label: string): boolean {
  const first = text.lastIndexOf('\n', offset - 1) + 1;
  const behindNumber = /(?<![\p{L}\p{N}_-])[\d./]+$/u.test(text.slice(first, offset))
    ? (/^ */u.exec(text.slice(offset))?.[0].length ?? 0)
    : 0;
  for (let from = Math.max(first, offset - label.length); from <= offset + behindNumber; from++) {
    if (!text.startsWith(label, from) || /[\p{L}\p{N}_:.-]/u.test(text.charAt(from - 1))) continue;
    const after = text.slice(from + label.length);
    if (label.endsWith(':') || !(runsOn.test(after.charAt(0)) || /^[.:/+-][\p{L}\p{N}°]/u.test(after))) return true;
  }
  return false;
}

describe.each(texts)('at every place of %s', (_name, text) => {
  const analysis = analyseText(text);

  it('an offer that stands there already changes nothing', () => {
    let tried = 0;
    const wrong: string[] = [];
    for (let offset = 0; offset <= text.length; offset++) {
      const at: Completed = { text, offset, items: completion(analysis, offset, plain) };
      for (const item of at.items) {
        // What is written above as well is declared by it.
        const declares = item.detail?.startsWith('write it above') === true;
        if (declares || !stands(at, item.label)) continue;
        tried += 1;
        if (take(at, item) !== text)
          wrong.push(`${text.slice(offset - 30, offset)}|${text.slice(offset, offset + 30)} takes ${item.label}`);
      }
    }
    expect(wrong).toEqual([]);
    expect(tried).toBeGreaterThan(text.length / 4);
  });
});
