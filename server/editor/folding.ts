/** Folding: statements of several lines, remarks, `use` lines together, sections headed by a ruled remark, and `#region`s. */
import { type FoldingRange, FoldingRangeKind } from 'vscode-languageserver';
import type { ShapedTree } from '../../grammar/parse.ts';
import type { SourceText } from '../../grammar/text-in-blocks.ts';
import type { Analysis } from '../analysis.ts';

/** `# ---- Sun ----`, `# == Sun ==`: a remark that heads what follows, down to the next of its kind. */
const heading = /^#\s*([-=\u2014_*~])\1+\s*[^\s\-=\u2014_*~].*$/u;

/** `#region Sun` to `#endregion`, as people know it from elsewhere; a remark that only begins with the word has no end. */
const regionMark = /^#\s*(end)?region\b/iu;

export function folding({ tree, text, lines }: Analysis): FoldingRange[] {
  const ranges: FoldingRange[] = [];
  const fold = (startLine: number, endLine: number, kind?: FoldingRangeKind) => {
    if (endLine > startLine) ranges.push({ startLine, endLine, ...(kind === undefined ? {} : { kind }) });
  };
  const headings: number[] = [];
  let uses: { first: number; last: number } | undefined;
  const regions = regionsOf(tree);
  for (const { first, last } of regions) fold(first, last, FoldingRangeKind.Region);
  const marks = new Set(regions.flatMap(({ first, last }) => [first, last]));
  for (const item of tree.items) {
    if (item.kind === 'gap') {
      for (const { from, to } of remarks(item.text, (line) => marks.has(item.line + line)))
        fold(item.line + from, item.line + to, FoldingRangeKind.Comment);
      item.text.split('\n').forEach((line, i) => {
        if (heading.test(line.trim())) headings.push(item.line + i);
      });
      continue;
    }
    const last = lines.position(item.offset + item.node.text.trimEnd().length).line;
    fold(item.line, last);
    if (item.shaped.spec?.word === 'use') uses = { first: uses?.first ?? item.line, last };
    else if (uses !== undefined) {
      fold(uses.first, uses.last, FoldingRangeKind.Imports);
      uses = undefined;
    }
  }
  if (uses !== undefined) fold(uses.first, uses.last, FoldingRangeKind.Imports);
  const end = lastFilled(text, lines, 0, lines.lineCount - 1);
  for (const [i, line] of headings.entries())
    fold(line, lastFilled(text, lines, line, (headings[i + 1] ?? end + 1) - 1), FoldingRangeKind.Region);
  return ranges.sort((a, b) => a.startLine - b.startLine || b.endLine - a.endLine);
}

/** Regions by their first and last lines; a mark without its other belongs to none. */
function regionsOf({ items }: ShapedTree): { first: number; last: number }[] {
  const found: { first: number; last: number }[] = [];
  const open: number[] = [];
  for (const item of items) {
    if (item.kind !== 'gap' || !item.text.includes('#')) continue;
    item.text.split('\n').forEach((written, i) => {
      const mark = regionMark.exec(written.trim());
      if (mark === null) return;
      if (mark[1] === undefined) open.push(item.line + i);
      else {
        const first = open.pop();
        if (first !== undefined) found.push({ first, last: item.line + i });
      }
    });
  }
  return found;
}

/** Blocks of two remark lines or more in what stands between statements; a heading or a mark belongs to none. */
function remarks(gap: string, isMark: (line: number) => boolean): { from: number; to: number }[] {
  const blocks: { from: number; to: number }[] = [];
  let from: number | undefined;
  const lines = gap.split('\n').map((line) => line.trim());
  lines.forEach((line, i) => {
    const remark = line.startsWith('#') && !heading.test(line) && !isMark(i);
    if (remark) from ??= i;
    else if (from !== undefined) {
      blocks.push({ from, to: i - 1 });
      from = undefined;
    }
  });
  if (from !== undefined) blocks.push({ from, to: lines.length - 1 });
  return blocks;
}

/** The last line down to `line` that is not blank. */
function lastFilled(text: SourceText, lines: Analysis['lines'], first: number, line: number): number {
  let last = line;
  while (last > first && text.slice(lines.lineStart(last), lines.lineStart(last + 1)).trim() === '') last -= 1;
  return last;
}
