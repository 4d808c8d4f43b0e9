/** What must not change an answer: names, the order of statements, units; and what must: nothing is ever not a number. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type AnswersJson, answersJson } from '../../server/answers/answers-json.ts';
import { analyseText } from '../analysed.ts';

const stock = { 'stock.amps': readFileSync('samples/stock.amps', 'utf8') };
const samples = ['first-lamp', 'spokewagon', 'orchard-cabin', 'spokewagon-as-found'];

function json(text: string): AnswersJson {
  const { model, answers } = analyseText(text, stock);
  const failed = model.problems.filter(({ slug }) => slug === 'answers-failed');
  if (failed.length > 0) throw new Error(failed[0]?.message);
  return answersJson(answers);
}

function sample(name: string): string {
  return readFileSync(`samples/${name}.amps`, 'utf8');
}

/** Every number of two answers, by its path, as far as they are not equal within a milliardth. */
function differences(one: unknown, other: unknown, path = ''): string[] {
  if (typeof one === 'number' && typeof other === 'number')
    return Math.abs(one - other) <= 1e-9 * Math.max(1, Math.abs(one)) ? [] : [`${path}: ${one} ${other}`];
  if (typeof one === 'object' && one !== null && typeof other === 'object' && other !== null) {
    const keys = new Set([...Object.keys(one), ...Object.keys(other)]);
    return [...keys].flatMap((key) =>
      differences((one as Record<string, unknown>)[key], (other as Record<string, unknown>)[key], `${path}/${key}`),
    );
  }
  return Object.is(one, other) ? [] : [`${path}: ${String(one)} ${String(other)}`];
}

/** Cases and cores by name, so that order does not count. */
function byName({ cases }: AnswersJson) {
  return Object.fromEntries(
    cases.map((one) => [
      one.name,
      { ...one, cores: Object.fromEntries(one.cores.map((core) => [`${core.run} ${core.from} ${core.to}`, core])) },
    ]),
  );
}

/** Statements of a text with their continuation lines, without comments. */
function statements(text: string): string[] {
  const list: string[] = [];
  for (const line of text.split('\n')) {
    if (/^\s/.test(line)) list.push(`${list.pop() ?? ''}\n${line}`);
    else if (line !== '' && !line.startsWith('#')) list.push(line);
  }
  return list;
}

describe.each(samples)('%s', (name) => {
  const text = sample(name);
  const plain = json(text);

  it('has numbers only', () => {
    const numbers: number[] = [];
    JSON.stringify(plain, (_, value) => {
      if (typeof value === 'number') numbers.push(value);
      return value;
    });
    expect(numbers.length).toBeGreaterThan(20);
    expect(numbers.filter((value) => !Number.isFinite(value) || Object.is(value, -0))).toEqual([]);
  });

  it('keeps its answers when its statements change places', () => {
    const all = statements(text);
    expect(all.length).toBeGreaterThan(7);
    fc.assert(
      fc.property(fc.shuffledSubarray(all, { minLength: all.length, maxLength: all.length }), (shuffled) => {
        expect(differences(byName(plain), byName(json(`${shuffled.join('\n')}\n`)))).toEqual([]);
      }),
      { numRuns: 5, seed: 7 },
    );
  });

  it('is the same twice', () => {
    expect(JSON.stringify(json(text))).toBe(JSON.stringify(plain));
  });
});

