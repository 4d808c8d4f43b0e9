/** How a rule of the language is made: its problems are found while reading; here stand its slug, severity and page. */
import type { Example, Reported, Rule, RuleContext, RulePage, Severity } from './rule.ts';

/** Where the limit of a rule of the language comes from. */
export const notationsOwn = 'A rule of the notation itself; there is no source outside it.';

/** Of what tells that something could not be worked out. */
export const noLimit =
  'There is no limit behind it: it tells what could not be worked out, so that nothing passes for checked.';

export function languageRule(slug: string, severity: Severity, page: Omit<RulePage, 'limit'>): Rule {
  return {
    slug,
    severity,
    group: 'language',
    scope: 'whole',
    reads: [],
    page: { ...page, limit: notationsOwn },
    check: ({ model: { problems } }: RuleContext) => problems.filter((problem) => problem.slug === slug),
  };
}

/** A small complete circuit around some lines, so that an example is about one thing. */
export function example(...lines: string[]): Example {
  return { spec: `${lines.join('\n')}\n` };
}

const lamp = {
  system: 'system "Shed" 12 V',
  battery: 'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
  fuse: 'fuse F1 5 A, blade, 32 V',
  load: 'load LAMP 12 W',
  feed: 'run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in',
  out: 'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+',
  back: 'run W3 1.5 mm² black, 1.3 m, LAMP:- to B1:-',
};

/** One lamp behind one fuse, with some of its lines replaced and others added. */
export function lampSpec(changes: Partial<Record<keyof typeof lamp, string>> = {}, ...more: string[]): Example {
  return example(...Object.values({ ...lamp, ...changes }), ...more);
}

/** From the fuse of that lamp to a switch S1, in place of its `out`, and from there on. */
export const throughS1 = {
  out: 'run W2 1.5 mm² red, 1.2 m, F1:out to S1:1',
  on: 'run W4 1.5 mm² red, 1 m, S1:2 to LAMP:+',
};

/** For findings that the runner itself makes. */
export const nothing = (): Iterable<Reported> => [];
