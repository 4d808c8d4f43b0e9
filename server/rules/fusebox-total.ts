/** A fuse-board that lets through more than it is made for: in all, or in one way. */
import type { Answers } from '../answers/answers.ts';
import { keptWith } from '../model/lazily.ts';
import type { Part } from '../model/model.ts';
import { exceeds } from './exceeds.ts';
import { example } from './language.ts';
import { offerRating, smallerRating } from './other-rating.ts';
import { ratingPlace } from './rating-place.ts';
import type { Reported, Rule } from './rule.ts';
import { amps, protectors } from './words.ts';

const board = (fusebox: string, ...ways: string[]) =>
  example(
    'system "Shed" 12 V',
    'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
    'fuse F1 60 A, bolt-in, 58 V',
    fusebox,
    ...ways.map((way) => `    ${way}`),
    'socket S1 25 A, plugged in 20 A',
    'socket S2 25 A, plugged in 20 A',
    'run W1 16 mm² red, 0.1 m, B1:+ to F1:in',
    'run W2 16 mm² red, 0.6 m, F1:out to FB:in',
    'run W3 6 mm² red, 1 m, FB:1 to S1:+',
    'run W4 6 mm² black, 1 m, S1:- to B1:-',
    'run W5 6 mm² red, 1 m, FB:2 to S2:+',
    'run W6 6 mm² black, 1 m, S2:- to B1:-',
  );

export const rule: Rule = {
  slug: 'fusebox-total',
  severity: 'error',
  group: 'protection',
  reads: ['fusebox.total', 'fusebox.way', 'fusebox.most', 'fuse.rating', 'breaker.rating', 'load.power'],
  page: {
    title: 'A fuse-board that can be given more than it carries',
    why: 'Its rail and clips are made for so much in all, and each way for so much. Every fuse may be within its rating while the rail behind them glows.',
    limit:
      'What can flow in all, the rating of the device before it or the sum of its ways’ fuses, whichever is less, must not be above `total`; a way’s fuse must not be above the way’s `most` (the maker’s figures; IEC 60364-4-43 clause 433.1 for what carries the current, confirmed). Where its ways feed only fixed loads whose sum is within the total it is a warning.',
    mend: 'Fit a smaller fuse before the board, move circuits to another board, or take a board that carries more.',
    see: ['fuse-below-load', 'cable-too-small'],
    wrong: [
      board('fusebox FB 4 ways, total 40 A # finds: fusebox-total "total 40 A"', 'way 1 fuse 25 A', 'way 2 fuse 25 A'),
      board(
        'fusebox FB 4 ways, total 60 A',
        'way 1 fuse 25 A, most 20 A # finds: fusebox-total "25 A"',
        'way 2 fuse 25 A',
      ),
    ],
    right: [
      board('fusebox FB 4 ways, total 50 A', 'way 1 fuse 25 A', 'way 2 fuse 25 A'),
      board('fusebox FB 4 ways, total 60 A', 'way 1 fuse 25 A, most 30 A', 'way 2 fuse 25 A'),
    ],
  },
  *check({ model, answers }) {
    for (const part of model.parts.values()) {
      if (part.kind.word !== 'fusebox') continue;
      yield* inAll(part, answers);
      yield* wayByWay(part, answers);
    }
  },
};

