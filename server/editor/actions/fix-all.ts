/**
 * Every safe fix of the file at once. What one fix lets be read may show another: the file is read again and mended again
 * until nothing safe is left. Where that finds no end, nothing is changed.
 */
import type { Analysis } from '../../analysis.ts';
import type { Place } from '../../model/model.ts';
import type { Edit, Fix } from '../../rules/rule.ts';
import { changesText } from './fixes.ts';
import { fixAllKind, type Offered } from './offered.ts';
import { Patched } from './patched.ts';

/** Reads the file again as if this were its text. */
export type Again = (text: string) => Analysis;

/** A fix that calls for another so many times calls for ever. */
const mostRounds = 12;

export function fixAll(analysis: Analysis, again?: Again): Offered[] {
  const count = safeFixes(analysis).length;
  if (count === 0) return [];
  return [
    {
      title: `Mend all that needs no decision (${count})`,
      kind: fixAllKind,
      edits: () => mended(analysis, again),
    },
  ];
}

/** Of several for one finding the first, and none that touches another's words or another file. */
function safeFixes(analysis: Analysis): Fix[] {
  const { findings, uri } = analysis;
  const taken: Place[] = [];
  const chosen: Fix[] = [];
  for (const { fixes } of findings) {
    const fix = fixes.find((one) => one.safe && changesText(analysis, one));
    if (fix === undefined) continue;
    if (fix.edits.some(({ place }) => place.uri !== uri || taken.some((other) => collides(place, other)))) continue;
    taken.push(...fix.edits.map(({ place }) => place));
    chosen.push(fix);
  }
  return chosen;
}

/** Whether two edits meet: equal places of insertion too, since their order would be a guess. */
function collides({ span: a }: Place, { span: b }: Place): boolean {
  if (a.start === b.start) return true;
  return a.start < b.end && b.start < a.end;
}

function mended(analysis: Analysis, again: Again | undefined): readonly Edit[] {
  const { uri } = analysis;
  const text = String(analysis.text);
  const first = safeFixes(analysis).flatMap(({ edits }) => edits);
  const patched = new Patched(text);
  const seen = new Set([text]);
  for (let edits = first; edits.length > 0; ) {
    patched.apply(edits.map(({ place, newText }) => ({ span: place.span, newText })));
    if (again === undefined) return first;
    if (seen.has(patched.text) || seen.size >= mostRounds) return [];
    seen.add(patched.text);
    edits = safeFixes(again(patched.text)).flatMap((fix) => fix.edits);
  }
  if (seen.size === 2) return first;
  return patched.changes().map(({ span, newText }) => ({ place: { uri, span }, newText }));
}
