/** One stock for what several runs say alike of their cable, or the one that says it already; nothing electrical changes. */
import type { ClauseNode, ShapedPlaced } from '../../../grammar/shaped.ts';
import type { Analysis } from '../../analysis.ts';
import { cableClauses } from '../../kinds/cable-clauses.ts';
import type { ConductorSize, Run, Stock } from '../../model/model.ts';
import type { Edit } from '../../rules/rule.ts';
import { FreshNames } from './fresh-names.ts';
import { type Asked, extractStockKind, type Offered } from './offered.ts';
import { type Change, tidied } from './patched.ts';
import { changesOf, type Piece, sheetOf, withClauses, wordsOf } from './sheet.ts';
import { above, behind, runOf, statementAt } from './statements.ts';

interface Alike {
  readonly run: Run;
  readonly statement: ShapedPlaced;
  /** What it says of its cable, its size first. */
  readonly words: readonly string[];
}

const ofCable: ReadonlySet<string> = new Set(cableClauses.map(({ id }) => id));
/** What only a stock can say, and how it takes from another. */
const ofOrder: ReadonlySet<string> = new Set(['stock', 'reference', 'price']);
const known = new WeakMap<Analysis, ReadonlyMap<string, readonly Alike[]>>();

/** Runs of this file that say the same of their cable and take no stock, by what they say. */
function alikes(analysis: Analysis): ReadonlyMap<string, readonly Alike[]> {
  let groups = known.get(analysis);
  if (groups === undefined) {
    const found = new Map<string, Alike[]>();
    for (const statement of analysis.tree.statements) {
      const one = alikeOf(analysis, statement);
      if (one === undefined) continue;
      const key = keyOf(one);
      const group = found.get(key);
      if (group === undefined) found.set(key, [one]);
      else group.push(one);
    }
    groups = found;
    known.set(analysis, groups);
  }
  return groups;
}

const keyOf = ({ words: [size = '', ...others] }: Pick<Alike, 'words'>) => [size, ...[...others].sort()].join(', ');

function alikeOf(analysis: Analysis, statement: ShapedPlaced): Alike | undefined {
  const run = runOf(analysis, statement);
  // A blank in stock is one question for all runs; each of these asks its own.
  if (run?.size === undefined || run.facts.says('stock')) return undefined;
  const isSize = ({ spec }: ClauseNode) => spec.id === 'size';
  const clauses = statement.shaped.clauses.filter(({ spec }) => ofCable.has(spec.id));
  const ordered = [...clauses.filter(isSize), ...clauses.filter((clause) => !isSize(clause))];
  return { run, statement, words: ordered.map((clause) => wordsOf(statement, clause)) };
}

export function extractStock(asked: Asked): Offered[] {
  const { analysis } = asked;
  const here = statementAt(asked);
  const own = here === undefined ? undefined : alikeOf(analysis, here);
  const group = own === undefined ? [] : (alikes(analysis).get(keyOf(own)) ?? []);
  const size = own?.run.size;
  if (own === undefined || size === undefined) return [];
  const shelved = inStock(analysis, own);
  if (shelved !== undefined)
    return [
      {
        title: `Take ${own.words.join(', ')} from stock ${shelved}, ${group.length === 1 ? `for ${own.run.name}` : `for ${group.length} runs`}`,
        kind: extractStockKind,
        edits: () => tidied(analysis, taken(group, shelved)),
      },
    ];
  if (group.length < 2) return [];
  const name = new FreshNames(asked).from(nameFor(size, own.run));
  return [
    {
      title: `Put ${own.words.join(', ')} in stock as ${name}, for ${group.length} runs`,
      kind: extractStockKind,
      edits: () => extracted(analysis, group, own.words, name),
    },
  ];
}

/** A stock, declared once, that says just this of a cable, whatever it costs. */
function inStock({ model }: Analysis, own: Alike): string | undefined {
  const isDeclaredOnce = (name: string) => model.usesOf(name).filter(({ declaration }) => declaration).length === 1;
  const says = ({ facts }: Stock) => {
    const said = facts.facts.filter(({ clause }) => !ofOrder.has(clause.spec.id));
    const ordered = [
      ...said.filter(({ clause }) => clause.spec.id === 'size'),
      ...said.filter(({ clause }) => clause.spec.id !== 'size'),
    ];
    return keyOf({ words: ordered.map(({ origin, clause }) => wordsOf(origin.statement, clause)) });
  };
  return [...model.stocks.values()].find(
    (stock) => stock.kindWord === 'cable' && says(stock) === keyOf(own) && isDeclaredOnce(stock.name),
  )?.name;
}

/** `cable-6`, `cable-2x1-5`, `cable-10-awg`: a name has no points and no strokes. */
function nameFor(size: ConductorSize, { facts }: Run): string {
  const cores = facts.number('size', 'cores');
  const words = size.written.replace(' mm²', '').replace(' AWG', '-awg').replaceAll(/[./]/gu, '-');
  return `cable-${cores === undefined ? '' : `${cores}x`}${words}`;
}

function extracted(
  analysis: Analysis,
  group: readonly Alike[],
  words: readonly string[],
  name: string,
): readonly Edit[] {
  const stock = [`stock ${name}  cable ${words.join(', ')}`];
  const shelf = analysis.tree.statements.findLast(({ shaped }) => shaped.wrapper?.word === 'stock');
  const first = (group[0] as Alike).statement;
  return tidied(analysis, [
    shelf !== undefined && shelf.offset < first.offset
      ? behind(analysis, shelf, stock)
      : above(analysis, first, [...stock, '']),
    ...taken(group, name),
  ]);
}

/** The name of a stock in place of a run's size, and nothing of all else that the stock says. */
function taken(group: readonly Alike[], name: string): Change[] {
  const inStead = (piece: Piece): Piece | readonly Piece[] => {
    const id = piece.clause?.spec.id;
    if (id === undefined || !ofCable.has(id)) return piece;
    return id === 'size' ? { clause: undefined, text: `= ${name}` } : [];
  };
  return group.flatMap(({ statement }) => changesOf(statement, withClauses(sheetOf(statement), inStead)));
}
