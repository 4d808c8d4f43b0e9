/**
 * Printing: the tree back to exactly its text, and the formatter. The formatter writes canonical units and spacing, aligns
 * heads of neighbouring statements and cores of a run, and keeps every comment and blank line. What it cannot read it leaves.
 */
import type { ShapedPlaced } from './shaped.ts';
import type { ShapedTree } from './parse.ts';
import type { Atom, SpecTree, StatementNode } from './tree.ts';
import { unitOf } from './units.ts';

/** The exact text the tree was read from. */
export function printTree(tree: SpecTree): string {
  return tree.items.map((item) => (item.kind === 'gap' ? item.text : printStatement(item.node))).join('');
}

function printStatement({ atoms, trailing }: StatementNode): string {
  return atoms.map(({ leading, text }) => leading + text).join('') + trailing;
}

const indent = '    ';
/** Heads longer than this do not widen their neighbours' column. */
const widestHead = 44;

export function formatDocument(tree: ShapedTree): string {
  const newline = tree.text.includes('\r\n') ? '\r\n' : '\n';
  const lines: string[] = [];
  const widths = headWidths(tree);
  tree.items.forEach((item, i) => {
    if (item.kind === 'gap') lines.push(...gapLines(item.text, i === 0, i === tree.items.length - 1));
    else lines.push(...statementLines(item, widths.get(item) ?? 0));
  });
  while (lines.at(-1) === '') lines.pop();
  return lines.length === 0 ? '' : lines.join(newline) + newline;
}

/** Blank and comment lines between statements: at most two blank lines in a row, none at either end of the file. */
function gapLines(text: string, first: boolean, last: boolean): string[] {
  const raw = text.replace(/^\uFEFF/, '').split(/\r?\n/);
  if (raw.at(-1)?.trim() === '') raw.pop();
  const lines: string[] = [];
  let blanks = 0;
  for (const line of raw) {
    const trimmed = line.trimEnd();
    blanks = trimmed === '' ? blanks + 1 : 0;
    if (blanks <= 2 && !(trimmed === '' && first && lines.length === 0)) lines.push(trimmed);
  }
  if (last) while (lines.at(-1) === '') lines.pop();
  return lines;
}

/** Width of the head's column for every statement: the longest of those that follow each other without a line between. */
function headWidths(tree: ShapedTree): Map<ShapedPlaced, number> {
  const widths = new Map<ShapedPlaced, number>();
  let group: ShapedPlaced[] = [];
  const close = () => {
    const width = Math.max(0, ...group.map((one) => headText(one.node).length).filter((length) => length <= widestHead));
    for (const one of group) widths.set(one, width);
    group = [];
  };
  for (const item of tree.items) {
    if (item.kind === 'gap') close();
    else if (readable(item) && item.node.names.length > 0) {
      // Runs are read down their own column; a part's long title is not theirs.
      if (group[0] !== undefined && columnOf(group[0]) !== columnOf(item)) close();
      group.push(item);
    } else close();
  }
  close();
  return widths;
}

function columnOf({ shaped }: ShapedPlaced): string {
  const spec = shaped.wrapper ?? shaped.spec;
  return spec?.category === 'kind' ? 'part' : (spec?.word ?? '');
}

/** Statements that could not be read as such are left as they stand. */
function readable({ node, shaped }: ShapedPlaced): boolean {
  return (
    node.keyword !== undefined &&
    (shaped.spec !== undefined || shaped.wrapper !== undefined) &&
    !node.atoms.some((atom) => atom.kind === 'junk' || (atom.kind === 'text' && !atom.closed)) &&
    // A comment swallowed what was meant to be read: leave the line for its writer to mend.
    !shaped.problems.some(({ slug }) => slug === 'hash-gauge')
  );
}

function headText({ keyword, names, title }: StatementNode): string {
  const named = names.length === 0 ? '' : ` ${names.map(({ text }) => text).join(' and ')}`;
  return `${keyword?.text ?? ''}${named}${title === undefined ? '' : ` ${title.text}`}`;
}

interface Row {
  atoms: Atom[];
  comment: string;
  /** A comment that stood at the margin stays there. */
  margin: boolean;
}

function rowsOf(node: StatementNode): Row[] {
  const rows: Row[] = [];
  let row: Row = { atoms: [], comment: '', margin: false };
  const end = (trivia: string) => {
    const comment = trivia.trim();
    rows.push({ ...row, comment, margin: row.atoms.length === 0 && trivia.startsWith('#') });
    row = { atoms: [], comment: '', margin: false };
  };
  for (const atom of node.atoms) {
    if (atom.kind === 'line') end(atom.leading);
    else row.atoms.push(atom);
  }
  if (row.atoms.length > 0 || node.trailing.trim() !== '') end(node.trailing);
  return rows;
}

