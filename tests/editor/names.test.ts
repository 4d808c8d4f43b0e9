/** Going to definitions, finding references, highlights: all that follows a name. */
import { readdirSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { DocumentHighlightKind, type Location, type Range } from 'vscode-languageserver';
import { LineIndex } from '../../grammar/lines.ts';
import type { SourceText } from '../../grammar/text-in-blocks.ts';
import { type Analysis, analyse } from '../../server/analysis.ts';
import { diskSource, uriOf } from '../../server/cli/files.ts';
import { definition } from '../../server/editor/definition.ts';
import { definitionLinks } from '../../server/editor/definition-links.ts';
import { highlights } from '../../server/editor/highlight.ts';
import { references } from '../../server/editor/references.ts';
import { memorySource } from '../analysed.ts';
import { analyseFiles } from './editing.ts';
import { placeOf } from './hovering.ts';

const files = {
  'spec.amps': `use "stock.amps"
system "Shed"  12 V
place SHED  indoors, 40 °C
battery B1  lead-acid, 12 V, 80 Ah, at SHED
load LAMP  24 W, terminal dim "dimmer", at SHED
busbar NEG  50 A
run W1  = thin red, 3 m, along SHED, B1:+ to LAMP:+
run W2  = thin black, 3 m, LAMP:- to NEG
run W3  = thin black, 3 m, NEG to B1:-
case night  LAMP on, B1 charge 60 %
expect LAMP voltage at least 11 V in night
allow drop-over-limit on W1 "a lamp"
# LAMP in a remark is no LAMP
`,
  'stock.amps': 'stock thin  cable 1.5 mm²\nstock thick  cable 16 mm²\n',
  'other.amps': 'use "stock.amps"\nload FAN  12 W\nrun W9  = thin red, 1 m, FAN:+ to FAN:-\n',
};
const spec = analyseFiles(files);
const { resolve: resolveUse } = memorySource(files);
const at = (word: string, nth = 1, within = 0) => placeOf(files['spec.amps'], word, nth) + within;

const nameOf = (uri: string) => uri.replace('memory:///', '');
/** `file:line text`, as a person would say where it is. */
function said(analysis: Analysis, { uri, range }: Location): string {
  const text = uri === analysis.uri ? analysis.text : (files[nameOf(uri) as keyof typeof files] ?? '');
  const line = String(text).split('\n')[range.start.line] ?? '';
  return `${nameOf(uri)}:${range.start.line + 1} ${line.slice(range.start.character, range.end.character)}`;
}
const defined = (offset: number, analysis = spec) =>
  definition(analysis, offset, resolveUse).map((one) => said(analysis, one));
const referred = (offset: number, declaration: boolean, analysis = spec, others: readonly Analysis[] = []) =>
  references(analysis, offset, { declaration }, others).map((one) => said(analysis, one));

describe('the definition', () => {
  it.each([
    ['a part, from its terminal', at('LAMP', 2), 'spec.amps:5 LAMP'],
    ['a terminal, from behind the colon', at('LAMP:+', 1, 5), 'spec.amps:5 LAMP'],
    ['a part with one node', at('NEG', 2), 'spec.amps:6 NEG'],
    ['a place', at('SHED', 3), 'spec.amps:3 SHED'],
    ['a stock, in its file', at('thin', 1), 'stock.amps:1 thin'],
    ['a case', at('night', 2), 'spec.amps:10 night'],
    ['a run', at('W1', 2), 'spec.amps:7 W1'],
    ['a name, from itself', at('B1', 1), 'spec.amps:4 B1'],
    ['a used file', at('"stock.amps"', 1, 3), 'stock.amps:1 '],
  ])('of %s', (_, offset, where) => {
    expect(defined(offset)).toEqual([where]);
  });

  it('of a terminal that the stock of a load has is the clause of the stock, also from that', () => {
    const own = {
      'spec.amps': 'use "stock.amps"\nload LAMP  = lamp\nbusbar NEG  50 A\nrun W1  1 mm² red, 1 m, LAMP:dim to NEG\n',
      'stock.amps': 'stock lamp  load 9 W, terminal dim\n',
    };
    const clause = { uri: 'memory:///stock.amps', start: { line: 0, character: own['stock.amps'].indexOf('dim') } };
    const place = (analysis: Analysis, offset: number) =>
      definition(analysis, offset, resolveUse).map(({ uri, range: { start } }) => ({ uri, start }));
    expect(place(analyseFiles(own), own['spec.amps'].indexOf('LAMP:dim') + 6)).toEqual([clause]);
    const stock = analyse(clause.uri, memorySource(own));
    expect(place(stock, clause.start.character + 1)).toEqual([clause]);
  });

  it('of a terminal that a load has of its own is its clause', () => {
    const own = {
      'spec.amps': 'load LAMP  24 W, terminal dim\nbusbar NEG  50 A\nrun W1  1 mm² red, 1 m, LAMP:dim to NEG\n',
    };
    const analysis = analyseFiles(own);
    const offset = own['spec.amps'].indexOf('LAMP:dim') + 6;
    const [found] = definition(analysis, offset, resolveUse);
    expect(found?.range.start).toEqual({ line: 0, character: own['spec.amps'].indexOf('dim') });
  });

  it.each([
    ['a remark', at('# LAMP', 1, 3)],
    ['a keyword', at('battery')],
    ['a figure', at('80 Ah')],
    ['a gap', at('B1', 1, 3)],
    ['the end', files['spec.amps'].length],
  ])('of %s is none', (_, offset) => {
    expect(defined(offset)).toEqual([]);
    expect(referred(offset, true)).toEqual([]);
    expect(highlights(spec, offset)).toEqual([]);
  });

  it('of a file that is not there is none', () => {
    const missing = analyseFiles({ 'spec.amps': 'use "nowhere.amps"\n' });
    expect(definition(missing, 8, resolveUse)).toEqual([]);
  });
});

describe('links to definitions', () => {
  const textOf = ({ text, lines }: { text: SourceText; lines: LineIndex }, { start, end }: Range) =>
    text.slice(lines.offset(start), lines.offset(end));
  const stockLines = new LineIndex(files['stock.amps']);
  const linked = (offset: number) =>
    definitionLinks(spec, offset, definition(spec, offset, resolveUse)).map((link) => {
      const target = link.targetUri === spec.uri ? spec : { text: files['stock.amps'], lines: stockLines };
      const origin = link.originSelectionRange;
      return [
        origin === undefined ? '' : textOf(spec, origin),
        textOf(target, link.targetSelectionRange),
        textOf(target, link.targetRange),
      ];
    });

  it.each([
    ['a part of an end', at('B1:+', 1, 1), ['B1', 'B1', 'battery B1  lead-acid, 12 V, 80 Ah, at SHED']],
    ['its terminal', at('B1:+', 1, 3), ['+', 'B1', 'battery B1  lead-acid, 12 V, 80 Ah, at SHED']],
    ['a stock', at('thin'), ['thin', 'thin', 'stock thin  cable 1.5 mm²']],
    ['a file', at('"stock.amps"', 1, 3), ['"stock.amps"', '', '']],
  ])('from %s tell the words that lead there, and the whole statement', (_, offset, told) => {
    expect(linked(offset)).toEqual([told]);
  });

  it('are none where nothing is defined', () => {
    expect(linked(at('80 Ah'))).toEqual([]);
  });
});

describe('references', () => {
  it('are every use of a name, with or without its declaration', () => {
    const uses = ['spec.amps:7 LAMP', 'spec.amps:8 LAMP', 'spec.amps:10 LAMP', 'spec.amps:11 LAMP'];
    expect(referred(at('LAMP'), false)).toEqual(uses);
    expect(referred(at('LAMP', 3), true)).toEqual(['spec.amps:5 LAMP', ...uses]);
    expect(referred(at('SHED'), true)).toEqual([
      'spec.amps:3 SHED',
      'spec.amps:4 SHED',
      'spec.amps:5 SHED',
      'spec.amps:7 SHED',
    ]);
    expect(referred(at('W1'), true)).toEqual(['spec.amps:7 W1', 'spec.amps:12 W1']);
    expect(referred(at('night'), true)).toEqual(['spec.amps:10 night', 'spec.amps:11 night']);
  });

  it('of a stock are in every file that takes it', () => {
    const here = ['spec.amps:7 thin', 'spec.amps:8 thin', 'spec.amps:9 thin'];
    expect(referred(at('thin'), true)).toEqual([...here, 'stock.amps:1 thin']);
    expect(referred(at('thin'), false)).toEqual(here);
    // From the stock file: the specs that use it, each place once.
    const stock = analyse('memory:///stock.amps', memorySource(files));
    const other = analyse('memory:///other.amps', memorySource(files));
    const offset = files['stock.amps'].indexOf('thin');
    expect(referred(offset, true, stock)).toEqual(['stock.amps:1 thin']);
    expect(referred(offset, true, stock, [spec, other]).sort()).toEqual(
      ['other.amps:3 thin', ...here, 'stock.amps:1 thin'].sort(),
    );
  });

  it('tell a terminal from its part', () => {
    expect(referred(at('B1:+', 1, 3), true)).toEqual(['spec.amps:7 +']);
    expect(referred(at('B1:+', 1, 1), false)).toEqual(['spec.amps:7 B1', 'spec.amps:9 B1', 'spec.amps:10 B1']);
  });

  it('of a terminal that loads have of their own are on all of them from its clause, and on one from that', () => {
    const own = {
      'spec.amps':
        'use "stock.amps"\nload A and B  9 W, terminal dim\nload C  = lamp\nbusbar NEG  50 A\nrun W1  1 mm² red, 1 m, A:dim to B:dim\nrun W2  1 mm² red, 1 m, A:dim to C:dim\n',
      'stock.amps': 'stock lamp  load 9 W, terminal dim\n',
    };
    const analysis = analyseFiles(own);
    const stock = analyse('memory:///stock.amps', memorySource(own));
    const lines = (one: Analysis, offset: number, others: readonly Analysis[] = []) =>
      references(one, offset, { declaration: true }, others).map(
        ({ uri, range: { start } }) => `${nameOf(uri)}:${start.line + 1}:${start.character}`,
      );
    const text = String(analysis.text);
    expect(lines(analysis, text.indexOf('dim'))).toEqual([
      'spec.amps:2:28',
      'spec.amps:5:26',
      'spec.amps:5:35',
      'spec.amps:6:26',
    ]);
    expect(lines(analysis, text.indexOf('A:dim') + 3)).toEqual(['spec.amps:2:28', 'spec.amps:5:26', 'spec.amps:6:26']);
    expect(lines(analysis, text.indexOf('C:dim') + 3)).toEqual(['spec.amps:6:35', 'stock.amps:1:31']);
    expect(lines(stock, own['stock.amps'].indexOf('dim'), [analysis])).toEqual(['stock.amps:1:31', 'spec.amps:6:35']);
    expect(highlights(analysis, text.indexOf('dim')).map(({ kind }) => kind)).toEqual([
      DocumentHighlightKind.Write,
      DocumentHighlightKind.Read,
      DocumentHighlightKind.Read,
      DocumentHighlightKind.Read,
    ]);
  });

  it('tell a case from a part of the same name', () => {
    const same = analyseFiles({
      'spec.amps': 'load night  24 W\ncase night  night on\nexpect night voltage at least 11 V in night\n',
    });
    const text = String(same.text);
    const lines = (offset: number) =>
      references(same, offset, { declaration: true }).map(({ range }) => [range.start.line, range.start.character]);
    expect(lines(text.indexOf('night'))).toEqual([
      [0, 5],
      [1, 12],
      [2, 7],
    ]);
    expect(lines(text.lastIndexOf('night'))).toEqual([
      [1, 5],
      [2, text.split('\n')[2]?.lastIndexOf('night')],
    ]);
  });
});

describe('highlights', () => {
  it('are the uses in this file, the declaration as written', () => {
    const found = highlights(spec, at('LAMP', 2));
    expect(found.map(({ range, kind }) => [range.start.line + 1, kind])).toEqual([
      [5, DocumentHighlightKind.Write],
      [7, DocumentHighlightKind.Read],
      [8, DocumentHighlightKind.Read],
      [10, DocumentHighlightKind.Read],
      [11, DocumentHighlightKind.Read],
    ]);
    expect(highlights(spec, at('thin')).map(({ range }) => range.start.line + 1)).toEqual([7, 8, 9]);
  });
});

const samples = readdirSync('samples').filter((name) => name.endsWith('.amps'));
describe.each(samples)('in samples/%s', (name) => {
  const analysis = analyse(uriOf(resolve('samples', name)), diskSource());
  const resolveDisk = diskSource().resolve;

  it('every use leads to one definition, and from there back', () => {
    const own = analysis.model.uses.filter(({ place, target }) => place.uri === analysis.uri && target !== 'file');
    for (const { name: word, place, target } of own) {
      // Two terminals share the number of a bar, as 1-3 does.
      if (/^\d+-\d+$/.test(analysis.text.slice(place.span.start, place.span.end))) continue;
      const found = definition(analysis, place.span.start, resolveDisk);
      expect([word, found.length]).toEqual([word, 1]);
      if (target === 'terminal') continue;
      const back = references(analysis, place.span.start, { declaration: true }).map(
        ({ uri, range }) => `${uri} ${JSON.stringify(range)}`,
      );
      expect(back).toContain(`${found[0]?.uri} ${JSON.stringify(found[0]?.range)}`);
      expect(back).toContain(
        `${analysis.uri} ${JSON.stringify({ start: analysis.lines.position(place.span.start), end: analysis.lines.position(place.span.end) })}`,
      );
    }
  });
});
