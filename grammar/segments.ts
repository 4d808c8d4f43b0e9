/** A statement's body cut into the stretches that commas and line ends part. */
import type { Atom } from './tree.ts';

export interface Segment {
  /** Never a comma or a line end; at least one atom. */
  readonly atoms: readonly Atom[];
  /** Line of its first atom within the statement, from 0. */
  readonly line: number;
  /** The comma before it, unless a line end or the head comes first. */
  readonly comma: Atom | undefined;
}

/**
 * Segments end at commas and line ends, except behind a final `to` or `and` before a line that begins no clause. A semicolon
 * parts like a comma, whatever is said of it.
 */
export function segmentsOf(body: readonly Atom[], opensClause: (atom: Atom) => boolean = () => false): Segment[] {
  const segments: Segment[] = [];
  let atoms: Atom[] = [];
  let comma: Atom | undefined;
  let at = 0;
  let begun = at;
  const close = () => {
    if (atoms.length > 0) {
      segments.push({ atoms, line: begun, comma });
      comma = undefined;
    }
    atoms = [];
  };
  for (let i = 0; i < body.length; i++) {
    const atom = body[i] as Atom;
    if (atom.kind === 'comma' || isSemicolon(atom)) {
      close();
      comma ??= atom;
    } else if (atom.kind === 'line') {
      at += 1;
      const next = body[i + 1];
      if (goesOn(atoms.at(-1)) && !(next !== undefined && opensClause(next))) continue;
      close();
      comma = undefined;
    } else {
      if (atoms.length === 0) begun = at;
      atoms.push(atom);
    }
  }
  close();
  return segments;
}

export function isSemicolon(atom: Atom): boolean {
  return atom.kind === 'junk' && atom.text === ';';
}

/** Whether a clause that ends with this atom at a line's end goes on in the next line. */
export function goesOn(last: Atom | undefined): boolean {
  return last?.kind === 'word' && (last.value === 'to' || last.value === 'and');
}
