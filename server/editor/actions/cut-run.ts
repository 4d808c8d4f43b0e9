/**
 * A run cut in two, core by core: in the middle or near an end, each wall with the piece that passes it, all else on both.
 * Together the two have the length and the resistance of the whole.
 */
import type { ClauseNode, ShapedPlaced } from '../../../grammar/shaped.ts';
import type { Atom } from '../../../grammar/tree.ts';
import type { Analysis } from '../../analysis.ts';
import type { Core, Location, Part, Run, Terminal } from '../../model/model.ts';
import type { Asked } from './offered.ts';
import type { Change } from './patched.ts';
import {
  changesOf,
  type Piece,
  rowTexts,
  type Sheet,
  sheetOf,
  withBehind,
  withClauses,
  withoutMoved,
  withRows,
  wordsOf,
} from './sheet.ts';
import { newlineOf } from './statements.ts';

/** A run that can be cut, with its two ends as they lie, whichever way its cores are written. */
export interface Cuttable {
  readonly run: Run;
  readonly statement: ShapedPlaced;
  /** Cores that are not spare, with the end of each that lies at the first end of the cable. */
  readonly cores: readonly { readonly core: Core; readonly near: Terminal; readonly far: Terminal }[];
  /** Boxes that its first and its second end stand in. */
  readonly nearBoxes: ReadonlySet<Part>;
  readonly farBoxes: ReadonlySet<Part>;
}

/** Undefined for a run whose ends or length are not known, and for one that others speak of: it would be two then. */
export function cuttable(asked: Asked, run: Run, statement: ShapedPlaced): Cuttable | undefined {
  const { analysis, users } = asked;
  const isSpokenOf = ({ model }: Analysis) =>
    model.usesOf(run.name).some(({ target, declaration }) => target === 'run' && !declaration);
  return run.bunchedRuns.length > 0 || [analysis, ...users].some(isSpokenOf)
    ? undefined
    : endedRun(analysis, run, statement);
}

/** The same of one that others may speak of: for what leaves nearly all of it under its name. */
export function endedRun(analysis: Analysis, run: Run, statement: ShapedPlaced): Cuttable | undefined {
  const { cores, lengthMetres } = run;
  if (lengthMetres === undefined || !(lengthMetres > 0)) return undefined;
  const live = cores.filter(({ spare }) => !spare);
  const ended = live.flatMap((core) => {
    const { from, to } = core;
    if (from === undefined || to === undefined) return [];
    const [near, far] = isBackwards(core, live[0] as Core) ? [to, from] : [from, to];
    return [{ core, near, far }];
  });
  if (ended.length === 0 || ended.length < live.length) return undefined;
  // One of several that share the way is not cut by itself: they would share it no more.
  if (ended.some(({ core, near, far }) => isShared(analysis, core, near, far))) return undefined;
  const boxes = (ends: readonly Terminal[]) => new Set(ends.flatMap(({ part }) => boxesAround(part)));
  return {
    run,
    statement,
    cores: ended,
    nearBoxes: boxes(ended.map(({ near }) => near)),
    farBoxes: boxes(ended.map(({ far }) => far)),
  };
}

/** Another core joins the same two terminals, or such as are one inside their part. */
function isShared({ answers }: Analysis, core: Core, near: Terminal, far: Terminal): boolean {
  const { at } = answers.network;
  const like = (end: Terminal) =>
    end.part.facts.word('common') === 'common'
      ? end.part.terminals.filter(({ spec }) => spec.polarity === end.spec.polarity)
      : [end];
  const fars = new Set(like(far));
  return like(near)
    .flatMap(({ id }) => at.get(id) ?? [])
    .some((edge) => edge.is === 'core' && edge.core !== core && (fars.has(edge.from) || fars.has(edge.to)));
}

/** Written the other way than the first core of its cable: from where that one goes to. */
function isBackwards({ from, to }: Core, first: Core): boolean {
  if (from === undefined || to === undefined || first.from === undefined || first.to === undefined) return false;
  const alike = (a: Terminal, b: Terminal, by: (part: Part) => unknown) =>
    by(a.part) !== undefined && by(a.part) === by(b.part);
  for (const by of [(part: Part) => part, (part: Part) => part.enclosure, (part: Part) => part.location]) {
    const straight = alike(from, first.from, by) || alike(to, first.to, by);
    const crossed = alike(from, first.to, by) || alike(to, first.from, by);
    if (straight !== crossed) return crossed;
  }
  return false;
}

