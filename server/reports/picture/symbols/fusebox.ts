/** A fuse-board: its feed on the left, a fuse in every way on the right, and the negative bar below if it has one. */
import { type Pen, widthOf } from '../pen.ts';
import type { FinishedTerminal, PlannedPort, SymbolMaker, Wing } from '../plan.ts';
import {
  bodyBottom,
  bodyWidth,
  fixedPlan,
  headerHeight,
  type Lead,
  leadRoom,
  opposite,
  pinnedLevel,
  portsOf,
  stackLeads,
  wingOf,
} from './frame.ts';

export const fusebox: SymbolMaker = (input) => {
  const { part, ends } = input;
  const feedWing = wingOf(input, 'in', 'left');
  const top = headerHeight(part);
  const ways = stackLeads(
    input,
    part.contacts.map(({ to }) => to),
    opposite(feedWing),
    top + 2,
  );
  const first = ways.leads[0]?.y ?? top + 12;
  const feedEnds = ends.get('in') ?? [];
  const feedRoom = leadRoom(feedEnds.length);
  const feedLevel = pinnedLevel(input, 'in') ?? Math.max(first, top + 2 + feedRoom / 2);
  const feed: Lead = { name: 'in', wing: feedWing, y: feedLevel, ends: feedEnds };
  const negative = part.terminals.some(({ name }) => name === 'neg');
  const on = (wing: Wing) => (ends.get('neg') ?? []).filter(({ wants }) => wants === wing);
  const negRoom = leadRoom(Math.max(on('left').length, on('right').length)) + 4;
  const above = Math.max(ways.bottom, feed.y + feedRoom / 2);
  const negLevel = pinnedLevel(input, 'neg') ?? above + negRoom / 2;
  const bottom = bodyBottom(input, (negative ? Math.max(above, negLevel + negRoom / 2) : above) + 2);
  const rating = Math.max(0, ...part.contacts.map(({ rating: text }) => widthOf('rating', text)));
  const label = Math.max(0, ...part.contacts.map(({ to }) => widthOf('terminal', to)));
  const width = bodyWidth(input, 34 + 30 + rating + label + 24);
  const mirrored = feedWing === 'right';
  const x = (fromLeft: number) => (mirrored ? width - fromLeft : fromLeft);
  const rail = x(32);
  const negPorts: PlannedPort[] = negative
    ? (['left', 'right'] as const).flatMap((wing) => portsOf({ name: 'neg', wing, y: negLevel, ends: on(wing) }))
    : [];
  const negTerminal = (at: ReadonlyMap<string, number>): FinishedTerminal => {
    const levels = [negLevel, ...negPorts.map(({ key, y }) => at.get(key) ?? y ?? negLevel)];
    return {
      name: 'neg',
      side: 'left',
      x: rail,
      level: negLevel,
      top: Math.min(...levels),
      bottom: Math.max(...levels),
    };
  };
  const draw = (pen: Pen, at: ReadonlyMap<string, number>) => {
    pen.rect(0, top, width, bottom - top, 'ink', 'none');
    pen.line([
      [x(5), feed.y],
      [rail, feed.y],
    ]);
    const last = Math.max(feed.y, ways.leads.at(-1)?.y ?? feed.y);
    pen.line(
      [
        [rail, Math.min(first, feed.y)],
        [rail, last],
      ],
      'heavy',
    );
    pen.text('terminal', 'in', x(8), feed.y - 4, mirrored ? 'end' : 'start');
    part.contacts.forEach(({ to, rating: text }, i) => {
      const y = ways.leads[i]?.y ?? first;
      // A way with no fuse said for it is an empty holder: nothing goes through it.
      const pieces = text === '' ? [rail, x(40), x(60), x(width - 5)] : [rail, x(width - 5)];
      for (let at = 0; at < pieces.length; at += 2)
        pen.line([
          [pieces[at] ?? rail, y],
          [pieces[at + 1] ?? rail, y],
        ]);
      pen.rect(Math.min(x(40), x(60)), y - 4, 20, 8);
      if (text !== '')
        pen.line([
          [x(40), y],
          [x(60), y],
        ]);
      pen.text('rating', text, x(64), y - 3, mirrored ? 'end' : 'start');
      pen.text('terminal', to, x(width - 8), y - 4, mirrored ? 'start' : 'end');
    });
    if (negative) {
      const { top: upper, bottom: lower } = negTerminal(at);
      pen.rect(rail - 3, upper - 5, 6, lower - upper + 10, 'ink', 'paper');
      pen.text('terminal', 'neg', x(8), negLevel - 4, mirrored ? 'end' : 'start');
    }
  };
  const leads = [feed, ...ways.leads];
  const plan = fixedPlan(input, { width, bottom, leads, draw });
  return {
    ...plan,
    ports: [...plan.ports, ...negPorts],
    finish(at) {
      const finished = plan.finish(at);
      if (!negative) return finished;
      const neg = negTerminal(at);
      return { ...finished, terminals: [...finished.terminals, { ...neg, x: neg.x + plan.bodyLeft }] };
    },
  };
};
