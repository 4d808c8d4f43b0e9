/** From what a rule hands in to a finding. */
import type { Decides, LimitSet } from '../physics/limits/limit-set.ts';
import type { Finding, Reported, Rule, RuleContext } from './rule.ts';

export function finding({ slug, severity }: Rule, reported: Reported): Finding {
  return {
    slug,
    severity: reported.severity ?? severity,
    message: readable(reported.message),
    place: reported.place,
    subject: reported.subject,
    figures: reported.figures ?? {},
    related: reported.related ?? [],
    fixes: reported.fixes ?? [],
  };
}

/** Of the rules that read the set of limits, those that rest on another figure of it than a capacity. */
const restsOn: Readonly<Record<string, Decides>> = {
  'drop-over-limit': 'drop',
  'protection-too-far': 'unfused',
};

/** A set of limits whose values nobody has compared says so on everything that rests on it. */
export function cautioned(one: Finding, { slug, reads }: Rule, limits: LimitSet): Finding {
  const caution = limits.cautionOn?.(restsOn[slug] ?? 'capacity');
  return caution === undefined || !reads.includes('system.limits')
    ? one
    : { ...one, message: `${one.message} ${caution}` };
}

/** No word that a person means is longer: of noise, a megabyte without a space, the beginning is enough. */
const longWord = /\S{81,}/gu;

/** A message on one line, without what cannot be shown and words without end. */
function readable(message: string): string {
  const shown = message.replace(/\p{Cc}+/gu, ' ');
  return shown.length <= 80 ? shown : shown.replace(longWord, (word) => `${word.slice(0, 60)}…`);
}

/** A rule that throws must not hide what the others find. */
export function failed({ slug }: Rule, error: unknown, { model }: RuleContext): Finding {
  const uri = model.files[0]?.uri ?? '';
  return {
    slug: 'rule-failed',
    severity: 'warning',
    message: `The check ${slug} could not be worked out here (${error instanceof Error ? error.message : String(error)}); the others were. Please report this with the spec.`,
    place: { uri, span: { start: 0, end: 0 } },
    subject: undefined,
    figures: { rule: slug },
    related: [],
    fixes: [],
  };
}
