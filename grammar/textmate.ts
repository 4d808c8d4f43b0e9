/**
 * The highlighting grammar of a vocabulary, in TextMate's form with its conventional scopes, so that any theme colours it.
 * Words are told from the same tables that the parser reads by; a test holds both against each other on every sample.
 */
import { compile } from './compiled.ts';
import { clauseWords } from './forms.ts';
import { units } from './units.ts';
import type { Vocabulary } from './vocabulary.ts';

interface Pattern {
  readonly name?: string;
  readonly match?: string;
  readonly begin?: string;
  readonly end?: string;
  readonly captures?: Captures;
  readonly beginCaptures?: Captures;
  readonly endCaptures?: Captures;
  readonly patterns?: readonly Pattern[];
}

type Captures = Readonly<Record<string, { readonly name?: string; readonly patterns?: readonly Pattern[] }>>;

export interface TextMateGrammar {
  readonly name: string;
  readonly scopeName: string;
  readonly fileTypes: readonly string[];
  readonly patterns: readonly Pattern[];
}

/** What stands for what; all end in the language's own name. */
const scopes = {
  comment: 'comment.line.number-sign.ampscribe',
  commentSign: 'punctuation.definition.comment.ampscribe',
  text: 'string.quoted.double.ampscribe',
  textBegin: 'punctuation.definition.string.begin.ampscribe',
  textEnd: 'punctuation.definition.string.end.ampscribe',
  statement: 'keyword.control.statement.ampscribe',
  kind: 'storage.type.kind.ampscribe',
  declared: 'entity.name.type.part.ampscribe',
  part: 'variable.other.part.ampscribe',
  terminal: 'variable.other.enummember.terminal.ampscribe',
  colon: 'punctuation.separator.terminal.ampscribe',
  clause: 'keyword.other.clause.ampscribe',
  joining: 'keyword.operator.word.ampscribe',
  choice: 'support.constant.property-value.ampscribe',
  colour: 'support.constant.color.ampscribe',
  number: 'constant.numeric.ampscribe',
  unit: 'keyword.other.unit.ampscribe',
  times: 'keyword.operator.times.ampscribe',
  date: 'constant.numeric.date.ampscribe',
  code: 'constant.other.code.ampscribe',
  blank: 'constant.language.blank.ampscribe',
  equals: 'keyword.operator.assignment.ampscribe',
  comma: 'punctuation.separator.clause.ampscribe',
} as const;

const name = '\\p{L}[\\p{L}\\p{M}\\p{N}_-]*';
/** A whole word stands between these. */
const before = '(?<![\\p{L}\\p{M}\\p{N}_:/-])';
const after = '(?![\\p{L}\\p{M}\\p{N}_:/-])';
const number = '[-+\\x{2212}\\x{2013}]?(?:\\d+(?:[.,]\\d+)*|\\.\\d+)(?:/0)?';
/** Small words that join the parts of a clause. */
const joining = ['to', 'and', 'in', 'at', 'with', 'by', 'from', 'for'];

const literally = (text: string) => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&');
const longestFirst = (a: string, b: string) => b.length - a.length || (a < b ? -1 : 1);
const anyOf = (words: Iterable<string>) => [...new Set(words)].sort(longestFirst).map(literally).join('|');
const wholeWord = (words: Iterable<string>) => `${before}(?:${anyOf(words)})${after}`;

