/** Runs the rules over an analysis in the making: each guarded, then `allow`, then in order of place. */
import type { Model, Terminal } from '../model/model.ts';
import { atOnce, type Steps } from '../model/steps.ts';
import { isAccepted } from './accepted.ts';
import { allRules } from './all.ts';
import { applyAllowances, judgeAllowances } from './allowances.ts';
import { cautioned, failed, finding } from './finding.ts';
import { joinedTo } from './joined.ts';
import { oncePerText } from './once-per-text.ts';
import { oneByOne } from './one-by-one.ts';
import type { Finding, Question, Rule, RuleContext } from './rule.ts';
import { toldTogether } from './told-together.ts';
import { withoutGuesses } from './unfinished.ts';

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
  const { limits } = context.answers;
  const findings: Finding[] = [];
  const failures = new Map<Rule, unknown>();
  for (const { rule, is } of yield* oneByOne(rules).judge(context, failures)) {
    if (typeof is === 'object') findings.push(cautioned(is, rule, limits));
    else collect(rule, is, context, findings, failures);
  }
  for (const rule of rules) {
    yield;
    if (rule.check !== undefined) collect(rule, rule.check, context, findings, failures);
  }
  for (const [rule, error] of failures) findings.push(failed(rule, error, context));
  return withoutCrossed(context, meaningful(context, findings));
}

/** What a rule finds is added; where it throws, what it found until then. */
function collect(
  rule: Rule,
  ask: Question,
  context: RuleContext,
  findings: Finding[],
  failures: Map<Rule, unknown>,
): void {
  try {
    for (const reported of ask(context))
      findings.push(cautioned(finding(rule, reported), rule, context.answers.limits));
  } catch (error) {
    if (!failures.has(rule)) failures.set(rule, error);
  }
}

/** What was found anywhere in a spec, after its `allow` statements, in order of place. */
export function judge(model: Model, found: readonly Finding[], rules: readonly Rule[] = allRules): RuleResults {
  const meant = toldTogether(model, withoutFollowing(model, withoutGuesses(model, found, rules)));
  const { kept, accepted, used } = applyAllowances(model, meant);
  const allowances = judgeAllowances(model, { used, found, rules });
  return { findings: oncePerText(inOrder([...kept, ...allowances])), accepted: inOrder(accepted) };
}

/** Rules whose figures are currents, voltages and drops as worked out, also those of a short circuit, or which batteries are in series. */
const restsOnFigures: ReadonlySet<string> = new Set([
  'bank-unbalanced',
  'cable-too-small',
  'cable-withstand',
  'charge-current-over-battery',
  'charging-drop',
  'coil-voltage',
  'connector-below-fuse',
  'discharge-over-battery',
  'drop-over-limit',
  'fuse-below-load',
  'fuse-breaking-capacity',
  'fuse-never-blows',
  'inverter-input-drop',
  'load-above-highest-voltage',
  'load-below-lowest-voltage',
  'load-on-part-of-bank',
  'not-selective',
  'pv-below-charging-voltage',
  'supply-unfused',
  'switch-below-fuse',
  'switch-below-load',
]);

/** What else follows from a positive and a negative that a switch joins. */
const followsFromCrossed: ReadonlySet<string> = new Set([
  ...restsOnFigures,
  'fuse-voltage',
  'series-rating-unstated',
  'switch-voltage',
  'voltage-collapse',
  'voltages-joined',
]);

/** Beside poles that swap plus and minus, batteries seem to be in series or shorted: of all that is joined there that alone is told. */
function withoutCrossed({ model, answers: { network } }: RuleContext, found: readonly Finding[]): readonly Finding[] {
  const joined = new Set<Terminal>();
  for (const { slug, subject = '', figures } of found) {
    const swapped = slug === 'poles-crossed' && figures.poles !== undefined && !isAccepted(model, slug, subject);
    const ends = swapped ? (model.parts.get(subject)?.terminals ?? []) : [];
    for (const end of ends) for (const one of joinedTo(end, network)) joined.add(one);
  }
  // Of batteries in series also what joins them: the set is walked while it grows.
  for (const { part } of joined)
    if (part.kind.word === 'battery')
      for (const end of part.terminals) if (!joined.has(end)) for (const one of joinedTo(end, network)) joined.add(one);
  if (joined.size === 0) return found;
  const isThere = (name: string) => {
    const ends = model.runs.get(name)?.cores.flatMap(({ from, to }) => [from ?? [], to ?? []].flat());
    return (ends ?? model.parts.get(name)?.terminals ?? []).some((one) => joined.has(one));
  };
  return found.filter(({ slug, subject }) => !followsFromCrossed.has(slug) || !isThere(subject ?? ''));
}

/**
 * Beside a short-circuit or a source the wrong way round, hundreds of ampere flow everywhere, and beside a battery that hangs on
 * one terminal the others of its bank have its share: that alone is told.
 */
function meaningful({ model, answers: { miswirings } }: RuleContext, found: readonly Finding[]): readonly Finding[] {
  const isSound = [miswirings.shorts, miswirings.reversed, miswirings.astray, miswirings.voltages].every(
    ({ length }) => length === 0,
  );
  if (isSound && !miswirings.anyHalved) return found;
  // What a core on the wrong pole brings flows through the bar it ends on as well.
  const astrayOn = new Set(miswirings.astray.map(({ end }) => end.part.name));
  const isUpset = (name: string | undefined) => {
    if (astrayOn.has(name ?? '')) return true;
    const ends = model.runs.get(name ?? '')?.cores.flatMap(({ from, to }) => [from ?? [], to ?? []].flat());
    return (ends ?? model.parts.get(name ?? '')?.terminals ?? []).some(
      (terminal) => miswirings.isUpset(terminal) || miswirings.isHalved(terminal),
    );
  };
  return found.filter(({ slug, subject }) => !restsOnFigures.has(slug) || !isUpset(subject));
}

/**
 * What only follows from a core that ends on the wrong terminal: the terminal that it should have ended on, and that nothing
 * can feed the part at its other end.
 */
function withoutFollowing(model: Model, found: readonly Finding[]): readonly Finding[] {
  const telling = found.filter(
    ({ slug, subject, figures }) =>
      (figures.meant !== undefined || slug === 'colour-and-polarity') && !isAccepted(model, slug, subject),
  );
  const meant = new Set(telling.flatMap(({ figures }) => figures.meant ?? []));
  const unfed = new Set(
    telling.flatMap(({ slug, figures }) => (slug === 'colour-and-polarity' ? (figures.part ?? []) : [])),
  );
  if (meant.size === 0 && unfed.size === 0) return found;
  return found.filter(({ slug, figures }) => {
    if (slug === 'terminal-unconnected') return !meant.has(figures.terminals ?? '');
    return slug !== 'case-unanswered' || figures.unfed === undefined || !unfed.has(figures.unfed);
  });
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
