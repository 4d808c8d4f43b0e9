/** Runs the rules over an analysis in the making: each guarded, then `allow`, then in order of place. */
import { nearWords } from '../../grammar/near.ts';
import type { StatementNode } from '../../grammar/tree.ts';
import type { Model, PlacedProblem } from '../model/model.ts';
import { placeIn } from '../model/place.ts';
import { atOnce, type Steps } from '../model/steps.ts';
import type { Decides } from '../physics/limits/limit-set.ts';
import { allRules } from './all.ts';
import type { Finding, Reported, Rule, RuleContext } from './rule.ts';

export interface RuleResults {
  readonly findings: readonly Finding[];
  readonly accepted: readonly Finding[];
}

export function runRules(context: RuleContext, rules: readonly Rule[] = allRules): RuleResults {
  return atOnce(runRulesInSteps(context, rules));
}

export function* runRulesInSteps(context: RuleContext, rules: readonly Rule[] = allRules): Steps<RuleResults> {
  return judge(context.model, yield* found(context, rules), rules);
}

/** What rules find, before anything is accepted. */
export function* found(context: RuleContext, rules: readonly Rule[]): Steps<readonly Finding[]> {
  const findings: Finding[] = [];
  for (const rule of rules) {
    yield;
    try {
      for (const reported of rule.check(context)) findings.push(cautioned(finding(rule, reported), rule, context));
    } catch (error) {
      findings.push(failed(rule, error, context));
    }
  }
  return meaningful(context, findings);
}

/** What was found anywhere in a spec, after its `allow` statements, in order of place. */
export function judge(model: Model, found: readonly Finding[], rules: readonly Rule[] = allRules): RuleResults {
  const { kept, accepted, used } = applyAllowances(model, withoutGuesses(model, found, rules));
  return { findings: inOrder([...kept, ...judgeAllowances(model, used, rules)]), accepted: inOrder(accepted) };
}

/** Problems behind which a name may stand that could not be read. */
const hidesNames: ReadonlySet<string> = new Set([
  'unknown-name',
  'unknown-terminal',
  'unknown-statement',
  'missing-name',
]);

/** A name that could not be read may well mean the part that seems to lack something. */
function withoutGuesses({ problems }: Model, found: readonly Finding[], rules: readonly Rule[]): readonly Finding[] {
  const guesses = new Set(rules.filter(({ restsOnAllNames }) => restsOnAllNames === true).map(({ slug }) => slug));
  if (!found.some(({ slug }) => guesses.has(slug))) return found;
  const isUnsure = problems.some(({ slug }) => hidesNames.has(slug));
  return isUnsure ? found.filter(({ slug }) => !guesses.has(slug)) : found;
}

/** Rules whose figures are currents and drops as worked out. */
const restsOnCurrents: ReadonlySet<string> = new Set([
  'bank-unbalanced',
  'cable-too-small',
  'connector-below-fuse',
  'discharge-over-battery',
  'drop-over-limit',
  'fuse-below-load',
  'supply-unfused',
  'switch-below-fuse',
  'switch-below-load',
]);

/** Beside a short-circuit or a source the wrong way round, hundreds of ampere flow everywhere: that alone is told. */
function meaningful({ model, answers: { miswirings } }: RuleContext, found: readonly Finding[]): readonly Finding[] {
  if (miswirings.shorts.length === 0 && miswirings.reversed.length === 0 && miswirings.voltages.length === 0)
    return found;
  const isUpset = (name: string | undefined) => {
    const ends = model.runs.get(name ?? '')?.cores.flatMap(({ from, to }) => [from ?? [], to ?? []].flat());
    return (ends ?? model.parts.get(name ?? '')?.terminals ?? []).some((terminal) => miswirings.isUpset(terminal));
  };
  return found.filter(({ slug, subject }) => !restsOnCurrents.has(slug) || !isUpset(subject));
}