export function boxesAround(part: Part): Part[] {
  const boxes: Part[] = [];
  for (let box = part.enclosure; box !== undefined && !boxes.includes(box); box = box.enclosure) boxes.push(box);
  return boxes;
}

export interface Joint {
  /** What the first half of a core ends at, and where the second begins. */
  readonly near: string;
  readonly far: string;
}

export interface Cut {
  /** Name of the piece that is new: the second, unless that is the one that keeps the run's. */
  readonly name: string;
  readonly keeps?: 'near' | 'far';
  /** How much of the run is before the cut, if not half. */
  readonly share?: number;
  jointOf(core: Core): Joint;
  /** The place that the cut is at. */
  readonly at: Location | undefined;
  /** The box that the cut is in, if it is in one that the run does not end in, and how either half passes its wall. */
  readonly box?: { readonly part: Part; readonly by: string };
  /** Boxes at an end of the run that the cut is in too: the other piece passes their walls. */
  readonly within?: ReadonlySet<Part>;
}

/** The run's own statement made the piece that keeps its name, and the lines of a statement for the other. */
export function halves(analysis: Analysis, cuttable: Cuttable, cut: Cut): { kept: Change[]; other: string[] } {
  const { run, statement } = cuttable;
  const passages = sidesOf(cuttable, cut);
  const newline = newlineOf(analysis);
  const length = statement.shaped.clauses.find(({ spec }) => spec.id === 'length');
  // A lead at an end lies where that does, and the rest where both do.
  const way = cut.share === undefined ? wayOf(cuttable, cut.at) : undefined;
  const half = (side: 'near' | 'far'): Sheet => {
    const whole = sheetOf(statement);
    const placed = length === undefined || way === undefined ? whole : withBehind(whole, length, [way]);
    const sheet = withClauses(placed, (piece) => inHalf(piece, cuttable, cut, side, passages));
    const passes = [...passages].some(([clause, where]) => where === side && boxOf(run, clause) === cut.box?.part);
    const more = cut.box === undefined || passes ? [] : [`enters ${cut.box.part.name} ${cut.box.by}`];
    return withRows(sheet, more, newline);
  };
  const [kept, other] = cut.keeps === 'far' ? [half('far'), half('near')] : [half('near'), half('far')];
  const [head = '', ...rows] = rowTexts(other, kept);
  return {
    kept: changesOf(statement, withoutMoved(kept, other)),
    other: [`run ${cut.name}${head === '' ? '' : `  ${head}`}`, ...rows.map((row) => `    ${row}`)],
  };
}

/** Of the places that the ends of a run are at the one that counts for it, where it does not say its way: the warmest. */
export function warmestEnd({ cores }: Cuttable): Location | undefined {
  const places = cores
    .flatMap(({ near, far }) => [near.part.location, far.part.location])
    .filter((one) => one !== undefined);
  const warmth = ({ celsius, engineSpace }: Location) => (celsius ?? 0) + (engineSpace ? 0.5 : 0);
  return places.reduce<Location | undefined>(
    (best, one) => (best === undefined || warmth(one) > warmth(best) ? one : best),
    undefined,
  );
}

/**
 * A run that does not say where it lies does where its ends are. Where one of its halves would not reach the warmest of
 * these any more, both say the whole way.
 */
export function newWay(cuttable: Cuttable, at: Location | undefined): readonly Location[] {
  const { run, cores } = cuttable;
  const warmest = warmestEnd(cuttable);
  if (run.along.length > 0 || warmest === undefined || at === warmest) return [];
  const reaches = (ends: readonly Terminal[]) => ends.some(({ part }) => part.location === warmest);
  if (reaches(cores.map(({ near }) => near)) && reaches(cores.map(({ far }) => far))) return [];
  const places = cores.flatMap(({ near, far }) => [near.part.location, far.part.location]);
  return [...new Set(places.filter((place) => place !== undefined))];
}

function wayOf(cuttable: Cuttable, at: Location | undefined): string | undefined {
  const way = newWay(cuttable, at);
  return way.length === 0 ? undefined : `along ${way.map(({ name }) => name).join(' and ')}`;
}

type Sides = ReadonlyMap<ClauseNode, 'near' | 'far'>;

function boxOf(run: Run, clause: ClauseNode): Part | undefined {
  const at = run.facts.all('enters').findIndex((fact) => fact.clause === clause);
  return run.passages[at]?.enclosure;
}

