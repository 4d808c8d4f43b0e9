/** The highlighting grammar in the engine editors use, held against the parser. */
import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { beforeAll, describe, expect, it } from 'vitest';
import { createOnigScanner, createOnigString, loadWASM } from 'vscode-oniguruma';
import { type IGrammar, INITIAL, parseRawGrammar, Registry } from 'vscode-textmate';
import { isColour } from '../../grammar/match.ts';
import { parseDocument } from '../../grammar/parse.ts';
import { textMateGrammar } from '../../grammar/textmate.ts';
import { units } from '../../grammar/units.ts';
import { textMateText } from '../../server/kinds/generate-textmate.ts';
import { vocabulary } from '../../server/kinds/vocabulary.ts';

let grammar: IGrammar;

beforeAll(async () => {
  const require = createRequire(import.meta.url);
  await loadWASM(readFileSync(require.resolve('vscode-oniguruma/release/onig.wasm')));
  const registry = new Registry({
    onigLib: Promise.resolve({ createOnigScanner, createOnigString }),
    loadGrammar: async () => parseRawGrammar(JSON.stringify(textMateGrammar(vocabulary)), 'ampscribe.json'),
  });
  const loaded = await registry.loadGrammar('source.ampscribe');
  if (loaded === null) throw new Error('the grammar does not load');
  grammar = loaded;
});

/** Innermost scope of every character. */
function scopesOf(text: string): string[] {
  const scopes: string[] = [];
  let state = INITIAL;
  for (const line of text.split('\n')) {
    const { tokens, ruleStack } = grammar.tokenizeLine(line, state);
    state = ruleStack;
    for (const { startIndex, endIndex, scopes: all } of tokens)
      for (let i = startIndex; i < Math.min(endIndex, line.length); i++)
        scopes.push((all.at(-1) ?? '').replace('.ampscribe', ''));
    scopes.push('');
  }
  return scopes;
}

/** The scope that all characters of the words have, where they stand first. */
function scopeIn(line: string, words: string): string {
  const start = line.indexOf(words);
  const scopes = scopesOf(line).slice(start, start + words.length);
  return [...new Set(scopes)].join(' ');
}

