/**
 * The statements of a file in the order of the wiring: the system and what it rests on, sources, protection, switches and
 * joints, runs, loads, then what is said of them. Comments stay with the statement they stand above. The order of statements
 * means nothing, so nothing electrical changes.
 */
import { formatDocument } from '../../../grammar/format.ts';
import { parseDocument } from '../../../grammar/parse.ts';
import type { ShapedPlaced } from '../../../grammar/shaped.ts';
import type { Analysis } from '../../analysis.ts';
import { kindOf, vocabulary } from '../../kinds/vocabulary.ts';
import type { Edit } from '../../rules/rule.ts';
import { type Asked, type Offered, sortKind } from './offered.ts';
import { isSound, newlineOf } from './statements.ts';

/** In this order; what has the same rank keeps the order it has. */
const words = ['system', 'use', 'stock', 'place'];
const families = [
  ['enclosure'],
  ['source', 'conversion'],
  ['protection'],
  ['switching', 'joint', 'measurement', 'return'],
] as const;
const wordsBehind = ['run', 'load', 'case', 'expect', 'reading', 'allow'];

function rankOf({ shaped }: ShapedPlaced): number {
  const word = (shaped.wrapper ?? shaped.spec)?.word ?? '';
  const before = words.indexOf(word);
  if (before !== -1) return before;
  const family = word === 'link' ? 'switching' : kindOf(word)?.family;
  const among = families.findIndex((some) => some.some((one) => one === family));
  if (among !== -1) return words.length + among;
  return words.length + families.length + wordsBehind.indexOf(family === 'load' ? 'load' : word);
}

const known = new WeakMap<Analysis, boolean>();

/** Of two with one name the first counts, and so of two systems. */
const ofFirst: ReadonlySet<string> = new Set(['name-twice', 'second-system']);

/** Whether there is anything to sort, and nothing that cannot be read, or is said twice: that belongs where it stands. */
function isToSort(analysis: Analysis): boolean {
  let sortable = known.get(analysis);
  if (sortable === undefined) {
    const { statements } = analysis.tree;
    sortable =
      !analysis.model.problems.some(({ slug }) => ofFirst.has(slug)) &&
      statements.every((one, i) => i === 0 || rankOf(statements[i - 1] as ShapedPlaced) <= rankOf(one)) === false &&
      statements.every((one) => isSound(one) && one.shaped.spec !== undefined && !/^\s/u.test(one.node.text));
    known.set(analysis, sortable);
  }
  return sortable;
}

export function sortStatements({ analysis }: Asked): Offered[] {
  if (!isToSort(analysis)) return [];
  return [
    {
      title: 'Sort into sources, protection, runs and loads; comments stay with their statements',
      kind: sortKind,
      edits: () => sorted(analysis),
    },
  ];
}

interface Block {
  readonly rank: number;
  /** Comment lines above it that are not its notes, with the blank lines among them and behind. */
  readonly loose: string;
  readonly text: string;
}

function sorted(analysis: Analysis): readonly Edit[] {
  const { uri, tree } = analysis;
  const text = String(analysis.text);
  const newline = newlineOf(analysis);
  const mark = text.startsWith('\uFEFF') ? '\uFEFF' : '';
  let head = '';
  let gap = '';
  const blocks: Block[] = [];
  for (const item of tree.items) {
    if (item.kind === 'gap') {
      gap = item.text.replace(/^\uFEFF/u, '');
      continue;
    }
    const { loose, notes } = parted(gap);
    // What heads the file and belongs to no statement goes on heading it.
    const first = blocks.length === 0;
    if (first) head = loose;
    const ended = item.node.text.replace(/^\uFEFF/u, '').replace(/\r?\n?$/u, newline);
    blocks.push({ rank: rankOf(item), loose: first ? '' : loose, text: `${notes}${ended}` });
    gap = '';
  }
  const order = [...blocks].sort((a, b) => a.rank - b.rank);
  const lines = order.map(({ rank, loose, text: own }, i) => {
    const parts = loose !== '' || (i > 0 && order[i - 1]?.rank !== rank);
    return `${i > 0 && parts ? newline : ''}${loose}${own}`;
  });
  const tail = gap.trim() === '' ? '' : `${newline}${gap.replace(/^(?:[^\S\n]*\r?\n)+/u, '')}`;
  const whole = `${mark}${head}${lines.join('')}${tail}`;
  const tidy = formatDocument(tree) === text.replace(/(?<!\n)$/u, newline);
  const newText = tidy ? formatDocument(parseDocument(whole, vocabulary)) : whole;
  return [{ place: { uri, span: { start: 0, end: text.length } }, newText }];
}

/** A gap as the comments that stand by themselves, without the blank lines above them, and the notes of what follows. */
function parted(gap: string): { readonly loose: string; readonly notes: string } {
  const lines = gap.match(/[^\n]*\n|[^\n]+$/gu) ?? [];
  let from = lines.length;
  while (from > 0 && /^\s*#/u.test(lines[from - 1] ?? '')) from -= 1;
  const above = lines.slice(0, from).join('');
  return {
    loose: above.includes('#') ? above.replace(/^(?:[^\S\n]*\r?\n)+/u, '') : '',
    notes: lines.slice(from).join(''),
  };
}
