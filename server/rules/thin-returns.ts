/** Returns that are thinner than what feeds them: told as such, and not once more as a cable too small. */

import type { Answers, CoreFigures } from '../answers/answers.ts';
import { physicalSize } from '../answers/conditions.ts';
import { keptWith } from '../model/lazily.ts';
import type { Part, Run } from '../model/model.ts';
import { areaMm2 } from '../physics/conductors.ts';
import type { RuleContext } from './rule.ts';

export interface ThinReturn {
  /** By the vehicle’s body, or by cable alone. */
  readonly through: 'body' | 'cable';
  /**
   * The thickest feed of the same circuit, which bears what protects it; thicker than the return. Where one goes to what the
   * return leads back from, it is that.
   */
  readonly feed: CoreFigures;
}

/** All of a spec, in the order of its runs. */
export const allThinReturns = keptWith((answers: Answers): ReadonlyMap<Run, ThinReturn> => {
  const thin = new Map<Run, ThinReturn>();
  for (const [run, cores] of answers.runs) {
    const one = lookedUp(cores, answers);
    if (one !== undefined) thin.set(run, one);
  }
  return thin;
});

/** Undefined for what is no return, or where its feed is no thicker: then both want a larger cable. Several rules ask. */
export function thinReturn(run: Run, { answers }: RuleContext): ThinReturn | undefined {
  return allThinReturns(answers).get(run);
}

/** Whether a return leads back from what a feed goes to, and the same devices protect both. A battery has much besides. */
export function leadsBackFrom(back: readonly CoreFigures[], feed: CoreFigures): boolean {
  if (feed.isReturn || feed.onPanelSide) return false;
  const key = keyOf(feed);
  const served = endsOf(feed).filter(({ kind }) => kind.word !== 'battery');
  return back.some((one) => keyOf(one) === key && endsOf(one).some((part) => served.includes(part)));
}

function endsOf({ core: { from, to } }: CoreFigures): Part[] {
  return [from, to].flatMap((end) => end?.part ?? []);
}

type Feeds = ReadonlyMap<string, readonly CoreFigures[]>;

function lookedUp(cores: readonly CoreFigures[], answers: Answers): ThinReturn | undefined {
  const [first] = cores;
  if (first === undefined || !isWholeReturn(cores)) return undefined;
  const own = areaOf(first);
  if (own === undefined) return undefined;
  const feeds = (feedsByDevices(answers).get(keyOf(first)) ?? []).filter(
    (feed) => (areaOf(feed) ?? 0) > own * 1.01 && bears(feed, answers),
  );
  const nearest = feeds.filter((feed) => leadsBackFrom(cores, feed));
  const thickest = thickestOf(nearest.length > 0 ? nearest : feeds);
  if (thickest === undefined) return undefined;
  const body = cores.some(({ core: { from, to } }) => [from, to].some((end) => end?.part.kind.word === 'chassis'));
  return { through: body ? 'body' : 'cable', feed: thickest };
}

/** Of several alike, the first by its name. */
function thickestOf(feeds: readonly CoreFigures[]): CoreFigures | undefined {
  return feeds.reduce<CoreFigures | undefined>(
    (most, one) =>
      most === undefined ||
      (areaOf(one) ?? 0) > (areaOf(most) ?? 0) ||
      (areaOf(one) === areaOf(most) && one.core.run.name < most.core.run.name)
        ? one
        : most,
    undefined,
  );
}

function areaOf({ core: { run } }: CoreFigures): number | undefined {
  return run.size === undefined ? undefined : areaMm2(physicalSize(run.size));
}

function bears({ capacity, protection }: CoreFigures, { limits, systemVolts }: Answers): boolean {
  return capacity !== undefined && protection.amps <= limits.permittedDeviceAmps(capacity, systemVolts).amps;
}

/** What protects a core; empty where nothing does. */
export function keyOf({ protection: { devices } }: CoreFigures): string {
  return devices
    .map(({ part, pole }) => `${part.name} ${pole}`)
    .sort()
    .join(', ');
}

/** Feeds by what protects them, those left out that stand before their device. */
export const feedsByDevices = keptWith(({ cores }: Answers): Feeds => {
  const feeds = new Map<string, CoreFigures[]>();
  for (const figures of cores.values()) {
    const key = figures.isReturn || figures.onPanelSide || figures.beforeFirstDevice ? '' : keyOf(figures);
    if (key === '') continue;
    const list = feeds.get(key);
    if (list === undefined) feeds.set(key, [figures]);
    else list.push(figures);
  }
  return feeds;
});

/** Returns by what protects them: runs whose cores all carry back what one set of devices lets through. */
export const returnsByDevices = keptWith(({ runs }: Answers): ReadonlyMap<string, readonly Run[]> => {
  const returns = new Map<string, Run[]>();
  for (const [run, cores] of runs) {
    const [first] = cores;
    if (first === undefined || !isWholeReturn(cores)) continue;
    const key = keyOf(first);
    const list = returns.get(key);
    if (list === undefined) returns.set(key, [run]);
    else list.push(run);
  }
  return returns;
});

/** Whether no core of a run carries anything out. */
export function isWholeReturn(cores: readonly CoreFigures[]): boolean {
  return cores.every(({ isReturn, onPanelSide }) => isReturn && !onPanelSide);
}
