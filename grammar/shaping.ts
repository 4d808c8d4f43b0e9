/**
 * A statement's body being shaped: from its flat run of atoms to clauses, by the forms of its kind. Whatever fits no clause becomes
 * one problem with the nearest that was meant; the rest keeps its clauses.
 */
import { usualAreas } from './cable-sizes.ts';
import { saidTwice } from './clause-twice.ts';
import type { CompiledSpec, CompiledVocabulary } from './compiled.ts';
import type { Form } from './forms.ts';
import type { Leftover } from './leftover.ts';
import { type Failure, isColour, type Match, matchOf } from './match.ts';
import { spanOf } from './mend.ts';
import { wordMissing } from './missing-word.ts';
import { trailingNotes } from './note-marks.ts';
import { problem, quoted, replace } from './phrases.ts';
import { extendAt, type Repair, type Repaired, repairAt, sizeAt, turnedAt } from './repair.ts';
import { isSemicolon, type Segment, segmentsOf } from './segments.ts';
import {
  commasMissing,
  figuresWithSign,
  isStandInForComma,
  semicolonsInstead,
  signsAndCommas,
  standInForComma,
} from './separators.ts';
import { leftoverProblem, marksOnce } from './shape-problems.ts';
import type { ClauseNode, UnknownSegment } from './shaped.ts';
import type { Atom, Problem, Span, StatementNode } from './tree.ts';
import { waysOnce } from './turns-of-phrase.ts';
import type { ClauseSpec } from './vocabulary.ts';

/** Mistakes of one statement that are looked into: whoever made more mends these first. */
const mostLeftovers = 40;
/** Atoms after a mistake that are searched for the next clause before the rest of the segment is given up. */
const mostUnread = 20;

/** One statement's body being shaped. */
export class Shaping {
  readonly clauses: ClauseNode[] = [];
  readonly unknown: UnknownSegment[] = [];
  private readonly found: Problem[] = [];
  private leftovers: Leftover[] = [];
  /** Other signs where a comma belongs. */
  private readonly stands: Atom[] = [];
  /** Where a comma is missing: the atoms before and behind. */
  private readonly commas: (readonly [Atom, Atom])[] = [];
  /** Another statement begins in this one: nothing behind there is its own. */
  private ended = false;
  /** All words of the body, where they were asked for. */
  private words: ReadonlySet<string> | undefined;
  /** Clauses that only a repair made fit: they are said, but not counted against others. */
  private readonly repaired = new Set<ClauseNode>();

  constructor(
    private readonly spec: CompiledSpec,
    private readonly wrapper: CompiledSpec | undefined,
    private readonly compiled: CompiledVocabulary,
    private readonly node: StatementNode,
    /** The name is missing, or a word stands for it that cannot be one. */
    private readonly nameless: boolean,
  ) {}

  read(body: readonly Atom[]): void {
    const { byWord } = this.spec;
    const opensClause = (atom: Atom) => atom.kind === 'word' && byWord.has(atom.value);
    const segments = segmentsOf(body, opensClause);
    for (let i = 0; i < segments.length && !this.ended; i++) this.readSegment(segments[i] as Segment, i);
    if (this.ended) return;
    const notes = this.notesMeant();
    const semicolons = body.filter(
      (atom) => isSemicolon(atom) && !notes.some(({ start, end }) => start <= atom.span.start && atom.span.end <= end),
    );
    if (semicolons.length > 0) this.found.push(semicolonsInstead(semicolons, this.node));
  }

  /** `// the big one` behind a statement's words, where nothing behind the mark is a clause: one problem tells of all of it. */
  private notesMeant(): Span[] {
    if (this.leftovers.length === 0) return [];
    const spans: Span[] = [];
    for (const { span, problem: told } of trailingNotes(this.node).slice(0, mostLeftovers)) {
      const within = (one: Span) => span.start <= one.start && one.end <= span.end;
      const others = this.leftovers.filter(({ atoms }) => !within(spanOf(atoms)));
      if (others.length === this.leftovers.length || this.clauses.some((clause) => within(clause.span))) continue;
      this.leftovers = others;
      this.found.push(told);
      spans.push(span);
    }
    return spans;
  }

  /** All that is wrong, told once everything is read: what a leftover may have meant depends on what else is said. */
  problems(): Problem[] {
    const twice = saidTwice(this.clauses, this.repaired, this.node);
    const stands = this.stands.filter((sign) => !this.isBetweenFigures(sign, twice));
    this.found.push(...twice);
    const signs = stands.length > 0 ? standInForComma(stands, this.node) : undefined;
    const commas = this.commas.length > 0 ? commasMissing(this.commas) : undefined;
    if (signs !== undefined && commas !== undefined) this.found.push(signsAndCommas(signs, commas));
    else if (signs !== undefined || commas !== undefined) this.found.push((signs ?? commas) as Problem);
    const { spec, wrapper, compiled, clauses, node } = this;
    for (const leftover of this.leftovers.slice(0, mostLeftovers)) {
      const { start, end } = spanOf(leftover.atoms);
      // `busbar to the fuses`: where the name is wrong, so is what hangs on it.
      if (this.nameless && leftover.atoms[0] === node.body[0]) continue;
      // The lexer has complained of it already.
      if (node.problems.some(({ span }) => span.start >= start && span.end <= end)) continue;
      this.found.push(leftoverProblem(leftover, { spec, wrapper, compiled, clauses, node }));
    }
    return waysOnce(marksOnce(this.found));
  }

