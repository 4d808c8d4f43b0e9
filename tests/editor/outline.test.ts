import { readdirSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { DocumentSymbol, Range } from 'vscode-languageserver';
import { type Analysis, AnalysisCache, analyse } from '../../server/analysis.ts';
import { diskSource, uriOf } from '../../server/cli/files.ts';
import { flatOutline, outline } from '../../server/editor/outline.ts';
import { analyseText } from '../analysed.ts';

const text = `use "stock.amps"
system "Shed"  12 V, ambient 35 °C
place SHED  indoors, 40 °C
battery B1 and B2 "House"  lead-acid, 12 V, 80 Ah
fusebox FB  2 ways, total 40 A
    way 1 fuse 5 A
    way 2 fuse 10 A
isolator Q1  2 poles, 20 A dc, 60 V
link Q1  1-3, 2-4
load LAMP  24 W
entry E1  in BOX, gland M20, 2 holes
stock thin  cable 1.5 mm²
run W1  2 x 1.5 mm², 3 m, along SHED
    red    FB:1 to LAMP:+
    spare
run W2  6 mm² red, 1 m, B1:+ to FB:in
case night  all loads on
expect LAMP voltage at least 11 V
allow drop-over-limit on W1 "a lamp"
nonsense X 12
`;

const sourceOf = (written: string) => ({
  read: (uri: string) => ({ text: uri.endsWith('spec.amps') ? written : 'stock other cable 6 mm²\n' }),
  resolve: (_from: string, path: string) => `memory:///${path}`,
});

/** `name | detail`, indented by depth. */
function lines(symbols: readonly DocumentSymbol[], depth = 0): string[] {
  return symbols.flatMap(({ name, detail, children = [] }) => [
    `${'  '.repeat(depth)}${name}${detail === undefined ? '' : ` | ${detail}`}`,
    ...lines(children, depth + 1),
  ]);
}

describe('the outline', () => {
  it('is the same after edits as of the text alone', () => {
    const cache = new AnalysisCache();
    const told = (written: string) => outline(analyse('memory:///spec.amps', sourceOf(written), cache));
    const edits = [
      text,
      `# A note above.\n${text}`,
      text.replace('load LAMP ', 'load LANTERN '),
      text.replace('run W1 ', '  run W1 '),
      text.replace('    spare\n', ''),
      text.replace('red    FB:1', 'red FB:2'),
      text,
    ];
    const again = told(text);
    expect(told(`${text}# A note below.\n`)[2]).toBe(again[2]);
    for (const written of edits)
      expect(told(written)).toEqual(outline(analyse('memory:///spec.amps', sourceOf(written))));
  });

  it('tells in order what the file declares', () => {
    expect(lines(outline(analyseText(text, { 'stock.amps': 'stock other cable 6 mm²\n' })))).toEqual([
      '"stock.amps"',
      'Shed | 12 V, ambient 35 °C',
      'SHED | indoors, 40 °C',
      'B1 | battery “House” lead-acid, 12 V, 80 Ah',
      'B2 | battery “House” lead-acid, 12 V, 80 Ah',
      'FB | fusebox 2 ways, total 40 A',
      '  way 1 fuse 5 A',
      '  way 2 fuse 10 A',
      'Q1 | isolator 2 poles, 20 A dc, 60 V',
      'Q1 1-3, 2-4',
      'LAMP | load 24 W',
      'E1 | entry in BOX, gland M20, 2 holes',
      'thin | cable 1.5 mm²',
      'W1 | 2 x 1.5 mm², 3 m',
      '  red | FB:1 to LAMP:+',
      '  core 2 | spare',
      'W2 | 6 mm², red, 1 m',
      'night | all loads on',
      'LAMP voltage at least 11 V',
      'drop-over-limit on W1 "a lamp"',
    ]);
  });

  it('of nothing is empty', () => {
    expect(outline(analyseText(''))).toEqual([]);
    expect(outline(analyseText('# only a remark\n'))).toEqual([]);
  });

  it('lives with statements that are still being typed', () => {
    for (const word of [
      'system',
      'run',
      'fuse',
      'link',
      'use',
      'stock',
      'stock thin',
      'case',
      'expect',
      'allow',
      'reading',
    ])
      for (const { name } of outline(analyseText(`${word}\n`))) expect(name).not.toBe('');
  });
});

const before = (a: Range['start'], b: Range['start']) =>
  a.line < b.line || (a.line === b.line && a.character <= b.character);
const within = (outer: Range, inner: Range) => before(outer.start, inner.start) && before(inner.end, outer.end);

const samples = readdirSync('samples').filter((name) => name.endsWith('.amps'));
describe.each(samples)('of samples/%s', (name) => {
  const analysis: Analysis = analyse(uriOf(resolve('samples', name)), diskSource());

  it('has symbols that follow each other and never overlap, but for parts declared together', () => {
    const symbols = outline(analysis);
    symbols.slice(1).forEach((symbol, n) => {
      const previous = (symbols[n] as DocumentSymbol).range;
      const together = JSON.stringify(previous) === JSON.stringify(symbol.range);
      expect(together || before(previous.end, symbol.range.start)).toBe(true);
    });
  });

  it('has every name once, at the name, inside its statement', () => {
    const found: string[] = [];
    const visit = (symbol: DocumentSymbol, parent?: Range) => {
      expect(within(symbol.range, symbol.selectionRange)).toBe(true);
      if (parent !== undefined) expect(within(parent, symbol.range)).toBe(true);
      const { start, end } = symbol.selectionRange;
      if (analysis.text.slice(analysis.lines.offset(start), analysis.lines.offset(end)) === symbol.name)
        found.push(symbol.name);
      for (const child of symbol.children ?? []) visit(child, symbol.range);
    };
    for (const symbol of outline(analysis)) visit(symbol);
    const { parts, runs, locations, stocks, cases } = analysis.model;
    const own = [parts, runs, locations, stocks]
      .flatMap((all) => [...all.values()])
      .filter(({ namePlace }) => namePlace.uri === analysis.uri)
      .map((one) => one.name);
    const stated = cases.filter(({ implied }) => !implied).map((one) => one.name);
    for (const one of [...own, ...stated])
      expect([one, found.filter((other) => other === one).length]).toEqual([one, 1]);
  });

  it('is the same flat, with the run as the container of its cores', () => {
    const flat = flatOutline(analysis);
    const nested: string[] = [];
    const visit = (symbols: readonly DocumentSymbol[]) => {
      for (const symbol of symbols) {
        nested.push(symbol.name);
        visit(symbol.children ?? []);
      }
    };
    visit(outline(analysis));
    expect(flat.map((one) => one.name)).toEqual(nested);
    for (const { location } of flat) expect(location.uri).toBe(analysis.uri);
    const cores = [...analysis.model.runs.values()].filter((run) => run.cores.length > 1);
    for (const run of cores)
      expect(flat.filter(({ containerName }) => containerName === run.name).map((one) => one.name)).toEqual(
        run.cores.map(({ label }) => label),
      );
  });
});
