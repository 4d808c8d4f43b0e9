/** What stands at a place of the file: statement, atom, clause and the value a slot of it took. */
import type { ClauseNode, ShapedPlaced, SlotValue } from '../../grammar/shaped.ts';
import type { Atom, Span } from '../../grammar/tree.ts';
import type { Analysis } from '../analysis.ts';
import type { NameUse, Origin } from '../model/model.ts';

export interface At {
  readonly origin: Origin;
  readonly statement: ShapedPlaced;
  /** Offset in the statement. */
  readonly relative: number;
  readonly atom: Atom | undefined;
  readonly clause: ClauseNode | undefined;
  readonly value: SlotValue | undefined;
}

/** The statement that begins last at or before `offset`; what follows its text may be its blank lines. */
export function statementBefore(analysis: Analysis, offset: number): ShapedPlaced | undefined {
  const statements = analysis.model.files[0]?.statements ?? [];
  let low = 0;
  let high = statements.length - 1;
  let found: ShapedPlaced | undefined;
  while (low <= high) {
    const middle = (low + high) >> 1;
    const statement = statements[middle] as ShapedPlaced;
    if (statement.offset <= offset) {
      found = statement;
      low = middle + 1;
    } else high = middle - 1;
  }
  return found;
}

const touches = ({ start, end }: Span, offset: number) => start <= offset && offset <= end;
const holds = ({ start, end }: Span, offset: number) => start <= offset && offset < end;

/** What stands at an offset; between two words that touch, the one that begins there. Undefined in comments and gaps. */
export function at(analysis: Analysis, offset: number): At | undefined {
  const file = analysis.model.files[0];
  const statement = statementBefore(analysis, offset);
  if (file === undefined || statement === undefined) return undefined;
  const relative = offset - statement.offset;
  const { node, shaped } = statement;
  if (relative > node.text.length || node.comments.some(({ span }) => holds(span, relative))) return undefined;
  const solid = node.atoms.filter(({ kind }) => kind !== 'line' && kind !== 'comma');
  const atom = solid.find(({ span }) => holds(span, relative)) ?? solid.find(({ span }) => touches(span, relative));
  const clause =
    atom === undefined
      ? undefined
      : shaped.clauses.find(({ span }) => span.start <= atom.span.start && atom.span.end <= span.end);
  const value = clause?.values.find((one) => one.atom === atom);
  return { origin: { file, statement }, statement, relative, atom, clause, value };
}

/** The use of a name at an offset of the analysed file; of several, the shortest (a terminal within its bar). */
export function useAt(analysis: Analysis, offset: number): NameUse | undefined {
  const statement = statementBefore(analysis, offset);
  if (statement === undefined) return undefined;
  let best: NameUse | undefined;
  for (const use of analysis.model.usesIn(statement)) {
    if (use.place.uri !== analysis.uri || !touches(use.place.span, offset)) continue;
    const shorter = best === undefined || length(use) < length(best);
    // Where two touch, as the part and the terminal of `Q1:1` do not but `a` and `b` of a list may, the one that begins there.
    if (shorter || (length(use) === length(best as NameUse) && holds(use.place.span, offset))) best = use;
  }
  return best;
}

function length({ place }: NameUse): number {
  return place.span.end - place.span.start;
}
