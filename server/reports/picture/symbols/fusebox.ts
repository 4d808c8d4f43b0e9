/** A fuse-board: its feed on the left, a fuse in every way on the right, and the negative bar below if it has one. */
import { snapUp } from '../measures.ts';
import { widthOf } from '../pen.ts';
import type { FinishedTerminal, PlannedPort, SymbolMaker, Wing } from '../plan.ts';
import {
  fixedPlan,
  headerHeight,
  headerWidth,
  type Lead,
  leadRoom,
  opposite,
  portsOf,
  stackLeads,
  terminalOf,
  wantedWing,
} from './frame.ts';

export const fusebox: SymbolMaker = (input) => {
  const { part, ends } = input;
  const feedWing = wantedWing(ends.get('in'), 'left');
  const wayWing = opposite(feedWing);
  const top = headerHeight(part);
  const ways = stackLeads(
    part.contacts.map(({ to }) => to),
    wayWing,
    top + 2,
    ends,
  );
  const first = ways.leads[0]?.y ?? top + 12;
  const feedRoom = leadRoom((ends.get('in') ?? []).length);
  const feed: Lead = {
    name: 'in',
    wing: feedWing,
    y: Math.max(first, top + 2 + feedRoom / 2),
    ends: ends.get('in') ?? [],
  };
  const negative = part.terminals.some(({ name }) => name === 'neg');
  const on = (wing: Wing) => (ends.get('neg') ?? []).filter(({ wants }) => wants === wing);
  const negRoom = leadRoom(Math.max(on('left').length, on('right').length)) + 4;
  const above = Math.max(ways.bottom, feed.y + feedRoom / 2);
  const negY = above + negRoom / 2;
  const bottom = above + (negative ? negRoom : 0) + 2;
  const rating = Math.max(0, ...part.contacts.map(({ rating: text }) => widthOf('rating', text)));
  const label = Math.max(0, ...part.contacts.map(({ to }) => widthOf('terminal', to)));
  const width = snapUp(Math.max(headerWidth(part) + 4, 34 + 30 + rating + label + 24));
  const mirrored = feedWing === 'right';
  const x = (fromLeft: number) => (mirrored ? width - fromLeft : fromLeft);
  const rail = x(32);
  const negLeads: Lead[] = negative
    ? [
        { name: 'neg', wing: 'left', y: negY, ends: on('left') },
        { name: 'neg', wing: 'right', y: negY, ends: on('right') },
      ]
    : [];
  const leads = [feed, ...ways.leads];
  const plan = fixedPlan(input, width, bottom, leads, (pen) => {
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
      pen.line([
        [rail, y],
        [x(width - 5), y],
      ]);
      pen.rect(Math.min(x(40), x(60)), y - 4, 20, 8);
      pen.line([
        [x(40), y],
        [x(60), y],
      ]);
      pen.text('rating', text, x(64), y - 3, mirrored ? 'end' : 'start');
      pen.text('terminal', to, x(width - 8), y - 4, mirrored ? 'start' : 'end');
    });
    if (negative) {
      const half = negRoom / 2 - 6;
      pen.rect(rail - 3, negY - half, 6, 2 * half, 'ink', 'paper');
      pen.text('terminal', 'neg', x(44), negY + 3, mirrored ? 'end' : 'start');
    }
  });
  const half = negRoom / 2 - 6;
  const terminals: FinishedTerminal[] = [
    ...leads.map((lead) => terminalOf(lead, width)),
    ...(negative ? [{ name: 'neg', side: 'left' as const, x: rail, top: negY - half, bottom: negY + half }] : []),
  ];
  const ports: PlannedPort[] = [...leads, ...negLeads].flatMap(portsOf);
  return { ...plan, ports, finish: (at, height) => ({ ...plan.finish(at, height), terminals }) };
};
