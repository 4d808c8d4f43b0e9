/** Applying the edits of a fix, as an editor would. */
import type { Edit } from '../../server/rules/rule.ts';

export type Files = Readonly<Record<string, string>>;

/** Files by name, `spec.amps` first; places speak of `memory:///NAME`. Edits of one fix must not overlap. */
export function applied(files: Files, edits: readonly Edit[]): Record<string, string> {
  const result: Record<string, string> = { ...files };
  const backwards = [...edits].sort((a, b) => b.place.span.start - a.place.span.start);
  const last = new Map<string, number>();
  for (const { place, newText } of backwards) {
    const name = place.uri.replace('memory:///', '');
    const text = result[name];
    const { start, end } = place.span;
    if (text === undefined) throw new Error(`a fix edits ${place.uri}, which is not there`);
    if (start < 0 || end < start || end > text.length) throw new Error(`a fix edits ${start}–${end} of ${text.length}`);
    if (end > (last.get(name) ?? Number.POSITIVE_INFINITY)) throw new Error('two edits of a fix overlap');
    last.set(name, start);
    result[name] = text.slice(0, start) + newText + text.slice(end);
  }
  return result;
}
