/** Solid bars between terminals of one part: upright beside the numbers, with a dot where one is joined to a lead, and none where it only crosses one. */
import type { Pen, Xy } from '../pen.ts';
import type { Wing } from '../plan.ts';
import type { PicturePart } from '../scene.ts';
import type { Lead } from './frame.ts';

type Links = PicturePart['links'];
type Leads = ReadonlyMap<string, Lead>;

/** From one bar to the next beside it, and from the numbers to the first. */
const laneStep = 6;
const aside = 4;
/** Below the upper lead, where a bar from one side to the other has neither a contact nor a number in its way. */
const below = 12;
/** Of the dot on a joint; and half the gap at a crossing. */
const joint = 3;
const gap = 3.5;

interface Stretch {
  readonly wing: Wing;
  readonly top: number;
  readonly bottom: number;
  readonly lane: number;
}

interface Placed {
  readonly ends: readonly [Lead, Lead];
  /** Where it goes across; undefined of one that stays on its side. */
  readonly across: number | undefined;
  /** A stretch an end, or one for both. */
  readonly stretches: readonly Stretch[];
}

/** Each on the first lane that is free beside it. */
function placed(links: Links, leads: Leads): Placed[] {
  const taken: Stretch[] = [];
  const stretch = (wing: Wing, one: number, other: number): Stretch => {
    const [top, bottom] = [Math.min(one, other), Math.max(one, other)];
    const inWay = taken.filter((by) => by.wing === wing && by.top <= bottom && top <= by.bottom);
    let lane = 0;
    while (inWay.some((by) => by.lane === lane)) lane += 1;
    const found = { wing, top, bottom, lane };
    taken.push(found);
    return found;
  };
  return links.flatMap(([from, to]): Placed[] => {
    const [one, other] = [leads.get(from), leads.get(to)];
    if (one === undefined || other === undefined || one === other) return [];
    const ends = [one, other] as const;
    if (one.wing === other.wing) return [{ ends, across: undefined, stretches: [stretch(one.wing, one.y, other.y)] }];
    const across = Math.min(one.y, other.y) + below;
    return [{ ends, across, stretches: ends.map(({ wing, y }) => stretch(wing, y, across)) }];
  });
}

/** What they take on either side of the contacts. */
export function roomForBars(links: Links, leads: Leads): number {
  const lanes = placed(links, leads).flatMap(({ stretches }) => stretches.map(({ lane }) => lane + 1));
  return lanes.length === 0 ? 0 : aside + Math.max(...lanes) * laneStep;
}

/** Between both edges of a body, `inset` being where the numbers end. */
export function drawBars(
  pen: Pen,
  links: Links,
  leads: Leads,
  { width, inset }: { readonly width: number; readonly inset: number },
): void {
  for (const { ends, across, stretches } of placed(links, leads)) {
    const at = stretches.map(({ wing, lane }) => {
      const x = inset + aside + lane * laneStep;
      return wing === 'left' ? x : width - x;
    });
    const [first, last] = [at[0] ?? 0, at.at(-1) ?? 0];
    const way: Xy[] = [
      [first, ends[0].y],
      ...(across === undefined
        ? []
        : ([
            [first, across],
            [last, across],
          ] as const)),
      [last, ends[1].y],
    ];
    // A lead that it only crosses is parted by a gap of paper, as cores are.
    for (const [i, { wing, top, bottom }] of stretches.entries())
      for (const { wing: own, y } of leads.values())
        if (own === wing && top < y && y < bottom) pen.rect((at[i] ?? first) - gap, y - 1.5, 2 * gap, 3, 'none');
    pen.line(way, 'heavy');
    pen.circle(first, ends[0].y, joint, 'none', 'ink');
    pen.circle(last, ends[1].y, joint, 'none', 'ink');
  }
}
