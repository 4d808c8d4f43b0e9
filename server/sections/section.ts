/** A section: statements that hang together, worked out by themselves, and all that is kept of that. */
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import type { Answers } from '../answers/answers.ts';
import type { Model } from '../model/model.ts';
import type { Finding } from '../rules/rule.ts';

/** What a section was built from besides its own statements. */
export interface Ground {
  readonly common: readonly ShapedPlaced[];
  readonly files: string;
  readonly piece: boolean;
  readonly isLaid: boolean;
  readonly isIncomplete: boolean;
}

export interface BuiltSection {
  readonly statements: readonly ShapedPlaced[];
  readonly ground: Ground;
  /** Its problems are told as they are, not yet in the spec's own file. */
  readonly model: Model;
  /** It asked for names of the whole spec, and must be built anew whenever anything changes. */
  readonly asksAll: boolean;
}

export interface Section extends BuiltSection {
  /** By which units the set of limits was chosen where none is named. */
  readonly mostlyGauges: boolean;
  readonly answers: Answers;
  /** Of the rules that decide by what hangs together, before anything is accepted. */
  readonly found: readonly Finding[];
}

export function sameGround(a: Ground, b: Ground): boolean {
  return (
    a.files === b.files &&
    a.piece === b.piece &&
    a.isLaid === b.isLaid &&
    a.isIncomplete === b.isIncomplete &&
    sameStatements(a.common, b.common)
  );
}

export function sameStatements(a: readonly ShapedPlaced[], b: readonly ShapedPlaced[]): boolean {
  if (a === b) return true;
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}