it('names do not count, where they do not decide which negative is 0 V', () => {
  const text = sample('spokewagon');
  const renamed = text.replace(
    /\b([WFKSQ]|FB|POS|NEG2?|LAMPS?|PUMP|FAN|BENCH|CABIN|FRIDGE|HEATER|COMPRESSOR)(\d*)\b(?!")/g,
    (whole) => (/^(W|F|K|S|Q)\d+$/.test(whole) ? `Z${whole}` : whole),
  );
  expect(renamed).not.toBe(text);
  const back = JSON.parse(JSON.stringify(json(renamed)).replace(/Z([WFKSQ]\d+)/g, '$1')) as AnswersJson;
  expect(differences(json(text), back)).toEqual([]);
});

describe('units', () => {
  /** Lengths in metre to feet and temperatures in °C to °F, with all digits; sizes and drifts stay as written. */
  function restated(text: string): string {
    return text
      .split('\n')
      .map((line) =>
        /^(stock|enclosure|entry)/.test(line)
          ? line
          : line
              .replace(
                /(-?\d+(?:\.\d+)?) m(?=[,\s]|$)/g,
                (_, metres: string) => `${decimal(Number(metres) / 0.3048)} ft`,
              )
              .replace(
                /(-?\d+(?:\.\d+)?) °C/g,
                (_, celsius: string) => `${decimal((Number(celsius) * 9) / 5 + 32)} °F`,
              ),
      )
      .join('\n');
  }
  const decimal = (value: number) => value.toFixed(14);

  it.each(['first-lamp', 'spokewagon'])('%s in feet and °F agrees to a milliardth', (name) => {
    const text = sample(name);
    const other = restated(text);
    expect(other).toMatch(/ ft/);
    expect(differences(json(text), json(other))).toEqual([]);
  });
});

describe('bad input', () => {
  it.each([
    ['a battery shorted by a run', 'battery B1 lead-acid, 12 V, 80 Ah\nrun W1 6 mm² red, 1 m, B1:+ to B1:-\n'],
    [
      'a battery shorted by nothing at all',
      'battery B1 lead-acid, 12 V, 80 Ah\nbusbar POS 9 A\nrun W1 6 mm² red, 0 m, B1:+ to POS\nrun W2 6 mm² red, 0 m, POS to B1:-\n',
    ],
    ['a load on nothing', 'load LAMP 5 A\nfuse F1 5 A\nrun W1 6 mm² red, 1 m, F1:out to LAMP:+\n'],
    [
      'a million ampere',
      'battery B1 lead-acid, 12 V, 80 Ah\nload LAMP 1000000 A\nrun W1 6 mm² red, 1 m, B1:+ to LAMP:+\nrun W2 6 mm² red, 1 m, B1:- to LAMP:-\n',
    ],
    [
      'nought everywhere',
      'battery B1 lead-acid, 0 V, 0 Ah, internal 0 Ω\nfuse F1 0 A\nload LAMP 0 W\nrun W1 0 mm² red, 0 m, B1:+ to F1:in\nrun W2 6 mm² red, 0 m, F1:out to LAMP:+\nrun W3 6 mm² red, 0 m, B1:- to LAMP:-\n',
    ],
    [
      'less than nought',
      'battery B1 lead-acid, -12 V, -80 Ah, internal -5 mΩ\nfuse F1 -5 A\nload LAMP -60 W\nrun W1 6 mm² red, -1 m, B1:+ to F1:in\nrun W2 6 mm² red, 1 m, F1:out to LAMP:+\nrun W3 6 mm² red, 1 m, B1:- to LAMP:-\n',
    ],
    [
      'batteries in a ring',
      'battery B1 and B2 and B3 lead-acid, 12 V, 80 Ah\nrun W1 6 mm² red, 1 m, B1:+ to B2:-\nrun W2 6 mm² red, 1 m, B2:+ to B3:-\nrun W3 6 mm² red, 1 m, B3:+ to B1:-\n',
    ],
    [
      'two regulated sources on one bar',
      'alternator A1 14 V, 50 A, fixed\nalternator A2 28 V, 50 A, fixed\nrun W1 6 mm² red, 0 m, A1:+ to A2:+\nrun W2 6 mm² red, 0 m, A1:- to A2:-\ncase day all sources on\n',
    ],
    ['nothing', '\n'],
  ])('%s gives numbers or says why not', (_, text) => {
    const { cases } = json(text);
    for (const one of cases) {
      if (!one.converged) expect(one.trouble).not.toBe('');
      expect(JSON.stringify(one).replaceAll('"capacityAmps":null', '')).not.toContain('null');
    }
  });
});