/** Which half passes which wall: that of the end in the box; of a box that is passed twice first the one, then the other. */
function sidesOf({ run, nearBoxes, farBoxes }: Cuttable, { box: at, within = new Set() }: Cut): Sides {
  const cutIn = at?.part;
  const sides = new Map<ClauseNode, 'near' | 'far'>();
  const passed = new Set<Part>();
  for (const { clause } of run.facts.all('enters')) {
    const box = boxOf(run, clause);
    const [near, far] = box === undefined ? [false, false] : [nearBoxes.has(box), farBoxes.has(box)];
    const again = box !== undefined && passed.has(box) && (box === cutIn || near === far);
    const other = box !== undefined && within.has(box) && near !== far;
    sides.set(clause, (again || (far && !near)) !== other ? 'far' : 'near');
    if (box !== undefined) passed.add(box);
  }
  return sides;
}

function inHalf(
  piece: Piece,
  cuttable: Cuttable,
  cut: Cut,
  side: 'near' | 'far',
  passages: Sides,
): Piece | readonly Piece[] {
  const { clause } = piece;
  const { statement, cores } = cuttable;
  const { jointOf, share = 0.5 } = cut;
  switch (clause?.spec.id) {
    case 'along': {
      const way = cut.share === undefined ? undefined : wayAtEnd(clause, cuttable, cut.share, side);
      if (way !== undefined) return { clause, text: way };
      return { clause, text: wordsOf(statement, clause, (atom) => partOf(atom, share, side)) };
    }
    case 'length':
      return { clause, text: wordsOf(statement, clause, (atom) => partOf(atom, share, side)) };
    case 'enters':
      return passages.get(clause) === side ? piece : [];
    case 'ends': {
      const at = clause.span.start + statement.offset;
      const found = cores.find(({ core }) => core.fromPlace?.span.start === at);
      if (found === undefined) return piece;
      const { core, near } = found;
      const joint = jointOf(core)[side];
      // The end that stays keeps its words, a stud's number among them.
      const [from = '', to = ''] = clause.values.map(({ atom }) => atom.text);
      const keepsFrom = (near === core.from) === (side === 'near');
      return { clause, text: keepsFrom ? `${from} to ${joint}` : `${joint} to ${to}` };
    }
    default:
      return piece;
  }
}

/**
 * Of a cut near an end the way of either piece, where the lengths of all its places are said and the short piece lies in that of
 * its end: `along SHED 0.1 m`, and `along SHED 1.4 m and LOFT 1 m`. Undefined elsewhere: then each has its share of all.
 */
function wayAtEnd(clause: ClauseNode, cuttable: Cuttable, share: number, side: 'near' | 'far'): string | undefined {
  const { run, cores } = cuttable;
  const lengths = clause.values.flatMap(({ atom }) =>
    atom.kind === 'quantity' && atom.value !== undefined ? [{ value: atom.value, unit: atom.unit }] : [],
  );
  const places = run.along.map(({ location }) => location);
  const [first] = lengths;
  if (first === undefined || lengths.length !== places.length || lengths.some(({ unit }) => unit !== first.unit))
    return undefined;
  const short = share < 0.5 ? 'near' : 'far';
  const end = short === 'near' ? cores[0]?.near.part.location : cores[0]?.far.part.location;
  const ends = [0, places.length - 1].filter((at) => places[at] !== undefined && places[at] === end);
  const [at] = ends;
  const whole = lengths.reduce((sum, { value }) => sum + value, 0);
  const lead = Number((whole * Math.min(share, 1 - share)).toPrecision(6));
  const own = at === undefined ? undefined : lengths[at]?.value;
  if (at === undefined || own === undefined || new Set(ends).size > 1 || !(lead < own)) return undefined;
  const told = (place: Location | undefined, value: number) =>
    `${place?.name} ${Number(value.toPrecision(12))} ${first.unit}`;
  if (side === short) return `along ${told(end, lead)}`;
  return `along ${places.map((place, i) => told(place, (lengths[i]?.value ?? 0) - (i === at ? lead : 0))).join(' and ')}`;
}

/** What one piece has of a length; rounded so that both together are the whole to the digit. */
function partOf(atom: Atom, share: number, side: 'near' | 'far'): string | undefined {
  if (atom.kind !== 'quantity' || atom.dimension !== 'length' || atom.value === undefined) return undefined;
  const near = Number((atom.value * share).toPrecision(12));
  return `${side === 'near' ? near : Number((atom.value - near).toPrecision(12))} ${atom.unit}`;
}
