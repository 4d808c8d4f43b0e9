/** First words: statements and kinds of part, with their names and what they must say left open. */
import type { ShapedPlaced } from '../../../grammar/shaped.ts';
import type { ClauseSpec, StatementSpec } from '../../../grammar/vocabulary.ts';
import { allKinds, allStatements } from '../../kinds/all.ts';
import { isStockOnly } from '../../kinds/vocabulary.ts';
import { statementHover } from '../hover/words.ts';
import type { Block } from '../markup.ts';
import type { Context } from './context.ts';
import { exampleName, nextName } from './new-names.ts';
import { blanksAsPlaceholders, kinds, leftOpen, type Offer, snippetText } from './offers.ts';
import { kindsOf, undeclared, undeclaredFor } from './undeclared.ts';

/** As vans are fitted: runs most, then what most vans have several of; what a spec says once or rarely comes last. */
const usualOrder =
  'run load fuse switch battery busbar isolator fusebox panel controller relay charger inverter socket breaker chassis splice';
const rareOrder = 'case place stock expect enclosure entry link reading allow use system';
const order = new Map(`${usualOrder} ${rareOrder}`.split(' ').map((word, index) => [word, index]));
const firstRare = order.get('case') ?? 0;

/** What a spec begins with, while it has none of them. */
const beginnings = ['system', 'use', 'place', 'stock', 'battery'];
/** What stands together in rows goes on most likely. */
const rows = 4;

export function statementOffers(context: Context): Offer[] {
  const { files } = context.analysis.model;
  const here = context.at.replace.start;
  const others = (files[0]?.statements ?? []).filter(({ offset }) => offset !== here);
  const before = others.filter(({ offset }) => offset < here).slice(-rows);
  const wordOf = ({ shaped }: ShapedPlaced) => (shaped.wrapper ?? shaped.spec)?.word ?? '';
  const near = [...new Set(before.map(wordOf).reverse())];
  const hasSystem = others.some((one) => wordOf(one) === 'system');
  // The rest of a spec waits for its parts: until there is a run, it is still at its beginning.
  const begun = others.some((one) => wordOf(one) === 'run');
  const asked = new Set(undeclared(context.analysis).flatMap((one) => [...kindsOf(one)]));
  const rank = (word: string) => {
    const row = near.indexOf(word);
    if (row >= 0 && word !== 'system') return row - 100;
    if (asked.has(word)) return (order.get(word) ?? firstRare) - 90;
    const beginning = begun ? -1 : beginnings.indexOf(word);
    if (beginning >= 0) return beginning - 50;
    return order.get(word) ?? firstRare - 0.5;
  };
  return [...allStatements, ...allKinds.filter((kind) => !isStockOnly(kind))]
    .filter(({ word }) => word !== 'system' || !hasSystem)
    .map((spec) => ({ spec, rank: rank(spec.word) }))
    .sort((a, b) => a.rank - b.rank)
    .map(({ spec }) => offer(context, spec));
}

/** What a stock may be of. */
export function kindOffers(): Offer[] {
  const cableFirst = [...allKinds].sort((a, b) => Number(b.word === 'cable') - Number(a.word === 'cable'));
  return cableFirst.map((kind) => ({
    label: kind.word,
    kind: kinds.Class,
    detail: kind.title,
    documentation: documentation(kind),
  }));
}

function offer(context: Context, spec: StatementSpec): Offer {
  const base: Offer = {
    label: spec.word,
    kind: spec.category === 'kind' ? kinds.Class : kinds.Keyword,
    detail: spec.title,
    documentation: documentation(spec),
  };
  // Before words that stand there already, or without placeholders, the word alone is right.
  return context.lastOnLine && context.options.snippets ? { ...base, snippet: snippetOf(context, spec) } : base;
}

const documented = new Map<string, readonly Block[]>();

function documentation(spec: StatementSpec): readonly Block[] {
  let blocks = documented.get(spec.word);
  if (blocks === undefined) {
    blocks = statementHover(spec);
    documented.set(spec.word, blocks);
  }
  return blocks;
}

/** What follows the word of a statement; `%` is its name. */
const statementBodies: Readonly<Record<string, string>> = {
  // biome-ignore-start lint/suspicious/noTemplateCurlyInString: placeholders of snippets
  allow: '$1 "$2"',
  case: '${1:name} $0',
  expect: '$0',
  link: '$0',
  place: '${1:PLACE} ${2:?} °C',
  reading: '$0',
  run: '% ${2:?} mm² ${3:red}, ${4:?} m, ${5:FROM} to ${6:TO}',
  stock: '${1:name} ${2:cable} $0',
  system: '"${1:Title}" ${2:12} V',
  use: '"$1"',
  // biome-ignore-end lint/suspicious/noTemplateCurlyInString: placeholders of snippets
};

function snippetOf({ analysis, at }: Context, spec: StatementSpec): string {
  const [used] = undeclaredFor(analysis, spec);
  const name =
    used?.name ?? nextName(analysis, spec.word, spec.example, at.replace.start) ?? exampleName(spec.word, spec.example);
  const named = `\${1:${snippetText(name ?? 'NAME')}}`;
  const body = statementBodies[spec.word];
  if (body !== undefined) return `${spec.word} ${body.replace('%', named)}`;
  let next = 2;
  const said = mustSay(spec).map((clause) => {
    const choice = /^\{[\w-]+=([^}]+)\}$/u.exec(clause.form)?.[1];
    if (choice !== undefined) return `\${${next++}|${choice.split('|').map(snippetText).join(',')}|}`;
    const open = blanksAsPlaceholders(leftOpen(clause.example), next);
    next = open.next;
    return open.snippet;
  });
  return `${spec.word} ${named}${said.length === 0 ? '' : ` ${said.join(', ')}`}`;
}

/** Clauses that must be said; of several that serve, the first. */
function mustSay({ clauses }: StatementSpec): ClauseSpec[] {
  const groups = new Set<string>();
  return clauses.filter(({ required, oneOf }) => {
    if (oneOf === undefined) return required === true;
    if (groups.has(oneOf)) return false;
    groups.add(oneOf);
    return true;
  });
}
