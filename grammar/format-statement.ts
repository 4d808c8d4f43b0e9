/** A statement's lines as the formatter writes them. */
import { canonicalText } from './canonical.ts';
import type { ClauseNode, ShapedPlaced } from './shaped.ts';
import type { Atom, StatementNode } from './tree.ts';

export const indent = '    ';
/** Heads longer than this do not widen their neighbours' column. */
export const widestHead = 44;

/** What cannot be read as a statement, or holds what means nothing, is left as it stands. */
export function isReadable({ node, shaped }: ShapedPlaced): boolean {
  if (shaped.spec === undefined && shaped.wrapper === undefined) return false;
  if (node.atoms.some(({ kind }) => kind === 'junk')) return false;
  return shaped.problems.length === 0 || !node.atoms.some(touches);
}

/** In `cable-2.5`, `lamp" 6 W` and `1,2,3 W` a space between would change what is wrong with them. */
function touches({ kind, leading, text }: Atom, at: number, atoms: readonly Atom[]): boolean {
  const before = atoms[at - 1];
  if (before === undefined || leading !== '' || kind === 'comma' || kind === 'line' || before.kind === 'line')
    return false;
  if (before.kind !== 'comma') return true;
  return before.leading === '' && /^\d/.test(text) && /\d$/.test(atoms[at - 2]?.text ?? '');
}

/** First word, names and title, as one text. */
export function headText({ keyword, names, title }: StatementNode): string {
  const words = [keyword?.value ?? '', names.map(({ value }) => value).join(' and ')];
  return [...words, title === undefined ? '' : canonicalText(title)].filter((word) => word !== '').join(' ');
}

/** One line of a statement; the comment behind its atoms, or alone. */
interface Row {
  readonly atoms: readonly Atom[];
  readonly comment: string;
  /** A comment that stands at the margin stays there. */
  readonly margin: boolean;
}

function rowsOf(node: StatementNode): Row[] {
  const rows: Row[] = [];
  let atoms: Atom[] = [];
  const end = (trivia: string) => {
    rows.push({ atoms, comment: trivia.trim(), margin: atoms.length === 0 && trivia.startsWith('#') });
    atoms = [];
  };
  for (const atom of node.atoms) {
    if (atom.kind === 'line') end(atom.leading);
    else atoms.push(atom);
  }
  if (atoms.length > 0 || node.trailing !== '') end(node.trailing);
  return rows;
}

/** The statement's lines, as many as it has; `head` is the width of its head's column. */
export function statementLines(placed: ShapedPlaced, head: number): string[] {
  const { node, shaped } = placed;
  const rows = rowsOf(node);
  const at = new Map(shaped.clauses.map(({ span }, i) => [span.start, i]));
  const cores = rows.map(({ atoms }, i) => (i === 0 ? undefined : coreOf(atoms, shaped.clauses, at)));
  const label = widest(cores.map((core) => core?.label));
  const from = widest(cores.map((core) => (core?.rest === '' ? undefined : core?.from)));
  const headEnd = (node.title ?? node.names.at(-1) ?? node.keyword)?.span.end ?? 0;
  return rows.map(({ atoms, comment, margin }, i) => {
    if (atoms.length === 0) return comment === '' ? '' : margin ? comment : indent + comment;
    const behind = comment === '' ? '' : `  ${comment}`;
    if (i === 0) return headLine(node, joined(atoms.filter(({ span }) => span.start >= headEnd)), head) + behind;
    const core = cores[i];
    const text =
      core === undefined
        ? joined(atoms)
        : `${core.label.padEnd(label)}  ${core.rest === '' ? core.from : `${core.from.padEnd(from)} ${core.rest}`}`;
    return indent + text + behind;
  });
}

function widest(texts: readonly (string | undefined)[]): number {
  return texts.reduce((most, text) => Math.max(most, text?.length ?? 0), 0);
}

function headLine(node: StatementNode, body: string, width: number): string {
  const text = headText(node);
  // A head that ends its line needs no column, and a comma stands where it is.
  if (body === '' || body.startsWith(',')) return text + body;
  if (node.names.length === 0) return `${text} ${body}`;
  return `${text.length > widestHead ? text : text.padEnd(width)}  ${body}`;
}

function joined(atoms: readonly Atom[]): string {
  let text = '';
  for (const atom of atoms) {
    const piece = canonicalText(atom);
    text += text === '' || atom.kind === 'comma' ? piece : ` ${piece}`;
  }
  return text;
}

/** The cells of a core's line: which core it is, its first end, and the rest from `to` on. */
interface Core {
  readonly label: string;
  readonly from: string;
  readonly rest: string;
}

/** A line is a core's when it begins with clauses that belong together: a colour or number, then ends or `spare`. */
function coreOf(
  atoms: readonly Atom[],
  clauses: readonly ClauseNode[],
  indexAt: ReadonlyMap<number, number>,
): Core | undefined {
  const first = indexAt.get(atoms[0]?.span.start ?? -1);
  if (first === undefined) return undefined;
  let last = first;
  for (let next = clauses[last + 1]; next !== undefined; next = clauses[last + 1]) {
    const before = clauses[last] as ClauseNode;
    if (next.segment !== before.segment || before.spec.joins?.includes(next.spec.id) !== true) break;
    last += 1;
  }
  const ends = clauses[last] as ClauseNode;
  const split = atoms.findIndex(({ span }) => span.start === ends.span.start);
  if (last === first || split <= 0) return undefined;
  const to = atoms.findIndex((atom, i) => i > split && atom.kind === 'word' && atom.value === 'to');
  const cut = to === split + 1 && to < atoms.length ? to : atoms.length;
  return {
    label: joined(atoms.slice(0, split)),
    from: joined(atoms.slice(split, cut)),
    rest: joined(atoms.slice(cut)),
  };
}
