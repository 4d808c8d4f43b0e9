/** What one text makes wrong with several parts, as `fuse F1 and F2 12 A`, is told once at that text, with all of their names. */
import type { Finding } from './rule.ts';

/** More names than these are counted. */
const mostNamed = 5;

/** `findings` in order of place, so that what stands at one place is together. */
export function oncePerText(findings: readonly Finding[]): Finding[] {
  const told: Finding[] = [];
  const others = new Map<Finding, string[]>();
  for (const one of findings) {
    const first = firstLike(told, one);
    if (first === undefined || one.subject === undefined) told.push(one);
    else others.set(first, [...(others.get(first) ?? []), one.subject]);
  }
  return others.size === 0 ? told : told.map((one) => withOthers(one, others.get(one)));
}

/** The finding told before of another part at the very place, and in the same words but for the name. */
function firstLike(told: readonly Finding[], { slug, place, subject, message }: Finding): Finding | undefined {
  for (let i = told.length - 1; i >= 0; i--) {
    const before = told[i] as Finding;
    const { uri, span } = before.place;
    if (uri !== place.uri || span.start !== place.span.start) return undefined;
    if (before.slug !== slug || span.end !== place.span.end || before.subject === subject) continue;
    if (subject !== undefined && message.replaceAll(subject, before.subject ?? '') === before.message) return before;
  }
  return undefined;
}

function withOthers(finding: Finding, names: readonly string[] | undefined): Finding {
  if (names === undefined) return finding;
  const shown = names.length <= mostNamed ? names : [...names.slice(0, mostNamed), `${names.length - mostNamed} more`];
  const last = shown.at(-1) ?? '';
  const listed = shown.length === 1 ? last : `${shown.slice(0, -1).join(', ')} and ${last}`;
  return { ...finding, message: `${finding.message} The same holds for ${listed}.` };
}