export function textMateGrammar(vocabulary: Vocabulary): TextMateGrammar {
  const specs = [...vocabulary.statements.values()];
  const choices = new Set<string>();
  const keywords = new Set<string>();
  for (const { forms } of compile(vocabulary).specs.values()) {
    for (const form of forms) {
      for (const step of form.steps) if (step.is === 'choice') for (const word of step.words) choices.add(word);
      for (const word of clauseWords(form)) keywords.add(word);
    }
  }
  keywords.delete('=');
  for (const word of [...choices, ...joining]) keywords.delete(word);
  const colour = anyOf(vocabulary.colours.keys());
  return {
    name: 'Ampscribe',
    scopeName: 'source.ampscribe',
    fileTypes: ['amps'],
    patterns: [
      { name: scopes.comment, match: '(?:^|(?<=\\s))(#).*$', captures: { 1: { name: scopes.commentSign } } },
      {
        name: scopes.text,
        begin: '["\\x{201C}\\x{201D}\\x{201E}]',
        end: '["\\x{201C}\\x{201D}]|$',
        beginCaptures: { 0: { name: scopes.textBegin } },
        endCaptures: { 0: { name: scopes.textEnd } },
      },
      ...heads(specs, vocabulary.reserved),
      { name: scopes.date, match: `${before}\\d{4}-\\d{2}-\\d{2}(?!\\d)|${before}\\d{1,2}:\\d{2}(?!\\d)` },
      ...quantities(),
      {
        match: `${before}(${name})(:)((?:[\\p{L}\\p{N}_]+(?:-[\\p{L}\\p{N}_]+)*[-+\\x{2212}\\x{2013}]?|[-+\\x{2212}\\x{2013}])?)`,
        captures: { 1: { name: scopes.part }, 2: { name: scopes.colon }, 3: { name: scopes.terminal } },
      },
      { name: scopes.colour, match: `${before}(?:${colour})(?:/(?:${colour}))?${after}` },
      { name: scopes.joining, match: wholeWord(joining) },
      { name: scopes.clause, match: wholeWord(keywords) },
      { name: scopes.choice, match: wholeWord(choices) },
      { name: scopes.code, match: `${before}(?:IP[0-9X]{2}[A-Z]*|(?:M|PG|Pg)\\d+(?:\\.\\d+)?)${after}` },
      { name: scopes.part, match: `${before}${name}${after}` },
      { name: scopes.equals, match: '=' },
      { name: scopes.comma, match: ',' },
    ],
  };
}

/** First words at the margin with the names they declare: an indented one is a mistake, and looks like none. */
function heads(
  specs: readonly { word: string; category: string; head: string }[],
  reserved: ReadonlySet<string>,
): Pattern[] {
  const words = (category: string, named: boolean) =>
    anyOf(
      specs
        .filter((spec) => spec.category === category && (spec.head !== 'none') === named && spec.word !== 'stock')
        .map(({ word }) => word),
    );
  const declared = `(?!(?:${anyOf(reserved)})${after})${name}`;
  const names: Pattern[] = [
    { name: scopes.joining, match: `${before}and${after}` },
    { name: scopes.declared, match: `${before}${name}` },
  ];
  const named = (category: string, scope: string): Pattern => ({
    match: `^(${words(category, true)})${after}(?:\\s+(${declared}(?:\\s+and\\s+${declared})*))?`,
    captures: { 1: { name: scope }, 2: { patterns: names } },
  });
  return [
    {
      match: `^(stock)${after}(?:\\s+(${declared})(?:\\s+("[^"]*"))?(?:\\s+(${anyOf(specs.filter(({ category }) => category === 'kind').map(({ word }) => word))})${after})?)?`,
      captures: {
        1: { name: scopes.statement },
        2: { name: scopes.declared },
        3: { name: scopes.text },
        4: { name: scopes.kind },
      },
    },
    named('statement', scopes.statement),
    named('kind', scopes.kind),
    { match: `^(${words('statement', false)})${after}`, captures: { 1: { name: scopes.statement } } },
  ];
}

function quantities(): Pattern[] {
  const spelled = anyOf(units.flatMap(({ symbol, accepted }) => [symbol, ...accepted]));
  const pair: Captures = { 1: { name: scopes.number }, 2: { name: scopes.unit } };
  return [
    {
      match: `${before}(\\d+)[^\\S\\n]*([x×X])(?=[\\d?#.]|M\\d|${after})`,
      captures: { 1: { name: scopes.number }, 2: { name: scopes.times } },
    },
    {
      match: `(?<![\\p{L}\\p{M}\\p{N}_:/])(${number}|\\?)[^\\S\\n]*(${spelled})(?![\\p{L}\\p{M}\\p{N}_:]|[-/]\\p{L})`,
      captures: { 1: { name: scopes.number }, 2: { name: scopes.unit } },
    },
    // Directly behind a number a quote means inches and opens no text.
    { match: `${before}(${number})(["'″′])`, captures: pair },
    { name: scopes.number, match: `(?<![\\p{L}\\p{M}\\p{N}_:/])${number}(?![\\p{L}_])` },
    { name: scopes.blank, match: '\\?' },
  ];
}