describe('highlighting', () => {
  it.each([
    ['run W1  6 mm² red, A:1 to B:pv+', 'run', 'keyword.control.statement'],
    ['run W1  6 mm² red, A:1 to B:pv+', 'W1', 'entity.name.type.part'],
    ['run W1  6 mm² red, A:1 to B:pv+', '6', 'constant.numeric'],
    ['run W1  6 mm² red, A:1 to B:pv+', 'mm²', 'keyword.other.unit'],
    ['run W1  6 mm² red, A:1 to B:pv+', 'red', 'support.constant.color'],
    ['run W1  6 mm² red, A:1 to B:pv+', ',', 'punctuation.separator.clause'],
    ['run W1  6 mm² red, A:1 to B:pv+', 'A', 'variable.other.part'],
    ['run W1  6 mm² red, A:1 to B:pv+', 'to', 'keyword.operator.word'],
    ['run W1  6 mm² red, A:1 to B:pv+', 'pv+', 'variable.other.enummember.terminal'],
    ['run W1  2 x ? mm²', '2', 'constant.numeric'],
    ['run W1  2 x ? mm²', 'x', 'keyword.operator.times'],
    ['run W1  2 x ? mm²', '?', 'constant.numeric'],
    ['fuse F1 ?', '?', 'constant.language.blank'],
    ['run W1  6mm2', 'mm2', 'keyword.other.unit'],
    ['run W1  10 AWG', 'AWG', 'keyword.other.unit'],
    ['run W1  6" red', 'red', 'support.constant.color'],
    ['    green/yellow NEG to L:-', 'green/yellow', 'support.constant.color'],
    ['    green/yellow NEG to L:-', 'NEG', 'variable.other.part'],
    ['panel P1 and P2 "East" 120 W', 'panel', 'storage.type.kind'],
    ['panel P1 and P2 "East" 120 W', 'P2', 'entity.name.type.part'],
    ['panel P1 and P2 "East" 120 W', 'and', 'keyword.operator.word'],
    ['panel P1 and P2 "East" 120 W', 'East', 'string.quoted.double'],
    ['stock thin6 cable 6 mm²', 'thin6', 'entity.name.type.part'],
    ['stock thin6 cable 6 mm²', 'cable', 'storage.type.kind'],
    ['system "Shed" 12 V', 'system', 'keyword.control.statement'],
    ['fuse F1  5 A, cartridge, breaks 2 kA', 'cartridge', 'support.constant.property-value'],
    ['fuse F1  5 A, cartridge, breaks 2 kA', 'breaks', 'keyword.other.clause'],
    ['    fuse F1 5 A', 'F1', 'variable.other.part'],
    ['busbar A1 150 A', 'A1', 'entity.name.type.part'],
    ['busbar 蓄电池 150 A', '蓄电池', 'entity.name.type.part'],
    ['    breaks 2 kA # note', '# note', 'punctuation.definition.comment comment.line.number-sign'],
    ['    a#b', 'b', 'variable.other.part'],
    ['reading 2026-04-18 10:30 Q1:1 12.4 V', '2026-04-18', 'constant.numeric.date'],
    ['reading 2026-04-18 10:30 Q1:1 12.4 V', '10:30', 'constant.numeric.date'],
    ['enclosure B IP65, knockouts 4 x M20', 'IP65', 'constant.other.code'],
    ['enclosure B IP65, knockouts 4 x M20', 'M20', 'constant.other.code'],
    ['panel P -0.30 %/°C, tilt 10°', '%/°C', 'keyword.other.unit'],
    ['panel P -0.30 %/°C, tilt 10°', '-0.30', 'constant.numeric'],
    ['load L = lamp', '=', 'keyword.operator.assignment'],
    ['use "open', 'open', 'string.quoted.double'],
  ])('%s: %s', (line, words, scope) => {
    expect(scopeIn(line, words).trim()).toBe(scope);
  });

  it('ends an open text at the line’s end', () => {
    const text = 'use "open\nfuse F1 5 A';
    expect(scopesOf(text)[text.indexOf('fuse')]).toBe('storage.type.kind');
  });

  it.each(units)('$symbol in every accepted spelling', ({ symbol, accepted }) => {
    for (const unit of [symbol, ...accepted]) {
      expect([unit, scopeIn(`load L 5 ${unit}`, unit)]).toEqual([unit, 'keyword.other.unit']);
      expect([unit, scopeIn(`load L 5${unit}, x`, unit)]).toEqual([unit, 'keyword.other.unit']);
    }
  });

  it.each(readdirSync('samples').filter((file) => file.endsWith('.amps')))(
    'agrees with the parser: samples/%s',
    (file) => {
      const text = readFileSync(`samples/${file}`, 'utf8');
      const scopes = scopesOf(text);
      for (const { node, shaped, offset } of parseDocument(text, vocabulary).statements) {
        const is = (start: number, end: number, scope: RegExp) => {
          const words = text.slice(offset + start, offset + end);
          for (let i = offset + start; i < offset + end; i++) expect(`${words}: ${scopes[i]}`).toMatch(scope);
        };
        for (const { span } of node.comments) is(span.start, span.end, /: .*comment/);
        for (const { span } of node.names) is(span.start, span.end, /: entity\.name/);
        if (node.keyword !== undefined)
          is(node.keyword.span.start, node.keyword.span.end, /: (?:keyword\.control|storage\.type)/);
        for (const atom of node.body) {
          const { start, end } = atom.span;
          if (atom.kind === 'quantity') {
            is(atom.numberSpan.start, atom.numberSpan.end, /: constant\.numeric$/);
            is(atom.unitSpan.start, atom.unitSpan.end, /: keyword\.other\.unit$/);
          } else if (atom.kind === 'terminal') {
            is(atom.partSpan.start, atom.partSpan.end, /: variable\.other\.part$/);
            is(atom.terminalSpan.start, atom.terminalSpan.end, /: variable\.other\.enummember/);
          } else if (atom.kind === 'text') is(start, end, /: .*string/);
          else if (atom.kind === 'number') is(start, end, /: constant\.numeric$/);
          else if (atom.kind === 'word' && isColour(atom.value, vocabulary.colours))
            is(start, end, /: support\.constant\.color$/);
        }
        for (const { values } of shaped.clauses)
          for (const { type, span } of values)
            if (type.startsWith('name<')) is(span.start, span.end, /: variable\.other\.part$/);
      }
    },
  );

  it('is written to the file that editors load', () => {
    expect(readFileSync('grammar/ampscribe.tmLanguage.json', 'utf8')).toBe(textMateText());
  });
});
