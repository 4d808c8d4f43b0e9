/** Parts of a kind that lack the same words are told of together, at the first of them: in a sketch hardly one has them. */
import type { Model } from '../model/model.ts';
import { isAccepted } from './accepted.ts';
import { sayUnstated, slug, type Unstated } from './ratings-unstated.ts';
import type { Finding } from './rule.ts';

/** Those that are accepted stand by themselves, so that an `allow` of one part accepts no other. */
export function toldTogether(model: Model, found: readonly Finding[]): readonly Finding[] {
  const groups = new Map<string, [Finding, ...Finding[]]>();
  for (const one of found) {
    if (one.slug !== slug || isAccepted(model, slug, one.subject)) continue;
    // Of several nothing is named that is usual for one rating alone.
    const { usual: _, ...alike } = one.figures;
    const key = JSON.stringify([one.place.uri, one.severity, alike]);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [one]);
    else group.push(one);
  }
  const joined = new Map<Finding, Finding | undefined>();
  for (const group of groups.values()) {
    if (group.length === 1) continue;
    const inOrder = group.sort((a, b) => a.place.span.start - b.place.span.start);
    for (const one of inOrder) joined.set(one, undefined);
    const [first] = inOrder;
    joined.set(first, together(first, inOrder));
  }
  return joined.size === 0 ? found : found.flatMap((one) => (joined.has(one) ? (joined.get(one) ?? []) : one));
}

function together(first: Finding, all: readonly Finding[]): Finding {
  const names = all.map(({ subject }) => subject ?? '');
  return {
    ...first,
    message: sayUnstated(names, unstatedOf(first)),
    related: all.slice(1).map(({ subject, place }) => ({ message: `${subject} does not say it either`, place })),
    fixes: [],
  };
}

function unstatedOf({ figures: { lacks, such, usual, onPanels } }: Finding): Unstated {
  return {
    lacks: lacks === 'voltage' || lacks === 'breaks' ? lacks : 'both',
    such: String(such),
    usual: String(usual),
    onPanels: onPanels === true,
  };
}
