/**
 * The other core of a run: the return of a feed or the feed of a return, as a run of its own beside it or as the second core
 * of the same cable. It joins the other pole of what the run joins.
 */
import type { ShapedPlaced } from '../../../grammar/shaped.ts';
import type { Analysis } from '../../analysis.ts';
import type { Sign } from '../../answers/polarity.ts';
import type { Part, Run, Stock, Terminal } from '../../model/model.ts';
import { FreshNames } from './fresh-names.ts';
import { limitsTold } from './limits-after.ts';
import { type Asked, type Offered, otherCoreKind } from './offered.ts';
import { tidied } from './patched.ts';
import { changesOf, type Piece, rowTexts, sheetOf, withClauses, withRows, wordsOf } from './sheet.ts';
import { behind, newlineOf, runOf, statementAt } from './statements.ts';

interface Wanted {
  readonly run: Run;
  readonly statement: ShapedPlaced;
  readonly sign: Sign;
  readonly colour: string;
  readonly from: string;
  readonly to: string;
}

export function otherCore(asked: Asked): Offered[] {
  const { analysis } = asked;
  const statement = statementAt(asked);
  const run = runOf(analysis, statement);
  const wanted = run === undefined || statement === undefined ? undefined : wantedFor(asked, run, statement);
  if (wanted === undefined) return [];
  return [asRun(asked, wanted), ...asCore(analysis, wanted)];
}

function wantedFor({ analysis, users }: Asked, run: Run, statement: ShapedPlaced): Wanted | undefined {
  const [core, ...more] = run.cores;
  if (
    core?.from === undefined ||
    core.to === undefined ||
    more.length > 0 ||
    run.facts.number('size', 'cores') !== undefined
  )
    return undefined;
  const { from, to } = core;
  const { answers } = analysis;
  const poles = answers.polarities;
  const sign = poles.of(from) ?? poles.of(to) ?? from.spec.polarity ?? to.spec.polarity;
  const [near, far] = [opposite(analysis, from), opposite(analysis, to)];
  const isFree = (terminal: Terminal | undefined) =>
    terminal !== undefined &&
    [analysis, ...users].every((one) =>
      (one.answers.network.at.get(terminal.id) ?? []).every((edge) => edge.is === 'contact'),
    );
  if (sign === undefined || core.colour === 'green/yellow' || !(isFree(near) || isFree(far))) return undefined;
  // A load whose other pole is wired has its way back, though a switch on the way to it has a pole to spare.
  if ([near, far].some((end) => end?.part.kind.family === 'load' && !isFree(end))) return undefined;
  const other: Sign = sign === '+' ? '-' : '+';
  const [begins, ends] = [near ?? nodeOf(analysis, from.part, other), far ?? nodeOf(analysis, to.part, other)];
  if (begins === undefined || ends === undefined || begins === ends) return undefined;
  // What is on this pole already, by a switch or by mistake, is not the other one; and no plus is taken before its fuse.
  if ([begins, ends].some((end) => (poles.of(end) ?? other) !== other)) return undefined;
  if (other === '+' && [begins, ends].some(({ part }) => part.kind.family === 'source')) return undefined;
  return { run, statement, sign: other, colour: colourFor(core.colour, other), from: begins.id, to: ends.id };
}

/** The other pole of the same side of the same part; of a switch the same side of the next pole. */
function opposite({ model }: Analysis, { part, spec }: Terminal): Terminal | undefined {
  const named = (name: string | undefined) => part.terminals.find((one) => one.spec.name === name);
  if (spec.polarity !== undefined)
    return part.terminals.find(
      (one) => one.spec.polarity !== undefined && one.spec.polarity !== spec.polarity && one.spec.side === spec.side,
    );
  const pole = part.contacts.findIndex(({ from, to }) => from === spec.name || to === spec.name);
  const contact = part.contacts[pole];
  // Poles that are linked are one pole.
  if (contact?.operated !== 'hand' || !/^\d+$/u.test(spec.name) || model.bars.some((bar) => bar.part === part))
    return undefined;
  const next = part.contacts[pole % 2 === 0 ? pole + 1 : pole - 1];
  return named(contact.from === spec.name ? next?.from : next?.to);
}

