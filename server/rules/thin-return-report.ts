/** How a return that is too thin is told, whichever way it goes. */
import type { CoreFigures } from '../answers/answers.ts';
import type { Run } from '../model/model.ts';
import { worstCore } from './cable-verdict.ts';
import type { Reported, RuleContext } from './rule.ts';
import { allThinReturns, leadsBackFrom, type ThinReturn } from './thin-returns.ts';
import { isToldAsTooSmall } from './told-as-too-small.ts';
import { amps, ampsSquared, protectors } from './words.ts';

export function* thinReturns(through: ThinReturn['through'], context: RuleContext): Generator<Reported> {
  for (const [run, thin] of allThinReturns(context.answers)) {
    if (thin.through !== through) continue;
    const cores = context.answers.runs.get(run) ?? [];
    const verdict = worstCore(cores, context);
    const capacityFails = verdict !== undefined && (verdict.by === 'device' || verdict.by === 'design');
    // One core by itself: all short circuits of a long spec are a great deal of work.
    const fault = capacityFails
      ? undefined
      : cores
          .flatMap(({ core }) => context.answers.faults.ofCore(core) ?? [])
          .find(({ withstands }) => withstands === false);
    if (!capacityFails && fault === undefined) continue;
    if (verdict?.by !== 'design' && isFeedTold(cores, context)) continue;
    const why =
      verdict !== undefined && capacityFails
        ? `${verdict.by === 'device' ? `is protected at ${amps(verdict.needed)} (${protectors(verdict.figures.protection)})` : `carries ${amps(verdict.needed)}`} but is good for ${amps(verdict.permitted)}`
        : `bears ${ampsSquared(fault?.withstand ?? 0)}, but a short circuit lets ${ampsSquared(fault?.letThrough ?? 0)} through before the fuse has opened`;
    yield report(run, thin, why, {
      ...(verdict === undefined ? {} : { neededAmps: verdict.needed, permittedAmps: verdict.permitted }),
      ...(fault === undefined ? {} : { letThrough: fault.letThrough ?? 0, withstand: fault.withstand ?? 0 }),
    });
  }
}

/**
 * Whether a feed of the same circuit is itself too small for its device. A fuse that is missing is told there, with this return
 * beside it: one smaller device makes both right.
 */
function isFeedTold(cores: readonly CoreFigures[], context: RuleContext): boolean {
  for (const feed of context.answers.cores.values())
    if (leadsBackFrom(cores, feed) && isToldAsTooSmall(feed.core.run, context)) return true;
  return false;
}

function report(run: Run, { through, feed }: ThinReturn, why: string, figures: Reported['figures']): Reported {
  const other = feed.core.run;
  const larger = other.size?.written;
  const way = through === 'body' ? ' by the body' : '';
  return {
    message: `${run.name} (${run.size?.written}) is the return${way} of what ${other.name} (${larger}) feeds, and ${why}: use ${larger} for it too.`,
    place: run.sizePlace,
    subject: run.name,
    figures: { feed: other.name, ...figures },
    related: [{ message: `${other.name} feeds it`, place: other.namePlace }],
    fixes:
      larger === undefined || run.facts.fact('size')?.fromStock !== undefined
        ? []
        : [{ title: `Use ${larger}`, safe: false, edits: [{ place: run.sizePlace, newText: larger }] }],
  };
}
