/** What a part, run or case says, in SI: its own clauses over those of its stock. */
import type { ClauseNode, SlotValue } from '../../grammar/shaped.ts';
import type { ClauseSpec } from '../../grammar/vocabulary.ts';
import { lazily } from './lazily.ts';
import type { Fact, Facts, Origin, Place } from './model.ts';
import { headPlace, placeIn } from './place.ts';

/** SI value of what a slot took; undefined for a blank, for anything that is no number, and for one beyond all numbers. */
export function slotNumber({ atom }: SlotValue): number | undefined {
  switch (atom.kind) {
    case 'quantity':
      return Number.isFinite(atom.si) ? atom.si : undefined;
    case 'number':
    case 'times':
      return atom.value;
    default:
      return undefined;
  }
}

export function slotWord({ atom }: SlotValue): string | undefined {
  switch (atom.kind) {
    case 'word':
    case 'text':
    case 'date':
    case 'clock':
      return atom.value;
    case 'terminal':
      return `${atom.part}:${atom.terminal}`;
    default:
      return undefined;
  }
}

export function slotOf(clause: ClauseNode, slot?: string): SlotValue | undefined {
  return slot === undefined ? clause.values[0] : clause.values.find((value) => value.slot === slot);
}

/** A `?`, with a unit behind it or none. */
export function isBlankSlot({ atom }: SlotValue): boolean {
  return atom.kind === 'blank' || (atom.kind === 'quantity' && atom.value === undefined && atom.text.startsWith('?'));
}

/** A statement with more clauses than this has them by their ids as well. */
const few = 12;

function byClause(facts: readonly Fact[]): Map<string, Fact[]> {
  const byId = new Map<string, Fact[]>();
  for (const fact of facts) {
    const list = byId.get(fact.clause.spec.id);
    if (list) list.push(fact);
    else byId.set(fact.clause.spec.id, [fact]);
  }
  return byId;
}

export class FactSet implements Facts {
  /** Where there are many; a few are sooner looked through. */
  private readonly byId: ReadonlyMap<string, readonly Fact[]> | undefined;

  /**
   * `namePlace` is where findings stand that no clause can carry: a statement may declare several names, and each is told
   * of at its own. `taken` is the statement's own `= stock`, which answers for what the stock says.
   */
  constructor(
    readonly name: string,
    readonly origin: Origin,
    readonly facts: readonly Fact[],
    private readonly namePlace: Place = headPlace(origin),
    private readonly taken: Fact | undefined = facts.find(
      ({ clause, fromStock }) => clause.spec.id === 'stock' && fromStock === undefined,
    ),
  ) {
    if (facts.length > few) this.byId = byClause(facts);
  }

  says(clauseId: string): boolean {
    return this.fact(clauseId) !== undefined;
  }

  fact(clauseId: string): Fact | undefined {
    if (this.byId !== undefined) return this.byId.get(clauseId)?.[0];
    const { facts } = this;
    for (let i = 0; i < facts.length; i++) if (facts[i]?.clause.spec.id === clauseId) return facts[i];
    return undefined;
  }

  all(clauseId: string): readonly Fact[] {
    if (this.byId !== undefined) return this.byId.get(clauseId) ?? [];
    return this.facts.filter(({ clause }) => clause.spec.id === clauseId);
  }

  slot(clauseId: string, slot?: string): SlotValue | undefined {
    const fact = this.fact(clauseId);
    return fact === undefined ? undefined : slotOf(fact.clause, slot);
  }

  number(clauseId: string, slot?: string): number | undefined {
    const value = this.slot(clauseId, slot);
    return value === undefined ? undefined : slotNumber(value);
  }

  word(clauseId: string, slot?: string): string | undefined {
    const value = this.slot(clauseId, slot);
    return value === undefined ? undefined : slotWord(value);
  }

  numbers(clauseId: string, slot?: string): readonly number[] {
    return (this.fact(clauseId)?.clause.values ?? [])
      .filter((value) => slot === undefined || value.slot === slot)
      .map(slotNumber)
      .filter((value) => value !== undefined);
  }

  pairs(clauseId: string, slot?: string): readonly (readonly [number, number])[] {
    return (this.fact(clauseId)?.clause.values ?? [])
      .filter((value) => slot === undefined || value.slot === slot)
      .flatMap(({ atom }) => (atom.kind === 'range' ? [[atom.from, atom.to] as const] : []));
  }

  each(clauseId: string): readonly FactSet[] {
    return this.all(clauseId).map((fact) => new FactSet(this.name, this.origin, [fact], this.namePlace, this.taken));
  }

  /** The words that say it. What stock says is changed where the stock is taken, so that is its place. */
  place(clauseId: string, slot?: string): Place {
    const fact = this.fact(clauseId);
    if (fact === undefined) return this.namePlace;
    if (fact.fromStock !== undefined)
      return this.taken === undefined ? this.namePlace : placeIn(this.taken.origin, this.taken.clause.span);
    const value = slot === undefined ? undefined : slotOf(fact.clause, slot);
    return placeIn(fact.origin, value?.span ?? fact.clause.span);
  }

  isBlank(clauseId: string, slot?: string): boolean {
    const value = this.slot(clauseId, slot);
    return value !== undefined && isBlankSlot(value);
  }

  written(clauseId: string, slot?: string): string | undefined {
    return this.slot(clauseId, slot)?.atom.text;
  }
}

/**
 * Clauses in force: the stock's, then the statement's own over them. A clause that the statement says itself hides the
 * stock's of the same id. One that may stand several times adds to the stock's, except that it hides the one which speaks
 * of the same thing: `2 in parallel 45 A` over `2 in parallel 40 A`, `way 3 fuse 7.5 A` over `way 3 fuse 10 A`.
 */
export function mergeFacts(own: readonly Fact[], stocked: readonly Fact[]): Fact[] {
  if (stocked.length === 0) return [...own];
  // A load that says its current has not the power of its stock besides.
  const says = ({ id, oneOf }: ClauseSpec) =>
    own.some(({ clause: { spec } }) => spec.id === id || (oneOf !== undefined && spec.oneOf === oneOf));
  const things = lazily(() => new Set(own.flatMap(({ clause }) => (clause.spec.repeatable ? thingOf(clause) : []))));
  const kept = stocked.filter(({ clause }) =>
    clause.spec.repeatable ? !things().has(thingOf(clause)) : !says(clause.spec),
  );
  return kept.concat(own);
}

/** What a repeatable clause speaks of: its numbers and words, without the amounts; its first amount when it has only those. */
function thingOf({ spec, values }: ClauseNode): string {
  const named = values.filter(({ atom }) => atom.kind !== 'quantity' && atom.kind !== 'times' && atom.kind !== 'blank');
  const key = named.length > 0 ? named : values.slice(0, 1);
  return [spec.id, ...key.map(({ slot, atom }) => `${slot}=${atom.text}`)].join(' ');
}