  /** A sign between two figures for one clause is told with them, in the place of what is said twice. */
  private isBetweenFigures(sign: Atom, twice: Problem[]): boolean {
    const { body } = this.node;
    const at = body.indexOf(sign);
    const [before, behind] = [body[at - 1], body[at + 1]];
    const said = twice.findIndex(({ span }) => span.start === behind?.span.start);
    if (said < 0 || before?.kind !== 'quantity' || behind?.kind !== 'quantity') return false;
    twice[said] = figuresWithSign(sign, before, behind, this.spec);
    return true;
  }

  private readSegment(segment: Segment, index: number): void {
    const { atoms } = segment;
    let previous: Read | undefined;
    let unread: Atom[] = [];
    let unreadFrom = 0;
    let failure: Failure | undefined;
    const close = () => {
      if (unread.length === 0) return;
      this.unknown.push({ span: spanOf(unread), atoms: unread, nearest: failure?.clause });
      this.leftovers.push({ atoms: unread, from: unreadFrom, failure, segment, previous: this.clauses.at(-1) });
      unread = [];
    };
    const add = (start: number, match: Match, repaired: boolean): Read => {
      const span = spanOf(atoms, start, match.end);
      const clause: ClauseNode = { spec: match.clause, span, values: match.values, segment: index, line: segment.line };
      if (repaired) this.repaired.add(clause);
      this.clauses.push(clause);
      return { clause, form: match.form, start, whole: !repaired };
    };
    let at = 0;
    while (at < atoms.length) {
      const first = atoms[at] as Atom;
      const size = unread.length === 0 ? this.sizeMeant(atoms, at) : undefined;
      if (size !== undefined) {
        this.found.push(...size.problems);
        previous = add(at, size.match, true);
        at = size.match.end;
        continue;
      }
      let match = this.bestMatch(atoms, at);
      if (match === undefined && this.beginsStatement(atoms, at)) {
        this.endBefore(atoms, at);
        break;
      }
      const beside = previous !== undefined && unread.length === 0;
      if (beside && previous?.whole === true && (match === undefined || !joins(previous.clause, match.clause))) {
        const twice = match !== undefined && match.clause.repeatable !== true && this.says(match.clause.id);
        const extended = extendAt(atoms, previous.start, at, previous.form, twice, this.spec, this.compiled);
        if (extended !== undefined) {
          this.found.push(...extended.problems);
          this.clauses.pop();
          previous = add(previous.start, extended.match, true);
          at = extended.match.end;
          continue;
        }
        if (match === undefined && isStandInForComma(first)) {
          const behind = at + 1 < atoms.length ? this.bestMatch(atoms, at + 1) : undefined;
          if (behind !== undefined) {
            this.stands.push(first);
            previous = add(at + 1, behind, false);
            at = behind.end;
            continue;
          }
        }
      }
      const worded = unread.length === 0 ? this.wordMeant(atoms, at, match, beside) : undefined;
      if (worded !== undefined) {
        this.found.push(...worded.problems);
        previous = add(at, worded.match, true);
        at = worded.match.end;
        continue;
      }
      let repair: Repair | undefined;
      if (match === undefined && unread.length === 0 && this.leftovers.length < mostLeftovers) {
        repair = repairAt(atoms, at, this.spec, this.compiled, at === 0 && segment.line > 0);
        match = repair.repaired?.match;
        failure = repair.failure;
        this.found.push(...(repair.repaired?.problems ?? []));
      }
      if (match === undefined) {
        if (unread.length === 0) unreadFrom = at;
        // `panel P1, P2 120 W`: a word there is a name, and what follows is not its value.
        const listed = segment.comma !== undefined && at === 0 && this.clauses.length === 0;
        const skip = listed && this.spec.spec.head === 'names' ? 1 : (repair?.skip ?? 1);
        const next = unread.length < mostUnread ? Math.min(at + skip, atoms.length) : atoms.length;
        for (; at < next; at++) unread.push(atoms[at] as Atom);
        continue;
      }
      close();
      if (
        beside &&
        repair === undefined &&
        previous !== undefined &&
        !joins(previous.clause, match.clause) &&
        (match.clause.repeatable === true || !this.says(match.clause.id))
      )
        this.commas.push([atoms[at - 1] as Atom, first]);
      previous = add(at, match, repair !== undefined);
      at = match.end;
    }
    close();
  }

