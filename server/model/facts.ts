/** What a part, run or case says, in SI: its own clauses over those of its stock. */
import type { ClauseNode, SlotValue } from '../../grammar/shaped.ts';
import type { Fact, Facts, Origin, Place } from './model.ts';
import { headPlace, placeIn } from './place.ts';

/** SI value of what a slot took; undefined for a blank or anything that is no number. */
export function slotNumber({ atom }: SlotValue): number | undefined {
  switch (atom.kind) {
    case 'quantity':
      return atom.si;
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

export class FactSet implements Facts {
  private readonly byId = new Map<string, Fact[]>();

  constructor(
    readonly name: string,
    readonly origin: Origin,
    readonly facts: readonly Fact[],
  ) {
    for (const fact of facts) {
      const list = this.byId.get(fact.clause.spec.id);
      if (list) list.push(fact);
      else this.byId.set(fact.clause.spec.id, [fact]);
    }
  }

  says(clauseId: string): boolean {
    return this.byId.has(clauseId);
  }

  fact(clauseId: string): Fact | undefined {
    return this.byId.get(clauseId)?.[0];
  }

  all(clauseId: string): readonly Fact[] {
    return this.byId.get(clauseId) ?? [];
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
    return this.all(clauseId).map((fact) => new FactSet(this.name, this.origin, [fact]));
  }

  place(clauseId: string, slot?: string): Place {
    const fact = this.fact(clauseId);
    if (fact === undefined) return headPlace(this.origin);
    // What stands in the stock is changed where it is taken: that is this statement's to answer for.
    if (fact.fromStock !== undefined) {
      const taken = this.fact('stock');
      return taken === undefined || taken.fromStock !== undefined
        ? headPlace(this.origin)
        : placeIn(taken.origin, taken.clause.span);
    }
    const value = slot === undefined ? undefined : slotOf(fact.clause, slot);
    return placeIn(fact.origin, value?.span ?? fact.clause.span);
  }

  isBlank(clauseId: string, slot?: string): boolean {
    const value = this.slot(clauseId, slot);
    if (value === undefined) return false;
    return value.atom.kind === 'blank' || (value.atom.kind === 'quantity' && value.atom.text.startsWith('?'));
  }

  written(clauseId: string, slot?: string): string | undefined {
    return this.slot(clauseId, slot)?.atom.text;
  }
}

/**
 * Clauses in force: the stock's, then the statement's own over them. A clause that the statement says itself hides the
 * stock's of the same id; one that may stand several times adds to the stock's.
 */
export function mergeFacts(own: readonly Fact[], stocked: readonly Fact[]): Fact[] {
  const said = new Set(own.map(({ clause }) => clause.spec.id));
  const kept = stocked.filter(({ clause }) => clause.spec.id !== 'stock' && (clause.spec.repeatable || !said.has(clause.spec.id)));
  return [...kept, ...own];
}
