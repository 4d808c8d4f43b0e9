/** A relay: the coil above, the contact it moves below, a dashed line between them. */
import type { Pen, Xy } from '../pen.ts';
import type { SymbolMaker } from '../plan.ts';
import {
  bodyBottom,
  bodyWidth,
  fixedPlan,
  headerHeight,
  type Lead,
  leadRoom,
  opposite,
  pinnedLevel,
  wantedWing,
} from './frame.ts';

export const relay: SymbolMaker = (input) => {
  const { part, ends } = input;
  const on = (name: string) => ends.get(name) ?? [];
  const { pinned } = input;
  const coilWing = pinned?.wing('86') ?? wantedWing([...on('86'), ...on('85')], 'left');
  const commonWing =
    pinned?.wing('30') ??
    (on('30').length > 0 ? wantedWing(on('30'), 'left') : opposite(wantedWing(on('87'), 'right')));
  const top = headerHeight(part);
  let y = top;
  const row = (name: string, wing: Lead['wing'], beside = 0): Lead => {
    const room = leadRoom(Math.max(on(name).length, beside));
    const level = pinnedLevel(input, name) ?? y + room / 2;
    y = Math.max(y, level + room / 2);
    return { name, wing, y: level, ends: on(name) };
  };
  const plus = row('86', coilWing);
  const minus = row('85', coilWing);
  const closing = row('87', opposite(commonWing), on('30').length);
  const common: Lead = { name: '30', wing: commonWing, y: closing.y, ends: on('30') };
  const resting = row('87a', opposite(commonWing));
  const leads = [plus, minus, common, closing, resting];
  const width = bodyWidth(input, 104);
  const bottom = bodyBottom(input, y + 2);
  const middle = width / 2;
  const out = (lead: Lead) => (lead.wing === 'left' ? 5 : width - 5);
  const draw = (pen: Pen) => {
    pen.rect(0, top, width, bottom - top, 'fine', 'paper');
    const coil = (plus.y + minus.y) / 2;
    for (const [lead, edge] of [
      [plus, coil - 6],
      [minus, coil + 6],
    ] as const)
      pen.line([
        [out(lead), lead.y],
        [middle, lead.y],
        [middle, edge],
      ]);
    pen.rect(middle - 14, coil - 6, 28, 12);
    const way = commonWing === 'left' ? 1 : -1;
    pen.line([
      [out(common), common.y],
      [middle - way * 12, common.y],
    ]);
    pen.line([
      [middle + way * 14, closing.y],
      [out(closing), closing.y],
    ]);
    pen.line([
      [middle + way * 14, resting.y],
      [out(resting), resting.y],
    ]);
    const pole = part.contacts.find(({ operated }) => operated === 'coil')?.pole ?? 1;
    const hinge: Xy = [middle - way * 12, common.y];
    // At rest: on the lower contact.
    pen.blade([hinge, [middle + way * 15, resting.y - 3]], { pole, closed: false, atRest: true });
    pen.blade([hinge, [middle + way * 14, closing.y]], { pole, closed: true, atRest: false });
    pen.dot(middle - way * 12, common.y);
    pen.circle(middle + way * 14, closing.y, 2, 'fine', 'paper');
    pen.circle(middle + way * 14, resting.y, 2, 'fine', 'paper');
    pen.line(
      [
        [middle, coil + 6],
        [middle, (common.y + resting.y) / 2 - 2],
      ],
      'dashed',
    );
    for (const { name, wing, y: level } of leads) {
      if (wing === 'left') pen.text('terminal', name, 8, level - 4, 'start');
      else pen.text('terminal', name, width - 8, level - 4, 'end');
    }
  };
  return fixedPlan(input, { width, bottom, leads, draw });
};
