/** Names as statements speak of them, whether anything has them or not: a new name must be none of these, or it takes their place. */
import type { ShapedPlaced, ShapedStatement } from '../../grammar/shaped.ts';
import type { Span } from '../../grammar/tree.ts';
import { wantedBy } from '../model/names.ts';

export interface SpokenOf {
  readonly name: string;
  /** Within its statement. */
  readonly span: Span;
  /** In which of the two spaces of names it may be meant: that of cases, and that of all else. */
  readonly asCase: boolean;
  readonly asOther: boolean;
}

const known = new WeakMap<ShapedStatement, readonly SpokenOf[]>();

/** What a statement says of others; of one that cannot be read every word may be a name. The name in its head is not among them. */
export function spokenOf({ shaped }: ShapedPlaced): readonly SpokenOf[] {
  let found = known.get(shaped);
  if (found === undefined) {
    found = readFrom(shaped);
    known.set(shaped, found);
  }
  return found;
}

function readFrom({ node, clauses, problems, spec, wrapper }: ShapedStatement): SpokenOf[] {
  const found: SpokenOf[] = [];
  const declares = (wrapper ?? spec) !== undefined;
  for (const atom of node.atoms)
    if (atom.kind === 'terminal') found.push({ name: atom.part, span: atom.partSpan, asCase: false, asOther: true });
    else if (
      atom.kind === 'word' &&
      problems.length > 0 &&
      atom !== node.keyword &&
      !(declares && node.names.includes(atom))
    )
      found.push({ name: atom.value, span: atom.span, asCase: true, asOther: true });
  for (const { values } of clauses)
    for (const { atom, type, span } of values) {
      if (atom.kind !== 'word') continue;
      const wanted = wantedBy(type);
      const asOther = type === 'end' || wanted.some((one) => one !== 'case');
      const asCase = wanted.includes('case');
      if (asOther || asCase) found.push({ name: atom.value, span, asCase, asOther });
    }
  return found;
}