function* inAll(part: Part, answers: Answers): Generator<Reported> {
  const total = part.facts.number('total');
  const contacts = answers.contacts.get(part.name) ?? [];
  const isLed = (id: string) => answers.network.at.get(id)?.some(({ is }) => is === 'core') === true;
  const used = total === undefined ? [] : contacts.filter(({ pole }) => isLed(`${part.name}:${pole}`));
  if (total === undefined || used.length === 0) return;
  const feeds = (answers.network.at.get(`${part.name}:in`) ?? []).flatMap((edge) =>
    edge.is === 'core' ? (answers.cores.get(edge.core) ?? []) : [],
  );
  const before = feeds.filter(({ protection }) => Number.isFinite(protection.amps) && !protection.blank);
  const beforeAmps = Math.max(0, ...before.map(({ protection }) => protection.amps));
  const ways = used.reduce((sum, { device }) => sum + (device?.amps ?? 0), 0);
  const open = used.some(({ device }) => device?.amps === undefined || device.blank) || before.length < feeds.length;
  const designAmps = Math.max(0, ...feeds.map((feed) => feed.designAmps));
  const canFlow = Math.min(beforeAmps, ways);
  const isTooMuch = exceeds(designAmps, total);
  if (!isTooMuch && (open || !exceeds(canFlow, total))) return;
  const base = {
    place: part.facts.place('total'),
    subject: part.name,
    figures: { totalAmps: total, beforeAmps, waysAmps: ways, designAmps },
    related: before
      .flatMap(({ protection }) => protection.devices)
      .map((device) => ({
        message: `${device.part.name} protects it at ${amps(device.amps)}`,
        place: device.part.namePlace,
      })),
  };
  if (isTooMuch) {
    yield {
      ...base,
      message: `${part.name} carries ${amps(total)} in all, but what hangs on it takes ${amps(designAmps)}: move circuits to another board, or take one that carries more.`,
    };
    return;
  }
  const loads = [...new Set(used.flatMap((way) => way.feeds))];
  const fixedAmps = used.reduce((sum, way) => sum + way.feedsAmps, 0);
  const fixed = used.every((way) => way.feedsFixed || way.feeds.length === 0) && !exceeds(fixedAmps, total);
  const [first] = before;
  const by =
    ways < beforeAmps || first === undefined
      ? `its ways are fused at ${amps(ways)} together`
      : `it is protected at ${amps(beforeAmps)} (${protectors(first.protection)})`;
  const calm = fixed
    ? ` It feeds only fixed loads, ${amps(fixedAmps)} in all from ${loads.length} of them, so it will do until something is added.`
    : '';
  yield {
    ...base,
    ...(fixed ? { severity: 'warning' as const } : {}),
    message: `${part.name} carries ${amps(total)} in all, but ${by}: fit ${amps(total)} or less before it, or share its circuits over two boards.${calm}`,
  };
}

/** `way 3 fuse 25 A most 20 A`, or `most` as a clause behind its way. */
function* wayByWay(part: Part, answers: Answers): Generator<Reported> {
  const mosts = mostOfWays(part);
  for (const contact of answers.contacts.get(part.name) ?? []) {
    const most = mosts.get(contact.pole);
    const rating = contact.device?.amps;
    if (most === undefined || rating === undefined || contact.device?.blank === true || !exceeds(rating, most))
      continue;
    yield {
      message: `Way ${contact.pole} of ${part.name} takes a fuse of ${amps(most)} at most, but has ${amps(rating)}: fit ${amps(most)} or less, and feed what needs more from a fuse of its own.`,
      place: ratingPlace(contact),
      subject: part.name,
      figures: { ratedAmps: rating, mostAmps: most, pole: contact.pole },
      fixes: offerRating(contact, smallerRating(contact, most)),
    };
  }
}

const mostOfWays = keptWith(({ facts }: Part): ReadonlyMap<number, number> => {
  const mosts = new Map<number, number>();
  const [ways, single] = [facts.each('way'), facts.each('most')];
  let [way, most] = [0, 0];
  let last: readonly number[] = [];
  for (const { clause } of facts.facts) {
    if (clause.spec.id === 'way') {
      const row = ways[way++];
      const from = row?.number('way', 'way') ?? 0;
      const to = Math.min(row?.number('way', 'last') ?? from, from + 60);
      last = Array.from({ length: Math.max(0, to - from + 1) }, (_, i) => from + i);
      const own = row?.number('way', 'most');
      for (const number of last) {
        if (own === undefined) mosts.delete(number);
        else mosts.set(number, own);
      }
    } else if (clause.spec.id === 'most') {
      const own = single[most++]?.number('most');
      if (own !== undefined) for (const number of last) mosts.set(number, own);
    }
  }
  return mosts;
});