function statementLines(placed: ShapedPlaced, width: number): string[] {
  const { node } = placed;
  if (!readable(placed)) return node.text.replace(/\r?\n$/, '').split(/\r?\n/).map((line) => line.trimEnd());
  const rows = rowsOf(node);
  const head = new Set<Atom>([...(node.keyword === undefined ? [] : [node.keyword]), ...node.names, ...(node.title === undefined ? [] : [node.title])]);
  const lastHead = [...head].reduce((last, atom) => (atom.span.end > last ? atom.span.end : last), 0);
  const inHead = (atom: Atom) => atom.span.end <= lastHead;
  const labels = labelWidth(rows);
  const lines: string[] = [];
  rows.forEach((row, i) => {
    const comment = row.comment === '' ? '' : `  ${row.comment}`;
    if (row.atoms.length === 0) {
      if (row.comment !== '') lines.push(row.margin ? row.comment : indent + row.comment);
      else if (lines.at(-1) !== '') lines.push('');
      return;
    }
    const body = row.atoms.filter((atom) => !(i === 0 && inHead(atom)));
    if (i === 0) {
      const text = headText(node);
      const gap = node.names.length === 0 ? ' ' : '  ';
      // A head that ends its line needs no column, and a comma before the first clause none either.
      const padded = body.length === 0 ? text : `${node.names.length === 0 || text.length > widestHead ? text : text.padEnd(width)}${gap}`;
      lines.push(`${padded}${bodyText(body)}${comment}`.trimEnd());
      return;
    }
    const split = labelEnd(body);
    const text = split > 0 && labels > 0 ? `${bodyText(body.slice(0, split)).padEnd(labels)}  ${bodyText(body.slice(split))}` : bodyText(body);
    lines.push(`${indent}${text}${comment}`.trimEnd());
  });
  return lines;
}

/** A core's line: colour or number, then its ends. Number of atoms before the ends; 0 when the line is no core's. */
function labelEnd(atoms: readonly Atom[]): number {
  const to = atoms.findIndex((atom) => atom.kind === 'word' && atom.value === 'to');
  if (to < 2 || atoms[0]?.kind !== 'word' || ['enters', 'along'].includes(atoms[0].value)) return 0;
  const from = to - 1;
  return from <= 3 && atoms.slice(0, from).every((atom) => atom.kind === 'word' || atom.kind === 'number') ? from : 0;
}

function labelWidth(rows: readonly Row[]): number {
  return Math.max(0, ...rows.slice(1).map(({ atoms }) => bodyText(atoms.slice(0, labelEnd(atoms))).length));
}

function bodyText(atoms: readonly Atom[]): string {
  let text = '';
  for (const atom of atoms) {
    const piece = atomText(atom);
    text += text === '' || atom.kind === 'comma' ? piece : ` ${piece}`;
  }
  return text;
}

/** An atom as the notation writes it. */
function atomText(atom: Atom): string {
  switch (atom.kind) {
    case 'quantity': {
      const number = atom.text.slice(0, atom.numberSpan.end - atom.numberSpan.start).replace('\u2212', '-');
      // A number that could be read two ways, or a gauge written with noughts, is its writer's to mend.
      if (number.includes(',') || (atom.dimension === 'gauge' && /^0+$/.test(number))) return atom.text;
      const written = atom.text.slice(atom.unitSpan.start - atom.span.start);
      return `${number}${atom.unit === '°' ? '' : ' '}${isAccepted(atom.unit, written) ? atom.unit : written}`;
    }
    case 'number':
      return atom.text.replace('\u2212', '-');
    case 'times':
      return `${atom.value} x`;
    case 'range':
      return `${atom.from}-${atom.to}`;
    case 'terminal':
      return atom.text.replace('\u2212', '-');
    default:
      return atom.text;
  }
}

/** Misspelt units are findings with a fix of their own; the formatter does not hide them. */
function isAccepted(symbol: string, written: string): boolean {
  const unit = unitOf(symbol);
  return unit !== undefined && (written === symbol || unit.accepted.includes(written));
}

export interface TextEdit {
  readonly start: number;
  readonly end: number;
  readonly newText: string;
}

/** The formatter's changes as few edits: equal lines at the beginning and the end are left alone. */
export function formatEdits(tree: ShapedTree): TextEdit[] {
  const before = tree.text;
  const after = formatDocument(tree);
  if (before === after) return [];
  let start = 0;
  while (start < before.length && start < after.length && before[start] === after[start]) start += 1;
  // Back to a line's beginning, so that no edit cuts a line in two.
  start = before.lastIndexOf('\n', start - 1) + 1;
  let [endBefore, endAfter] = [before.length, after.length];
  while (endBefore > start && endAfter > start && before[endBefore - 1] === after[endAfter - 1]) {
    endBefore -= 1;
    endAfter -= 1;
  }
  return [{ start, end: endBefore, newText: after.slice(start, endAfter) }];
}
