/**
 * What a kind of part is: data that drives checking, completion, hover, the reference and the network alike.
 * A kind is a file in this folder with one `KindSpec`; adding one touches nothing else but a sample and a test.
 */
import type { StatementSpec } from '../../grammar/vocabulary.ts';

/**
 * What a part says, in SI, as its kind's functions may ask for it. The model implements it from the part's clauses
 * (those of its stock first, the part's own over them).
 */
export interface PartFacts {
  readonly name: string;
  /** Whether the clause was said at all (also when its value is a blank `?`). */
  says(clauseId: string): boolean;
  /** SI value of a quantity or number slot; the clause's first value slot when none is named. Undefined: unsaid or blank. */
  number(clauseId: string, slot?: string): number | undefined;
  /** Keyword, colour, name or text in a slot. */
  word(clauseId: string, slot?: string): string | undefined;
  /** All values of a repeatable slot in one clause, SI. Ranges come as pairs in `pairs`. */
  numbers(clauseId: string, slot?: string): readonly number[];
  /** Ranges `1-4 2-3` as pairs. */
  pairs(clauseId: string, slot?: string): readonly (readonly [number, number])[];
  /** Facts of every use of a repeatable clause (`way 1 fuse 10 A`, `way 2 …`), in order. */
  each(clauseId: string): readonly PartFacts[];
}

export type Polarity = '+' | '-';

export interface TerminalSpec {
  /** Designation as written after the colon; `''` for the single node of a one-node part. */
  readonly name: string;
  readonly polarity?: Polarity;
  /** What it is for, for hover and completion ("incoming side of pole 1"). */
  readonly meaning: string;
  /** May be left without a core and not be reported (`terminal-unconnected`). */
  readonly optional?: boolean;
  /** Two terminals of one part with the same group are one supply side: `pv`, `bat`, `in`, `out`, `load`. */
  readonly side?: string;
}

/** A way through a part that conducts when closed. Contacts are 0 Ω unless the part says `contacts 1 mΩ`. */
export interface ContactSpec {
  readonly from: string;
  readonly to: string;
  /** Pole or way number, from 1. */
  readonly pole: number;
  /**
   * `fixed`: always closed (fuse, shunt, busbar stud); `hand`: isolator, switch, breaker (closed unless the case says off);
   * `coil`: relay contact that is closed when its coil is energised; `coil-rest`: closed when it is not;
   * `diode`: conducts from → to only; `position`: selector.
   */
  readonly operated: 'fixed' | 'hand' | 'coil' | 'coil-rest' | 'diode' | 'position';
  /** Rating in ampere when this contact is (part of) an overcurrent protective device: fuse, breaker pole, fusebox way. */
  readonly deviceAmps?: number;
  /** True for an overcurrent protective device even while its rating is blank. */
  readonly protects: boolean;
  /** Rated current of the contact as a switch, per pole, in ampere. */
  readonly ratedAmps?: number;
  readonly ratedVolts?: number;
}

/** How a part behaves for the solver, in one case-independent description. Terminal names refer to the part's own. */
export type Behaviour =
  | { readonly is: 'battery' }
  | { readonly is: 'panel' }
  | { readonly is: 'alternator' }
  /** Input side(s) to output side: controller, charger, converter. `outputs`/`inputs` are side names. */
  | { readonly is: 'converter'; readonly inputs: readonly string[]; readonly outputs: readonly string[] }
  | { readonly is: 'inverter' }
  | { readonly is: 'load' }
  | { readonly is: 'socket' }
  | { readonly is: 'coil'; readonly from: string; readonly to: string }
  | { readonly is: 'none' };

export type Family =
  | 'source'
  | 'conversion'
  | 'protection'
  | 'switching'
  | 'joint'
  | 'measurement'
  | 'load'
  | 'return'
  | 'enclosure'
  /** Stocked things that are no parts: `cable`, `limit-set`. */
  | 'material'
  | 'limits';

export interface KindSpec extends StatementSpec {
  readonly category: 'kind';
  readonly family: Family;
  /** `an isolator`, `a fuse`. */
  readonly withArticle: string;
  /** Terminals of one part of this kind. */
  terminals(facts: PartFacts): readonly TerminalSpec[];
  /** Ways through it. */
  contacts(facts: PartFacts): readonly ContactSpec[];
  readonly behaviour: Behaviour;
  /** True when the part is written by its name alone (busbar, splice, block, chassis). */
  readonly oneNode: boolean;
  /** Whether terminals beyond the listed ones may be named freely (a load's extra terminals come from its `terminal` clause). */
  readonly symbol: string;
}