/** Where the other pole is to be had beside a part that has none itself: in the same box, at the same place first. */
function nodeOf({ answers, model }: Analysis, beside: Part, sign: Sign): Terminal | undefined {
  const poles = answers.polarities;
  const nodes = [...model.parts.values()]
    .filter(({ kind, enclosure }) => (kind.oneNode || kind.word === 'fusebox') && enclosure === beside.enclosure)
    .flatMap(({ terminals }) => terminals.slice(0, 1).concat(terminals.filter(({ spec }) => spec.name === 'neg')))
    .filter((terminal) => terminal.part.kind.oneNode || terminal.spec.name === 'neg')
    .filter((terminal) => poles.of(terminal) === sign);
  const rank = ({ part }: Terminal) =>
    (part === beside ? 0 : 4) + (part.location === beside.location ? 0 : 2) + (part.kind.word === 'busbar' ? 0 : 1);
  return [...nodes].sort((a, b) => rank(a) - rank(b))[0];
}

/** Black goes with red and blue with brown; else what the pole usually has. */
function colourFor(colour: string | undefined, sign: Sign): string {
  if (sign === '+') return colour === 'blue' ? 'brown' : 'red';
  return colour === 'brown' ? 'blue' : 'black';
}

function asRun(asked: Asked, { run, statement, sign, colour, from, to }: Wanted): Offered {
  const { analysis } = asked;
  const name = new FreshNames(asked).after(run.name);
  return {
    title: `Lay the ${sign === '+' ? 'positive' : 'negative'} beside ${run.name}: run ${name}, ${colour}, ${from} to ${to}${limitsTold(analysis, run)}`,
    kind: otherCoreKind,
    edits: () => {
      const said = run.facts.fact('colour');
      const sheet = withClauses(sheetOf(statement), (piece): Piece => {
        switch (piece.clause?.spec.id) {
          case 'colour':
            return { ...piece, text: colour };
          case 'ends':
            // A colour that comes with the stock is said anew.
            return {
              ...piece,
              text: `${said?.fromStock === undefined && said !== undefined ? '' : `${colour} `}${from} to ${to}`,
            };
          default:
            return piece;
        }
      });
      const [head = '', ...rows] = rowTexts(sheet);
      return tidied(analysis, [
        behind(analysis, statement, [
          `run ${name}${head === '' ? '' : `  ${head}`}`,
          ...rows.map((row) => `    ${row}`),
        ]),
      ]);
    },
  };
}

function asCore(analysis: Analysis, { run, statement, colour, from, to }: Wanted): Offered[] {
  const cable = cableOfTwo(analysis, run, statement);
  const said = run.cores[0]?.colour;
  const ends = statement.shaped.clauses.find(({ spec }) => spec.id === 'ends');
  if (cable === undefined || ends === undefined) return [];
  const first = said ?? (colour === 'red' ? 'black' : 'red');
  const rows = [`${first} ${wordsOf(statement, ends)}`, `${colour} ${from} to ${to}`];
  const od = run.facts.fact('od')?.fromStock === undefined && run.facts.says('od') ? '; correct its od too' : '';
  return [
    {
      title: `Make ${run.name} a cable of two cores, ${cable.told}: ${colour} core from ${from} to ${to}; two cores warm each other${od}`,
      kind: otherCoreKind,
      edits: () => {
        const sheet = withClauses(sheetOf(statement), (piece) => {
          switch (piece.clause?.spec.id) {
            case 'colour':
            case 'core':
            case 'ends':
              return [];
            case cable.instead:
              return { ...piece, text: cable.words };
            default:
              return piece;
          }
        });
        return tidied(analysis, changesOf(statement, withRows(sheet, rows, newlineOf(analysis))));
      },
    },
  ];
}

/** Two cores of the run's own size; of one from stock the stock that has two and is like it in all else. */
function cableOfTwo(
  { model }: Analysis,
  run: Run,
  statement: ShapedPlaced,
): { words: string; told: string; instead: string } | undefined {
  const size = run.facts.fact('size');
  if (size === undefined || run.size === undefined) return undefined;
  if (size.fromStock === undefined) {
    const words = `2 x ${wordsOf(statement, size.clause)}`;
    return { words, told: words, instead: 'size' };
  }
  const own = model.stocks.get(size.fromStock);
  if (own === undefined) return undefined;
  const wanted = likeness(own);
  const found = [...model.stocks.values()].find(
    (stock) => stock.kindWord === 'cable' && stock.facts.number('size', 'cores') === 2 && likeness(stock) === wanted,
  );
  return found === undefined
    ? undefined
    : { words: `= ${found.name}`, told: `${found.name} from stock`, instead: 'stock' };
}

/** What counts electrically of a stocked cable, but for its number of cores. */
function likeness({ facts }: Stock): string {
  const apart: ReadonlySet<string> = new Set(['size', 'stock', 'colour', 'od', 'reference', 'price']);
  const others = facts.facts
    .filter(({ clause }) => !apart.has(clause.spec.id))
    .map(({ clause, origin }) => wordsOf(origin.statement, clause));
  return [facts.written('size', 'size'), ...others.sort()].join(', ');
}
