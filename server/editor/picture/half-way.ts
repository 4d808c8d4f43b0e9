/** Whether a spec is being written just now: then the picture stays as it was rather than lose what will be there again. */
import type { Analysis } from '../../analysis.ts';
import type { PictureGraph } from '../../reports/picture/scene.ts';
import { allRules } from '../../rules/all.ts';
import type { Finding } from '../../rules/rule.ts';

const languageSlugs: ReadonlySet<string> = new Set(
  allRules.filter(({ group }) => group === 'language').map(({ slug }) => slug),
);

/** The last picture that was drawn of a text as it was meant. */
export interface LastGood {
  readonly graph: PictureGraph;
  /** Errors of the language by their slug: those that the text had already. */
  readonly errors: ReadonlyMap<string, number>;
}

export function languageErrors({ findings }: Analysis): Map<string, number> {
  const counts = new Map<string, number>();
  for (const { slug } of findings.filter(isLanguageError)) counts.set(slug, (counts.get(slug) ?? 0) + 1);
  return counts;
}

/** An error of the language that came since, if any. */
export function newError({ findings }: Analysis, { errors }: LastGood): Finding | undefined {
  const left = new Map(errors);
  for (const finding of findings) {
    if (!isLanguageError(finding)) continue;
    const known = left.get(finding.slug) ?? 0;
    if (known === 0) return finding;
    left.set(finding.slug, known - 1);
  }
  return undefined;
}

/** Whether something of the picture, that was drawn, would be gone: a part, one of its terminals, its box, or a core. */
export function loses({ graph: before }: LastGood, after: PictureGraph): boolean {
  const parts = new Map(after.parts.map((part) => [part.name, part]));
  const cores = new Set(after.cores.map(({ id }) => id));
  return (
    before.parts.some(({ name, terminals, group }) => {
      const now = parts.get(name);
      if (now === undefined || now.terminals.length < terminals.length) return true;
      return group !== undefined && now.group === undefined;
    }) || before.cores.some(({ id }) => !cores.has(id))
  );
}

function isLanguageError({ slug, severity }: Finding): boolean {
  return severity === 'error' && languageSlugs.has(slug);
}
