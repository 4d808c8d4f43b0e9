/**
 * What the statements around make likely: parts are written in rows, so the clause that comes next in the statement before, and
 * what is said there of place, make and stock, most likely come here too. It decides an order, below what the electrics do.
 */
import { countBefore } from '../../../grammar/expected.ts';
import type { Expected } from '../../../grammar/forms.ts';
import { parseDocument } from '../../../grammar/parse.ts';
import type { ClauseNode, ShapedPlaced, ShapedStatement } from '../../../grammar/shaped.ts';
import type { ClauseSpec, StatementSpec } from '../../../grammar/vocabulary.ts';
import { vocabulary } from '../../kinds/vocabulary.ts';
import type { Context } from './context.ts';

type Slot = Expected & { is: 'slot' };

/** So far back a row of parts goes, and so many of one kind tell what is usual. */
const farthest = 120;
const mostAlike = 4;

/** Statements around the pointer, nearest first: those before it, and where there are none those behind. */
function around({ analysis, at }: Context): readonly ShapedPlaced[] {
  const { statements } = analysis.tree;
  const here = countBefore(statements, at.statement?.offset ?? at.replace.start);
  const before = statements.slice(Math.max(0, here - farthest), here).reverse();
  const behind = statements.slice(here, here + farthest).filter((one) => one !== at.statement);
  return [...before, ...behind];
}

const known = new WeakMap<Context['at'], { readonly around: readonly ShapedPlaced[]; readonly alike: Alike }>();
type Alike = readonly ShapedStatement[];

function neighbours(context: Context) {
  let found = known.get(context.at);
  if (found === undefined) {
    const all = around(context);
    const word = context.at.spec?.spec.word;
    const stocked = context.at.statement?.shaped.wrapper !== undefined;
    const alike = all
      .filter(({ shaped }) => shaped.spec?.word === word && (shaped.wrapper !== undefined) === stocked)
      .slice(0, mostAlike)
      .map(({ shaped }) => shaped);
    found = { around: all, alike };
    known.set(context.at, found);
  }
  return found;
}

const examples = new WeakMap<StatementSpec, ShapedStatement | undefined>();

/** How the reference writes such a statement: what a person sees before there is another. */
function exampleOf(spec: StatementSpec): ShapedStatement | undefined {
  if (!examples.has(spec)) examples.set(spec, parseDocument(spec.example, vocabulary).statements[0]?.shaped);
  return examples.get(spec);
}

/** A place in the order of clauses; less comes first. */
export function clauseRank(context: Context): (clause: ClauseSpec) => number {
  const { at } = context;
  const spec = at.spec?.spec;
  if (spec === undefined) return () => 0;
  const own = clausesBefore(context);
  const last = own.at(-1)?.spec.id;
  const count = own.filter((one) => one.spec.id === last).length;
  const example = exampleOf(spec);
  const rows = [...neighbours(context).alike, ...(example === undefined ? [] : [example])].map(({ clauses }) => {
    const ids = clauses.map((one) => one.spec.id);
    let from = -1;
    for (let n = 0; n < count && last !== undefined; n++) from = Math.max(from, ids.indexOf(last, from + 1));
    return { ids, from };
  });
  const must = (clause: ClauseSpec) => clause.required === true || clause.oneOf !== undefined;
  const asWritten = (clause: ClauseSpec) => {
    const ranks = rows.map(({ ids, from }, row) => {
      const next = ids.indexOf(clause.id, from + 1);
      if (next >= 0) return row * 100 + next - from;
      const before = ids.indexOf(clause.id);
      if (before < 0) return Number.POSITIVE_INFINITY;
      // What must be said and was passed over comes before all that follows.
      return must(clause) ? 0.9 : row * 100 + 50 + before;
    });
    return Math.min(...ranks, must(clause) ? 99 : rows.length * 100);
  };
  // A run has its size from stock or says it: one comes where the other is usual. Stock there is comes before its first figure.
  const instead = new Map(spec.clauses.filter(({ id }) => id === 'stock' || id === 'size').map((one) => [one.id, one]));
  const [stock, size] = [instead.get('stock'), spec.word === 'run' ? instead.get('size') : undefined];
  const begun = own.length > 0;
  // Where neighbours of any kind say a place or a box, this one stands somewhere too.
  const placed = new Set<string>(
    neighbours(context)
      .around.slice(0, mostAlike)
      .flatMap(({ shaped }) => shaped.clauses.map((one) => one.spec.id))
      .filter((id) => id === 'at' || id === 'in'),
  );
  return (clause) => {
    const rank = placed.has(clause.id) ? Math.min(asWritten(clause), 98) : asWritten(clause);
    if (clause === stock && !begun) return Math.min(rank, isWrittenAlike(context, clause) ? rank : 0.5);
    const other = clause === size && !begun ? stock : undefined;
    return other === undefined ? rank : Math.min(rank, asWritten(other) + 0.5);
  };
}

