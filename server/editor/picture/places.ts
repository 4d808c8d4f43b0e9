/** From the elements of the picture to the words that they are drawn from, and back. */
import type { Location } from 'vscode-languageserver';
import type { Span } from '../../../grammar/tree.ts';
import type { Analysis } from '../../analysis.ts';
import type { PictureGraph, SourceRange } from '../../reports/picture/scene.ts';
import { linesOf, rangeOf } from '../ranges.ts';

/** Where an element, a finding, a terminal or a cable is written: its name, or the words at fault. Undefined when it is nowhere. */
export function sourceOf(analysis: Analysis, graph: PictureGraph, id: string): Location | undefined {
  const source = graph.sources.get(id) ?? graph.marks.find((mark) => mark.id === id)?.source;
  if (source === undefined) return undefined;
  const { uri, start, end, nameStart, nameEnd } = source;
  // One core of several is told by its own words, which hold no name.
  const span = nameStart >= start && nameEnd <= end ? { start: nameStart, end: nameEnd } : { start, end };
  return { uri, range: rangeOf(linesOf(analysis, uri), span) };
}

/**
 * Elements that are drawn from the line at an offset. Of those that are written there in one another, such as a core within its
 * cable, the inmost; of several cores on a line that under the offset.
 */
export function elementsAt(analysis: Analysis, graph: PictureGraph, uri: string, offset: number): string[] {
  const lines = linesOf(analysis, uri);
  const { line } = lines.position(offset);
  const row = { start: lines.offset({ line, character: 0 }), end: lines.offset({ line: line + 1, character: 0 }) };
  const drawn = drawnIds(graph);
  const here = [...graph.sources].filter(
    ([id, source]) => drawn.has(id) && source.uri === uri && touchesRow(source, row, offset),
  );
  const isOnRow = ([, { start, end }]: Written) => start >= row.start && end <= row.end;
  const under = inmost(here.filter(([, { start, end }]) => start <= offset && offset <= end));
  const onRow = here.filter(isOnRow);
  // In the indentation of a line that tells one core, that core is meant and not the cable round it.
  const meant = under.some(isOnRow) || onRow.length === 0 ? under : onRow;
  const ids = inmost(meant.length > 0 ? meant : here).map(([id]) => id);
  // The only core of a cable has the cable's words.
  return [...new Set(ids.flatMap((id) => coresOf(graph, id) ?? [id]))];
}

type Written = readonly [string, SourceRange];

/** Of ranges in one another the shortest. */
function inmost(written: readonly Written[]): readonly Written[] {
  const least = Math.min(...written.map(([, source]) => lengthOf(source)));
  return written.filter(([, source]) => lengthOf(source) === least);
}

/** What can be shown: terminals are shown by their part, and have its words. */
function drawnIds({ parts, cores, cables, groups }: PictureGraph): Set<string> {
  return new Set([
    ...parts.map(({ name }) => `part:${name}`),
    ...cores.map(({ id }) => id),
    ...cables.map(({ id }) => id),
    ...groups.map(({ id }) => id),
  ]);
}

/** A cable is shown by its cores. */
function coresOf({ cables }: PictureGraph, id: string): readonly string[] | undefined {
  return cables.find((cable) => cable.id === id)?.cores;
}

function touchesRow({ start, end }: SourceRange, row: Span, offset: number): boolean {
  // The end of a file has no next line: there the offset itself counts.
  return (start < row.end && end >= row.start) || (start <= offset && offset <= end);
}

function lengthOf({ start, end }: SourceRange): number {
  return end - start;
}