function finding(rule: Rule, reported: Reported): Finding {
  return {
    ...reported,
    message: readable(reported.message),
    slug: rule.slug,
    severity: reported.severity ?? rule.severity,
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
function cautioned(one: Finding, { slug, reads }: Rule, { answers }: RuleContext): Finding {
  const caution = answers.limits.cautionOn?.(restsOn[slug] ?? 'capacity');
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
function failed(rule: Rule, error: unknown, { model }: RuleContext): Finding {
  const uri = model.files[0]?.uri ?? '';
  return {
    slug: 'rule-failed',
    severity: 'warning',
    message: `The check ${rule.slug} could not be worked out here (${error instanceof Error ? error.message : String(error)}); the others were. Please report this with the spec.`,
    place: { uri, span: { start: 0, end: 0 } },
    subject: undefined,
    figures: { rule: rule.slug },
    related: [],
    fixes: [],
  };
}

/** That a check could not be worked out is nothing anybody can accept. */
const cannotBeAllowed: ReadonlySet<string> = new Set(['rule-failed', 'answers-failed']);

/** An empty text gives no reason; reading tells of it, so nothing is said here. */
function isReason(reason: string | undefined): boolean {
  return reason !== undefined && reason.trim() !== '';
}

function applyAllowances(model: Model, found: readonly Finding[]) {
  const kept: Finding[] = [];
  const accepted: Finding[] = [];
  const used = new Set<number>();
  for (const one of found) {
    const index = model.allowances.findIndex(
      ({ slug, subject, reason }) =>
        slug === one.slug && isReason(reason) && (subject === undefined || subject === one.subject),
    );
    if (index === -1 || cannotBeAllowed.has(one.slug)) kept.push(one);
    else {
      used.add(index);
      accepted.push(one);
    }
  }
  return { kept, accepted, used };
}

/** An `allow` that no longer matches anything, or names no finding there is, is itself a finding. */
function judgeAllowances(model: Model, used: ReadonlySet<number>, rules: readonly Rule[]): Finding[] {
  const slugs = rules.map(({ slug }) => slug);
  return model.allowances.flatMap(({ slug, slugPlace, subject, reason, origin }, index): Finding[] => {
    if (used.has(index) || !isReason(reason)) return [];
    const base = { place: slugPlace, subject: subject ?? slug, figures: {}, related: [] };
    if (!slugs.includes(slug)) {
      const near = nearWords(slug, slugs);
      return [
        {
          ...base,
          slug: 'allow-unknown',
          severity: 'warning',
          message:
            near.length > 0
              ? `There is no finding “${slug}”: did you mean ${near.join(' or ')}?`
              : `There is no finding “${slug}”: take this allow out, or name one from the list of findings.`,
          fixes: near.map((name) => ({
            title: `Write ${name}`,
            safe: false,
            edits: [{ place: slugPlace, newText: name }],
          })),
        },
      ];
    }
    const { node } = origin.statement;
    return [
      {
        ...base,
        slug: 'allow-unused',
        severity: 'warning',
        message: `Nothing here is found as ${slug}${subject === undefined ? '' : ` on ${subject}`} any more: take this allow out.`,
        fixes: [
          {
            title: 'Take this allow out',
            safe: true,
            // A comment may say more than the allow did.
            edits: [{ place: placeIn(origin, { start: 0, end: node.text.length }), newText: commentLines(node) }],
          },
        ],
      },
    ];
  });
}

/** The comments of a statement, a line each. */
function commentLines({ comments, text }: StatementNode): string {
  const newline = text.endsWith('\r\n') ? '\r\n' : '\n';
  return comments.map((comment) => `${comment.text.trim()}${newline}`).join('');
}

const rank = { error: 0, warning: 1, advice: 2 } as const;

function inOrder(findings: readonly Finding[]): Finding[] {
  return [...findings].sort(
    (a, b) =>
      (a.place.uri < b.place.uri ? -1 : a.place.uri > b.place.uri ? 1 : 0) ||
      a.place.span.start - b.place.span.start ||
      rank[a.severity] - rank[b.severity] ||
      (a.slug < b.slug ? -1 : a.slug > b.slug ? 1 : 0),
  );
}

/** A language rule hands on the problems of its slug that reading found. */
export function problemsOf(slug: string): (context: RuleContext) => Iterable<Reported> {
  return ({ model }) => model.problems.filter((problem: PlacedProblem) => problem.slug === slug);
}
