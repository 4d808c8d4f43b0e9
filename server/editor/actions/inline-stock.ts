/** What a stock says, written out where it is taken; nothing electrical changes. */
import type { ClauseNode, ShapedPlaced } from '../../../grammar/shaped.ts';
import type { Analysis } from '../../analysis.ts';
import type { Fact, Facts } from '../../model/model.ts';
import type { Edit } from '../../rules/rule.ts';
import { overlaps } from '../ranges.ts';
import { type Asked, inlineStockKind, type Offered } from './offered.ts';
import { type Change, tidied } from './patched.ts';
import { changesOf, type Piece, segmentsOf, sheetOf, withBehind, withClauses, wordsOf } from './sheet.ts';
import { isSound, rewritten, statementAt } from './statements.ts';

interface Taker {
  readonly statement: ShapedPlaced;
  readonly taking: ClauseNode;
  readonly stock: string;
  readonly facts: Facts;
}

export function inlineStock(asked: Asked): Offered[] {
  const { analysis, span } = asked;
  const here = statementAt(asked);
  if (here === undefined) return [];
  const taker = takerOf(analysis, here);
  const offers: Offered[] = [];
  if (taker !== undefined && overlaps(absolute(here, taker.taking), span))
    offers.push({
      title: `Write ${taker.stock} out here: ${sayable(taker).map(words).join(', ')}`,
      kind: inlineStockKind,
      edits: () => tidied(analysis, writtenOut(taker)),
    });
  return [...offers, ...everywhere(analysis, here)];
}

/** At a stock of this file: at all that take it, and its own line goes. Not where another file might take it too. */
function everywhere(analysis: Analysis, here: ShapedPlaced): Offered[] {
  const { node, shaped, notes } = here;
  const name = node.names[0]?.value;
  if (shaped.wrapper?.word !== 'stock' || name === undefined || node.names.length > 1 || !isSound(here)) return [];
  // Only a spec of its own has a system; any other file may be one that several specs use.
  if (analysis.model.system.origin?.file.uri !== analysis.uri) return [];
  const named = analysis.model.usesOf(name).filter(({ target }) => target === 'stock');
  const uses = named.filter(({ declaration }) => !declaration);
  // Of two with one name neither can go by itself.
  if (named.length - uses.length > 1) return [];
  const takers = analysis.tree.statements
    .map((statement) => takerOf(analysis, statement))
    .filter((taker) => taker?.stock === name);
  if (takers.length === 0 || takers.length !== uses.length) return [];
  // What is noted beside a stock, or only it can say, has no other place.
  const silent = (taker: Taker) =>
    sayable(taker).length < taker.facts.facts.filter((one) => one.fromStock !== undefined).length;
  const keeps =
    notes !== '' || node.comments.length > 0 || takers.some((taker) => taker !== undefined && silent(taker));
  return [
    {
      title: `Write ${name} out where it is taken (${takers.length})${keeps ? '' : ', and take it out of stock'}`,
      kind: inlineStockKind,
      edits: (): readonly Edit[] =>
        tidied(analysis, [
          ...(keeps ? [] : [rewritten(here, '')]),
          ...takers.flatMap((taker) => (taker === undefined ? [] : writtenOut(taker))),
        ]),
    },
  ];
}

function takerOf({ model }: Analysis, statement: ShapedPlaced): Taker | undefined {
  const { node, shaped } = statement;
  const taking = shaped.clauses.find(({ spec }) => spec.id === 'stock');
  const stock = taking?.values[0]?.atom.text;
  const name = node.names[0]?.value;
  if (
    taking === undefined ||
    stock === undefined ||
    name === undefined ||
    !model.stocks.has(stock) ||
    !isSound(statement)
  )
    return undefined;
  const taker =
    shaped.wrapper?.word === 'stock' ? model.stocks.get(name) : (model.runs.get(name) ?? model.parts.get(name));
  if (taker?.origin.statement !== statement) return undefined;
  const { facts } = taker;
  // One that could not be taken, being of another kind, says nothing here.
  return facts.facts.some(({ fromStock }) => fromStock === stock) ? { statement, taking, stock, facts } : undefined;
}

/** What it takes and can say itself: what a cable costs is for its stock alone to say. */
function sayable({ statement, facts }: Taker): Fact[] {
  const own = new Set(statement.shaped.spec?.clauses.map(({ id }) => id));
  return facts.facts.filter(({ fromStock, clause }) => fromStock !== undefined && own.has(clause.spec.id));
}

const words = ({ origin, clause }: Fact) => wordsOf(origin.statement, clause);

/** The stock's words in place of its name: its size there, before a colour, and the rest behind. */
function writtenOut(taker: Taker): Change[] {
  const { statement, taking } = taker;
  const said = sayable(taker);
  const isSize = ({ clause }: Fact) => clause.spec.joins?.includes('colour') === true;
  const sheet = sheetOf(statement);
  const beside = segmentsOf(sheet)
    .find((pieces) => pieces.some(({ clause }) => clause === taking))
    ?.find(({ clause }) => clause !== taking)?.clause;
  const size = said.filter(isSize).map(words);
  const rest = said.filter((fact) => !isSize(fact)).map(words);
  // Where nothing stands beside it, all of it is one place.
  const here = beside === undefined ? [...size, ...rest] : size;
  const pieces: readonly Piece[] = here.length === 0 ? [] : [{ clause: taking, text: here.join(', ') }];
  const placed = withClauses(sheet, (piece) => (piece.clause === taking ? pieces : piece));
  return changesOf(statement, beside === undefined ? placed : withBehind(placed, beside, rest));
}

function absolute({ offset }: ShapedPlaced, { span }: ClauseNode) {
  return { start: offset + span.start, end: offset + span.end };
}
