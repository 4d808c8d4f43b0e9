/** The highlighting grammar of a vocabulary, in TextMate's form with its conventional scopes, so that any theme colours it. */
import { compile } from './compiled.ts';
import { clauseWords } from './forms.ts';
import { units } from './units.ts';
import type { Vocabulary } from './vocabulary.ts';

interface Pattern {
  readonly name?: string;
  readonly match?: string;
  readonly begin?: string;
  readonly end?: string;
  readonly include?: string;
  readonly captures?: Readonly<Record<string, { readonly name: string }>>;
  readonly beginCaptures?: Readonly<Record<string, { readonly name: string }>>;
  readonly patterns?: readonly Pattern[];
}

const literally = (text: string) => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');
const alternatives = (words: Iterable<string>) =>
  [...new Set(words)]
    .sort((a, b) => b.length - a.length || (a < b ? -1 : 1))
    .map(literally)
    .join('|');
const name = '[\\p{L}][\\p{L}\\p{M}\\p{N}_-]*';
const before = '(?<![\\p{L}\\p{N}_-])';
const after = '(?![\\p{L}\\p{N}_:-])';

export function textMateGrammar(vocabulary: Vocabulary) {
  const { specs } = compile(vocabulary);
  const statements = [...vocabulary.statements.values()].filter(({ category }) => category === 'statement');
  const kinds = [...vocabulary.statements.values()].filter(({ category }) => category === 'kind');
  const keywords = [...specs.values()]
    .flatMap(({ forms }) => forms.flatMap(clauseWords))
    .filter((word) => /^\p{L}/u.test(word));
  const unitWords = units
    .flatMap(({ symbol, accepted }) => [symbol, ...accepted])
    .filter((word) => word !== '"' && word !== "'");
  const named = (words: readonly { readonly word: string }[], scope: string): Pattern => ({
    match: `^\\s*(${alternatives(words.map(({ word }) => word))})${after}(?:\\s+(${name}))?`,
    captures: { 1: { name: `${scope}.ampscribe` }, 2: { name: 'entity.name.type.part.ampscribe' } },
  });
  const patterns: Pattern[] = [
    { name: 'comment.line.number-sign.ampscribe', match: '(?:^|(?<=\\s))#.*$' },
    { name: 'string.quoted.double.ampscribe', begin: '"', end: '"|$' },
    {
      match: '^\\s*(stock)\\s+([\\p{L}][\\p{L}\\p{M}\\p{N}_-]*)\\s+([\\p{L}-]+)',
      captures: {
        1: { name: 'keyword.control.statement.ampscribe' },
        2: { name: 'entity.name.type.part.ampscribe' },
        3: { name: 'storage.type.kind.ampscribe' },
      },
    },
    // Statements that name nothing: what follows is a clause.
    {
      match: `^\\s*(${alternatives(statements.filter(({ head }) => head === 'none').map(({ word }) => word))})${after}`,
      captures: { 1: { name: 'keyword.control.statement.ampscribe' } },
    },
    named(
      statements.filter(({ head }) => head !== 'none'),
      'keyword.control.statement',
    ),
    named(kinds, 'storage.type.kind'),
    {
      match: `${before}(${name})(:)([\\p{L}\\p{N}_]+(?:-[\\p{L}\\p{N}_]+)*[+-]?|[+-])?`,
      captures: {
        1: { name: 'entity.name.type.part.ampscribe' },
        2: { name: 'punctuation.separator.terminal.ampscribe' },
        3: { name: 'variable.other.member.terminal.ampscribe' },
      },
    },
    { name: 'constant.numeric.date.ampscribe', match: '\\b\\d{4}-\\d{2}-\\d{2}\\b' },
    {
      match: `(?<![\\p{L}\\p{N}_])([-+−]?\\d+(?:[.,]\\d+)*(?:/0)?|\\?)\\s*(${alternatives(unitWords)})(?![\\p{L}\\p{N}_])`,
      captures: { 1: { name: 'constant.numeric.ampscribe' }, 2: { name: 'keyword.other.unit.ampscribe' } },
    },
    { name: 'constant.numeric.ampscribe', match: '(?<![\\p{L}\\p{N}_])[-+−]?\\d+(?:\\.\\d+)?' },
    { name: 'constant.language.blank.ampscribe', match: '\\?' },
    {
      match: `(=)\\s*(${name})`,
      captures: {
        1: { name: 'keyword.operator.assignment.ampscribe' },
        2: { name: 'entity.name.type.stock.ampscribe' },
      },
    },
    {
      name: 'support.constant.color.ampscribe',
      match: `${before}(?:${alternatives(vocabulary.colours.keys())})(?:/(?:${alternatives(vocabulary.colours.keys())}))?${after}`,
    },
    { name: 'keyword.other.clause.ampscribe', match: `${before}(?:${alternatives(keywords)})${after}` },
    { name: 'punctuation.separator.clause.ampscribe', match: ',' },
  ];
  return {
    name: 'Ampscribe',
    scopeName: 'source.ampscribe',
    fileTypes: ['amps'],
    patterns,
  };
}
