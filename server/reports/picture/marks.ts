/** Findings on the elements they are about: the core when its own words are at fault, else the part or cable. */
import type { Analysis } from '../../analysis.ts';
import type { Core, Model, Place } from '../../model/model.ts';
import type { Finding } from '../../rules/rule.ts';
import type { PictureMark } from './scene.ts';

/** `drawn` are the ids of what is on the sheet; a finding about nothing of that is about the sheet: its element is empty. */
export function marksOf({ findings, model }: Analysis, drawn: ReadonlySet<string>): PictureMark[] {
  const counts = new Map<string, number>();
  return findings.map((finding) => {
    const element = elementOf(finding, model, drawn);
    const key = `${finding.slug}:${element}`;
    const count = counts.get(key) ?? 0;
    counts.set(key, count + 1);
    const { uri, span } = finding.place;
    const { severity, slug, message } = finding;
    return {
      id: `mark:${slug}:${count}:${element}`,
      element,
      severity,
      slug,
      message,
      source: { uri, start: span.start, end: span.end, nameStart: span.start, nameEnd: span.end },
    };
  });
}

function elementOf({ place, subject }: Finding, model: Model, drawn: ReadonlySet<string>): string {
  const names = [subject, usedAt(model, place), declaredAt(model, place)];
  for (const name of names) {
    if (name === undefined) continue;
    const ids = idsOf(name, place, model);
    const found = ids.find((id) => drawn.has(id));
    if (found !== undefined) return found;
  }
  return '';
}

function idsOf(name: string, place: Place, model: Model): string[] {
  const run = model.runs.get(name);
  if (run !== undefined) {
    const told = run.cores.filter((core) => isWithin(place, core.place));
    return [...told, ...run.cores].map((core: Core) => `core:${run.name}/${core.index}`);
  }
  const part = model.parts.get(name.split(':')[0] ?? name);
  if (part === undefined) return [];
  if (part.kind.family !== 'enclosure') return [`part:${part.name}`];
  return [part, ...(part.enclosure === undefined ? [] : [part.enclosure])].map(({ name: box }) => `enclosure:${box}`);
}

function isWithin(inner: Place, outer: Place): boolean {
  return inner.uri === outer.uri && inner.span.start >= outer.span.start && inner.span.end <= outer.span.end;
}

function usedAt({ uses }: Model, place: Place): string | undefined {
  return uses.find((use) => isWithin(use.place, place) || isWithin(place, use.place))?.name;
}

/** The part or run in whose statement the place is. */
function declaredAt({ parts, runs }: Model, { uri, span }: Place): string | undefined {
  for (const { name, origin } of [...parts.values(), ...runs.values()]) {
    const { offset, node } = origin.statement;
    if (origin.file.uri === uri && span.start >= offset && span.start <= offset + node.text.length) return name;
  }
  return undefined;
}
