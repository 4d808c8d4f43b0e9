/** What holds of the tree of any text, and texts that try it. */
import fc from 'fast-check';
import { expect } from 'vitest';
import { LineIndex } from '../../grammar/lines.ts';
import { parseDocument } from '../../grammar/parse.ts';
import { printTree } from '../../grammar/printer.ts';
import type { Atom, Span } from '../../grammar/tree.ts';
import { vocabulary } from '../../server/kinds/vocabulary.ts';

/** Asserts what holds of the tree of any text; throws on the first that does not. */
export function checkTree(text: string): void {
  const tree = parseDocument(text, vocabulary);
  expect(printTree(tree)).toBe(text);
  const lines = new LineIndex(text);
  let at = 0;
  for (const item of tree.items) {
    sure(item.offset === at && item.line === lines.position(at).line, `place of the item at ${at}`);
    at += (item.kind === 'gap' ? item.text : item.node.text).length;
    if (item.kind === 'gap') continue;
    const { node, shaped } = item;
    let last = 0;
    for (const atom of node.atoms) {
      const { start, end } = atom.span;
      sure(start - atom.leading.length === last && node.text.slice(start, end) === atom.text, `place of ${atom.text}`);
      last = end;
    }
    const edits = shaped.problems.flatMap(({ fixes = [] }) => fixes.flatMap((fix) => fix.edits));
    const spans: Span[] = [
      ...[...shaped.problems, ...edits, ...shaped.clauses, ...shaped.unknown, ...node.comments].map(({ span }) => span),
      ...shaped.clauses.flatMap(({ values }) => values.map(({ span }) => span)),
    ];
    const inside = ({ start, end }: Span) => start >= 0 && start <= end && end <= node.text.length;
    sure(spans.every(inside), `spans inside ${node.text}`);
    sure(sorted(shaped.clauses) && sorted(shaped.problems), `order in ${node.text}`);
    sure(new Set<Atom>(node.atoms).size === node.atoms.length, `atoms of ${node.text}`);
  }
  expect(at).toBe(text.length);
}

/** Quicker than an expectation, of which there would be millions. */
function sure(holds: boolean, what: string): void {
  if (!holds) throw new Error(`does not hold: ${what}`);
}

function sorted(placed: readonly { readonly span: Span }[]): boolean {
  return placed.every(({ span }, i) => i === 0 || (placed[i - 1]?.span.start ?? 0) <= span.start);
}

/** A text with one stretch replaced. */
export function mutated(text: string, from: number, length: number, put: string): string {
  const start = from % (text.length + 1);
  return text.slice(0, start) + put + text.slice(start + length);
}

/** Pieces that mean something, and what people and mishaps put between them. */
export const pieces = fc.constantFrom(
  ...[
    'run',
    'fuse',
    'panel',
    'isolator',
    'stock',
    'cable',
    'link',
    'case',
    'system',
    'use',
    'load',
    'reading',
    'expect',
    'W1',
    'Q1',
  ],
  ...[
    'Q1:1',
    'B1:+',
    'NEG',
    'to',
    'and',
    'in',
    'at',
    'on',
    'off',
    'all',
    'red',
    'green/yellow',
    'core',
    'spare',
    'along',
    'enters',
    'by',
  ],
  ...[
    '6',
    '6 mm²',
    '2,5 mm²',
    '1,000 W',
    '4.2 m',
    '10 AWG',
    'AWG 10',
    '#10',
    '6"',
    '5\'6"',
    '? A',
    '?',
    '-12 °C',
    '2 x',
    '1-3',
    '80A',
  ],
  ...[
    ' ',
    ' ',
    ' ',
    '  ',
    '\t',
    '\u00a0',
    '\n',
    '\n',
    '\n    ',
    '\r\n',
    '\r',
    ',',
    ', ',
    '#',
    ' # note',
    '"',
    '"text"',
    '=',
    ':',
    '/',
  ],
  ...[
    '@',
    '(',
    '°',
    '²',
    'é',
    'e\u0301',
    '🔋',
    '\ud83d',
    '\u0000',
    '\uFEFF',
    '\u2028',
    '2026-04-18',
    '10:30',
    'IP65',
    'M20',
    'tilt',
    'lowest',
  ],
);