/** Whether others of the kind are there, and none takes stock. */
function isWrittenAlike(context: Context, { id }: ClauseSpec): boolean {
  const { alike } = neighbours(context);
  return alike.length > 0 && !alike.some(({ clauses }) => clauses.some(({ spec }) => spec.id === id));
}

/** Clauses of the statement in front of the one at the pointer. */
function clausesBefore({ at, segment }: Context): readonly ClauseNode[] {
  const { statement, replace } = at;
  if (statement === undefined) return [];
  const here = replace.start - statement.offset - segment.trimStart().length;
  return statement.shaped.clauses.filter(({ span }) => span.end <= here);
}

/** Of words and values that one clause may say at a place, those that neighbours say. */
export function choiceRank(context: Context): (expected: Expected) => number {
  const said = new Map<string, readonly ClauseNode[]>();
  return (expected) => {
    const { id } = expected.clause;
    let clauses = said.get(id);
    if (clauses === undefined) {
      clauses = neighbours(context).alike.flatMap((one) => one.clauses.filter(({ spec }) => spec.id === id));
      said.set(id, clauses);
    }
    const found = clauses.findIndex(({ values }) =>
      expected.is === 'slot'
        ? values.some(({ slot }) => slot === expected.slot)
        : values.some(({ slot, atom }) => slot === expected.slot && atom.text === expected.word),
    );
    // Several of one are rarer than one; an entry that is declared is there to be used.
    const types = expected.is === 'slot' ? expected.types : [];
    const rare = types.includes('times') ? 1 : types.includes('name<entry>') ? -1 : 0;
    return found >= 0 ? found : 100 + rare;
  };
}

/** Texts that neighbours say for a slot, the nearest first: places by any neighbour, all else by those of the same kind. */
export function saidNear(context: Context, { clause, slot, types }: Slot): readonly string[] {
  const { around, alike } = neighbours(context);
  const isPlace = types.includes('name<place>');
  const rows = isPlace ? around.map(({ shaped }) => shaped) : alike;
  const said = new Set<string>();
  for (const { node, clauses } of rows) {
    for (const { spec, values } of clauses)
      for (const { slot: its, type, span } of values)
        if (spec.id === clause.id && (isPlace ? type === 'name<place>' : its === slot))
          said.add(node.text.slice(span.start, span.end));
    if (said.size >= mostAlike) break;
  }
  return [...said];
}

/** The offers that neighbours say first, in the order of nearness. */
export function usualFirst<T extends { readonly label: string }>(
  offers: readonly T[],
  said: readonly string[],
  first?: string,
): T[] {
  if (said.length === 0) return [...offers];
  const plain = (text: string) => text.replaceAll(/\s/gu, '');
  const order = new Map(said.map((text, index) => [plain(text), index]));
  const rank = ({ label }: T) => (label === first ? -1 : (order.get(plain(label)) ?? order.size));
  return [...offers].sort((a, b) => rank(a) - rank(b));
}
