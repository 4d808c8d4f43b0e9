/** `analyse`: total on any text, the same from its cache as from scratch, and honest about used files. */
import fc from 'fast-check';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { type Analysis, AnalysisCache, analyse } from '../../server/analysis.ts';
import { answersJson } from '../../server/answers/answers-json.ts';
import * as work from '../../server/answers/work-out.ts';
import { type Files, memory } from './built.ts';
import { spokewagon } from './example.ts';

vi.mock('../../server/answers/work-out.ts', { spy: true });

afterEach(() => {
  vi.mocked(work.workOutInSteps).mockReset();
});

const uri = 'memory:///spec.amps';
const analysed = (text: string, files: Files = {}, cache?: AnalysisCache): Analysis =>
  analyse(uri, memory({ ...files, 'spec.amps': text }), cache);
const told = ({ text, findings }: Analysis) =>
  findings.map(({ slug, place }) => `${slug} "${text.slice(place.span.start, place.span.end)}"`);

/** Every place a finding points at in its own file lies in the text. */
function placesAreInside({ text, findings, model }: Analysis): void {
  for (const { place, related, fixes, message } of findings) {
    expect(place.uri).toBe(uri);
    expect(message).not.toMatch(/undefined|NaN|\[object/);
    const all = [
      place,
      ...related.map((one) => one.place),
      ...fixes.flatMap(({ edits }) => edits.map((edit) => edit.place)),
    ];
    for (const { span, uri: at } of all) {
      expect(span.start).toBeLessThanOrEqual(span.end);
      if (at === uri) expect(span.end).toBeLessThanOrEqual(text.length);
    }
  }
  for (const { place } of model.uses) if (place.uri === uri) expect(place.span.end).toBeLessThanOrEqual(text.length);
}

describe('analyse is total', () => {
  it.each([
    ['nothing', ''],
    ['white space', ' \n\t\n'],
    ['a byte order mark', '\uFEFFfuse F1 3 A\n'],
    [
      'names of the language',
      'fuse __proto__ 3 A\nload constructor 5 W\nrun toString 1 mm², 1 m, __proto__:in to constructor:+\n',
    ],
    [
      'counts beyond all reason',
      'fusebox FB 999999999 ways\nisolator Q1 -3 poles, 1 A dc\nconnector X1 1e9 pins\nconverter U1 5 V, 1 A\ncharger C1 12 V, 5 A, inputs 99999\n',
    ],
    ['pairs that are none', 'isolator Q1 2 poles, 1 A dc, pairs 1-1 1-2\nlink Q1 1-1\n'],
    ['a run of nothing but commas', 'run W1 ,,,,,\n'],
    [
      'amounts of nothing',
      'battery B1 agm, 0 V, 0 Ah, internal 0 Ω\nload L 0 W\nrun W1 0 mm², 0 m, B1:+ to L:+\nrun W2 1 mm², 0 m, L:- to B1:-\n',
    ],
    [
      'negative amounts',
      'battery B1 agm, -12 V, -1 Ah, internal -1 Ω\nload L -5 W\nrun W1 -1 mm², -1 m, B1:+ to L:+\nrun W2 1 mm², -1 m, L:- to B1:-\n',
    ],
  ])('%s', (_, text) => {
    placesAreInside(analysed(text));
  });

  it('any text', () => {
    const words = fc.constantFrom(
      'run',
      'fuse',
      'F1',
      'W1',
      '6 mm²',
      '= F1',
      ',',
      '\n',
      '\n  ',
      ':',
      'F1:in',
      '"',
      '#',
      '?',
      'to',
      'and',
      'use "spec.amps"',
      'link',
      '1-3',
      'stock',
      'cable',
      'case',
      'on',
      '2 x',
      'red',
      'busbar',
      'in',
      'at',
    );
    const noise = fc.oneof(fc.string({ unit: 'grapheme' }), words);
    fc.assert(
      fc.property(fc.array(noise, { maxLength: 40 }), (pieces) => placesAreInside(analysed(pieces.join(' ')))),
      { numRuns: 300 },
    );
  });

  it('the example with anything cut out, doubled or swapped', () => {
    const at = fc.integer({ min: 0, max: spokewagon.length });
    fc.assert(
      fc.property(
        at,
        fc.integer({ min: 0, max: 60 }),
        fc.constantFrom('', ',', '\n', '?', 'Q1:', '"', ' and '),
        at,
        (start, length, put, from) => {
          const cut = spokewagon.slice(from, from + length);
          placesAreInside(analysed(spokewagon.slice(0, start) + put + spokewagon.slice(start + length) + cut));
        },
      ),
      { numRuns: 150 },
    );
  });

  it('a megabyte of noise, in time', () => {
    const line = 'run W1 6 mm² red, 4.2 m, QQ:1 to ZZ:pv+ xx yy\n';
    const began = performance.now();
    const { findings } = analysed(line.repeat(Math.ceil(1_000_000 / line.length)));
    expect(findings.length).toBeGreaterThan(1000);
    expect(performance.now() - began).toBeLessThan(20_000);
  });

  it('a throw while the electrics are worked out leaves what reading found', () => {
    vi.mocked(work.workOutInSteps).mockImplementation(() => {
      throw new Error('no such luck');
    });
    const analysis = analysed('fuse F1\n');
    expect(told(analysis)).toEqual(['answers-failed ""', 'missing-required-clause "F1"']);
    expect(analysis.findings[0]?.message).not.toContain('no such luck');
    expect(analysis.findings[0]?.figures.error).toBe('no such luck');
    expect(analysis.answers.cases).toEqual([]);
  });
});

describe('the cache', () => {
  it('reads only the statements that an edit touches, and finds the same', () => {
    const cache = new AnalysisCache();
    analysed(spokewagon, {}, cache);
    const { parsed } = cache.parseCache(uri);
    const edited = `# A line more\n${spokewagon.replace('fuse F1        80 A', 'fuse F1        60 A')}`;
    const again = analysed(edited, {}, cache);
    expect(cache.parseCache(uri).parsed).toBe(parsed + 1);
    const scratch = analysed(edited);
    expect(again.findings).toEqual(scratch.findings);
    expect(answersJson(again.answers)).toEqual(answersJson(scratch.answers));
  });
});

describe('used files', () => {
  const shelf =
    'battery B1 agm, 12 V, 80 Ah\nfuse F1 80 A\nload LAMP 12 W\nrun W1 10 mm², 0.1 m, B1:+ to F1:in\nrun W2 1.5 mm², 2 m, F1:out to LAMP:+\nrun W3 1.5 mm², 2 m, LAMP:- to B1:-\n';

  it('what the electrics find there is told at the use, with its place beside it', () => {
    const analysis = analysed('system 12 V\nuse "shelf.amps"\n', { 'shelf.amps': shelf });
    const found = analysis.findings.filter(({ slug }) => slug === 'cable-too-small');
    // W1 is in line with W2, W3 is its return: both are told with it.
    expect(found.map(({ subject }) => subject)).toEqual(['W2']);
    for (const { place, related } of found) {
      expect(analysis.text.slice(place.span.start, place.span.end)).toBe('"shelf.amps"');
      expect(related[0]?.place.uri).toBe('memory:///shelf.amps');
    }
    placesAreInside(analysis);
  });

  it('may be allowed there', () => {
    const analysis = analysed('system 12 V\nuse "shelf.amps"\nallow cable-too-small "a test"\n', {
      'shelf.amps': shelf,
    });
    expect(analysis.findings.filter(({ slug }) => slug === 'cable-too-small')).toEqual([]);
    expect(analysis.accepted.filter(({ slug }) => slug === 'cable-too-small')).toHaveLength(1);
  });

  it('of others are checked for their language alone', () => {
    const text = 'fuse F1 80 A\nload LAMP 12 W\nload FAN\nrun W2 1.5 mm², 2 m, F1:out to LAMP:+\n';
    const source = memory({ 'spec.amps': text });
    expect(told(analyse(uri, source))).toContain('terminal-unconnected "F1"');
    expect(told(analyse(uri, { ...source, isUsed: () => true }))).toEqual(['missing-required-clause "FAN"']);
    const whole = memory({ 'spec.amps': `system 12 V\n${text}` });
    expect(told(analyse(uri, { ...whole, isUsed: () => true }))).toContain('terminal-unconnected "F1"');
  });
});
