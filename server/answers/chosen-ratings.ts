/**
 * Ratings that the tool would choose for blanks: of a device the smallest standard one that carries the design current,
 * if the cables it protects bear that; of a switch the smallest that its circuit cannot exceed.
 */
import type { Part, Run } from '../model/model.ts';
import type { Network } from '../model/network.ts';
import type { Capacity, LimitSet } from '../physics/limits/limit-set.ts';
import { switchAmps } from '../tables/sizes.ts';
import type { ChosenValue, Protection } from './answers.ts';
import { type Blank, blankIn, ratingSlot } from './blanks.ts';
import type { DesignCurrent } from './design-currents.ts';
import { type Holds, standardRatings } from './devices.ts';
import { groupBy } from './grouping.ts';
import { coresOf, type Way, type Wiring } from './wiring.ts';

export interface RatingQuestion {
  readonly network: Network;
  readonly wiring: Wiring;
  readonly limits: LimitSet;
  readonly design: readonly DesignCurrent[];
  protectionOf(way: Way): Protection;
  circuitAmps(way: Way): number;
  readonly holds: Holds;
  /** Undefined while a run's size is open: it is chosen to suit its device. */
  capacity(run: Run): Capacity | undefined;
  voltsOf(run: Run): number;
}

interface Wanted {
  readonly part: Part;
  readonly way: Way;
  readonly clause: string;
  readonly blank: Blank;
}

/** In the order of ways. */
export function chooseRatings(question: RatingQuestion): ChosenValue[] {
  const wanted = question.wiring.ways.flatMap((way): Wanted[] => {
    const [edge] = way.edges;
    if (edge?.is !== 'contact') return [];
    const { part, contact } = edge;
    if (part.kind.word === 'fusebox') {
      const fact = part.facts.all('way').findLast(({ clause }) => {
        const number = (slot: string) => clause.values.find((value) => value.slot === slot)?.atom;
        const [first, last] = [number('way'), number('last')];
        const from = first?.kind === 'number' ? first.value : Number.NaN;
        const to = last?.kind === 'number' ? last.value : from;
        return contact.pole >= from && contact.pole <= to;
      });
      const blank = blankIn(fact, 'rating');
      return blank === undefined ? [] : [{ part, way, clause: 'way', blank }];
    }
    const blank = blankIn(part.facts.fact('rating'), ratingSlot(part));
    return blank === undefined ? [] : [{ part, way, clause: 'rating', blank }];
  });
  const chosen: ChosenValue[] = [];
  for (const group of groupBy(wanted, ({ blank }) => blank.key).values()) {
    const choice = group[0]?.way.device === true ? deviceFor(group, question) : switchFor(group, question);
    if (choice === undefined) continue;
    const told = new Set<Part>();
    for (const { part, clause, blank } of group) {
      if (told.has(part)) continue;
      told.add(part);
      chosen.push({ subject: part.name, clause, text: `${choice.amps} A`, why: choice.why, place: blank.place });
    }
  }
  return chosen;
}

interface Choice {
  readonly amps: number;
  readonly why: string;
}

function deviceFor(
  group: readonly Wanted[],
  { design, network, wiring, limits, protectionOf, holds, capacity, voltsOf }: RatingQuestion,
): Choice | undefined {
  const needed = Math.max(...group.map(({ way }) => design[way.index]?.neededAmps ?? design[way.index]?.amps ?? 0));
  const [first] = group;
  if (first === undefined || !(needed > 0)) return undefined;
  const ratings = standardRatings(first.part.kind.word, first.part.facts.word('style')).filter(
    (one) => one >= needed * (1 - 1e-9),
  );
  const amps = ratings.find((one) => group.every(({ way }) => holds(way, one)));
  if (amps === undefined) return undefined;
  const own = new Set(group.map(({ part }) => part));
  for (const way of wiring.ways) {
    const [core] = coresOf(way, network);
    if (core === undefined) continue;
    const { devices, limitedSources } = protectionOf(way);
    const [device] = devices;
    if (devices.length !== 1 || limitedSources.length > 0 || device === undefined || !own.has(device.part)) continue;
    if (
      !group.some(
        (one) =>
          one.part === device.part && one.way.edges.some((e) => e.is === 'contact' && e.contact.pole === device.pole),
      )
    )
      continue;
    const good = capacity(core.run);
    if (good !== undefined && limits.permittedDeviceAmps(good, voltsOf(core.run)).amps < amps * (1 - 1e-9))
      return undefined;
  }
  const starts = amps === ratings[0] ? '' : ' that holds what its loads take when they start';
  return { amps, why: `the smallest standard rating for its design current of ${needed.toFixed(1)} A${starts}` };
}

function switchFor(group: readonly Wanted[], { design, circuitAmps }: RatingQuestion): Choice | undefined {
  const circuit = Math.max(...group.map(({ way }) => (Number.isFinite(circuitAmps(way)) ? circuitAmps(way) : 0)));
  const current = Math.max(...group.map(({ way }) => design[way.index]?.neededAmps ?? design[way.index]?.amps ?? 0));
  const needed = Math.max(circuit, current);
  const amps = switchAmps.find((one) => one >= needed * (1 - 1e-9));
  if (!(needed > 0) || amps === undefined) return undefined;
  return {
    amps,
    why:
      circuit > current
        ? `the smallest usual rating that the ${circuit.toFixed(1)} A of its circuit do not exceed`
        : `the smallest usual rating above the ${current.toFixed(1)} A it must carry`,
  };
}
