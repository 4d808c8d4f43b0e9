/** Printing: the tree back to exactly its text; and the formatter's way in. */
import type { SpecTree, StatementNode } from './tree.ts';

export { formatDocument, formatEdits, type TextEdit } from './format.ts';

/** The exact text the tree was read from. */
export function printTree(tree: SpecTree): string {
  return tree.items.map((item) => (item.kind === 'gap' ? item.text : printStatement(item.node))).join('');
}

/** A statement's exact text, from its atoms and what stands between them. */
export function printStatement({ atoms, trailing }: StatementNode): string {
  return atoms.map(({ leading, text }) => leading + text).join('') + trailing;
}