  /** `fuse F2` where a fuse says nothing like it: two lines run together. */
  private beginsStatement(atoms: readonly Atom[], at: number): boolean {
    const [first, next] = [atoms[at], atoms[at + 1]];
    if (first?.kind !== 'word' || next?.kind !== 'word' || this.spec.byWord.has(first.value)) return false;
    const head = this.compiled.specs.get(first.value)?.spec.head;
    return head !== undefined && head !== 'none' && !this.compiled.words.reserved.has(next.value);
  }

  private endBefore(atoms: readonly Atom[], at: number): void {
    this.ended = true;
    const [first, next] = [atoms[at] as Atom, atoms[at + 1] as Atom];
    const { body, text } = this.node;
    const before = body.filter(({ kind, span }) => kind !== 'comma' && kind !== 'line' && span.end <= first.span.start);
    const from = before.at(-1)?.span.end ?? this.node.names.at(-1)?.span.end ?? first.span.start;
    const words = `${first.text} ${next.text}`;
    const between = text.slice(from, first.span.start);
    this.found.push(
      problem(
        'missing-separator',
        { start: first.span.start, end: next.span.end },
        `${quoted(words)} begins a statement of its own: put it on a new line.`,
        between.includes('#')
          ? []
          : [replace('Put it on a new line', { start: from, end: first.span.start }, '\n', true)],
      ),
    );
  }

  private says(id: string): boolean {
    return this.clauses.some((clause) => clause.spec.id === id);
  }

  /** The longest match of all forms; keywords decide between equals. */
  private bestMatch(atoms: readonly Atom[], at: number): Match | undefined {
    let best: Match | undefined;
    const forms = this.spec.beginningWith(atoms[at] as Atom);
    for (let i = 0; i < forms.length; i++) {
      const match = matchOf(forms[i] as Form, atoms, at, this.compiled.words);
      if (match === undefined) continue;
      if (best === undefined || match.end > best.end || (match.end === best.end && match.literals > best.literals))
        best = match;
    }
    return best;
  }

  /**
   * A length in mm where a size was meant: one of a size that cables have, in a statement that says no other size, with a
   * colour behind it or the length besides.
   */
  private sizeMeant(atoms: readonly Atom[], at: number): Repaired | undefined {
    const atom = atoms[at];
    if (atom?.kind !== 'quantity' || atom.unit !== 'mm' || !usualAreas.has(atom.value ?? 0)) return undefined;
    const { body } = this.node;
    const sized = body.some(
      (one) => one.kind === 'equals' || (one.kind === 'quantity' && ['area', 'gauge'].includes(one.dimension)),
    );
    if (sized) return undefined;
    const behind = atoms[at + 1];
    const coloured = behind?.kind === 'word' && isColour(behind.value, this.compiled.words.colours);
    // Diameters are in mm too, and say nothing of the length.
    const measured = body.some((one) => one.kind === 'quantity' && one.dimension === 'length' && one.unit !== 'mm');
    return coloured || measured ? sizeAt(atoms, at, this.spec, this.compiled) : undefined;
  }

  /** A quantity that fits nothing, or only what is said already in another unit, but fits behind a word that was left out. */
  private wordMeant(
    atoms: readonly Atom[],
    at: number,
    match: Match | undefined,
    commaMissing: boolean,
  ): Repaired | undefined {
    const { spec, compiled } = this;
    if (atoms[at]?.kind !== 'quantity' || this.found.length >= mostLeftovers) return undefined;
    const said = match === undefined ? undefined : this.clauses.find((clause) => clause.spec.id === match.clause.id);
    // `350 W, 700 W peak`: a second figure with its word behind it.
    const turned = said === undefined ? undefined : turnedAt(atoms, at, spec, compiled);
    if (turned !== undefined) return turned;
    if (match !== undefined && (said === undefined || match.clause.repeatable === true || match.end > at + 1))
      return undefined;
    const [atom, before] = [atoms[at], said?.values[0]?.atom];
    if (atom?.kind !== 'quantity' || (before?.kind === 'quantity' && before.unit === atom.unit)) return undefined;
    this.words ??= new Set(this.node.body.map((one) => (one.kind === 'word' ? one.value : '')));
    return wordMissing(atoms, at, { spec, compiled, commaMissing, words: this.words });
  }
}

/** A clause of the segment being read, with what may be needed to read on in it. */
interface Read {
  readonly clause: ClauseNode;
  readonly form: Form;
  /** Index of its first atom in the segment. */
  readonly start: number;
  /** Read as it stands, without a repair. */
  readonly whole: boolean;
}

function joins(before: ClauseNode, after: ClauseSpec): boolean {
  return before.spec.joins?.includes(after.id) === true;
}
