/** What must not change an answer: names, the order of statements, units; and what must: nothing is ever not a number. */
import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type AnswersJson, answersJson } from '../../server/answers/answers-json.ts';
import { analyseText } from '../analysed.ts';
import { byName, differences } from './differences.ts';

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

/** The text with other names for all that it names itself, in the opposite order of the alphabet. */
function renamed(text: string): { readonly text: string; readonly back: (answers: string) => string } {
  const { model, uri } = analyseText(text, stock);
  const here = model.uses.filter(
    ({ place, target }) => place.uri === uri && target !== 'terminal' && target !== 'file',
  );
  const own = [...new Set(here.filter(({ declaration }) => declaration).map(({ name }) => name))].sort();
  const other = new Map(own.map((name, i) => [name, `Qq${9999 - i}Q`]));
  const places = new Map(
    here
      .filter(({ name, place: { span } }) => other.has(name) && text.slice(span.start, span.end) === name)
      .map(({ name, place: { span } }) => [span.start, { span, name }] as const),
  );
  const changed = [...places.values()]
    .sort((one, two) => two.span.start - one.span.start)
    .reduce((done, { span, name }) => `${done.slice(0, span.start)}${other.get(name)}${done.slice(span.end)}`, text);
  const back = new Map([...other].map(([name, now]) => [now, name]));
  return { text: changed, back: (answers) => answers.replaceAll(/Qq\d{4}Q/gu, (now) => back.get(now) ?? now) };
}

const good = readdirSync('tests/good-systems')
  .filter((name) => name.endsWith('.amps'))
  .map((name) => [name, readFileSync(`tests/good-systems/${name}`, 'utf8')] as const);
const named = [...samples, 'ridge-hut', 'towpath-kiosk', 'tuning-van'].map((name) => [name, sample(name)] as const);

/** Of leads that are alike the first by name tells of all of them. */
const choosesByName: ReadonlySet<string> = new Set(['bank-fuse-each']);

describe.each([...named, ...good])('%s with other names', (_, text) => {
  const other = renamed(text);

  it('has the same answers', () => {
    expect(other.text.split('Qq').length).toBeGreaterThan(10);
    const answers = byName(json(text));
    const now = byName(JSON.parse(other.back(JSON.stringify(json(other.text)))));
    expect(differences(answers, now)).toEqual([]);
  });

  it('has the same findings', () => {
    const said = (one: string, back: (told: string) => string) =>
      analyseText(one, stock)
        .findings.filter(({ slug }) => !choosesByName.has(slug))
        .map(({ slug, subject, severity }) => back(`${slug} ${severity} ${subject}`))
        .sort();
    expect(said(other.text, other.back)).toEqual(said(text, (told) => told));
  });
});

describe('units', () => {
  const decimal = (value: number) => value.toFixed(14);
  const others: readonly (readonly [unit: string, other: string, convert: (value: number) => number])[] = [
    ['m', 'ft', (metres) => metres / 0.3048],
    ['ft', 'm', (feet) => feet * 0.3048],
    ['inch', 'm', (inches) => inches * 0.0254],
    ['°C', '°F', (celsius) => (celsius * 9) / 5 + 32],
    ['°F', '°C', (fahrenheit) => ((fahrenheit - 32) * 5) / 9],
  ];

  /** Lengths and temperatures in the other system, with all digits; sizes, diameters and drifts stay as written. */
  function restated(text: string): string {
    const quantity = /(?<![\w.])(-?\d+(?:\.\d+)?) (m|ft|inch|°C|°F)(?=[,\s]|$)/gu;
    return text
      .split('\n')
      .map((line) =>
        /^(stock|enclosure|entry|#)/.test(line)
          ? line
          : line.replace(quantity, (whole, number: string, unit: string) => {
              const [, other, convert] = others.find(([one]) => one === unit) ?? [];
              return other === undefined || convert === undefined
                ? whole
                : `${decimal(convert(Number(number)))} ${other}`;
            }),
      )
      .join('\n');
  }

  it.each(samples)('%s in the other system agrees to a milliardth', (name) => {
    const text = sample(name);
    const other = restated(text);
    expect(other).toMatch(name === 'orchard-cabin' ? /\d m\b/u : /\d ft\b/u);
    expect(other).not.toMatch(name === 'orchard-cabin' ? /^run [^#\n]*\d ft\b/mu : /^run [^#\n]*\d m\b/mu);
    expect(differences(json(text), json(other))).toEqual([]);
    const found = (one: string) => analyseText(one, stock).findings.map(({ slug, subject }) => `${slug} ${subject}`);
    expect(found(other)).toEqual(found(text));
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
