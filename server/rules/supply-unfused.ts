/** What a battery drives with no protective device anywhere on the way: loads, chargers' outputs, other batteries. */
import type { Answers } from '../answers/answers.ts';
import type { Core, Part, Run } from '../model/model.ts';
import { exceeds } from './exceeds.ts';
import { fusedInReturnOnly } from './fuse-in-return.ts';
import { lampSpec } from './language.ts';
import type { Reported, Rule } from './rule.ts';
import { amps, names } from './words.ts';

export const rule: Rule = {
  slug: 'supply-unfused',
  severity: 'error',
  group: 'protection',
  reads: ['run.ends', 'fuse.rating', 'breaker.rating', 'load.cranking', 'fusebox.way', 'fusebox.ways', 'system.limits'],
  page: {
    title: 'A circuit without a fuse',
    why: 'A battery gives hundreds of ampere into a chafed cable. Without a fuse nothing ends that but the cable, glowing.',
    limit:
      'Every conductor that a battery can drive has an overcurrent protective device (IEC 60364-4-43 clause 431, from memory; 33 CFR 183.455(a), confirmed). Panels, alternators, controllers and converters limit their own current, so a cable that carries that needs none at their end. Starter motors are exempt, and a cable between an alternator and its battery within the length that a first fuse may be away (common practice, no source). Where something hangs on a way of a fusebox for which no fuse is said, that is a warning.',
    mend: 'Put a fuse at the beginning of the circuit, close to the battery or busbar, no larger than the cable carries. A cable between two batteries wants one at each of its ends; one from a charger, controller or alternator wants it at the battery’s end.',
    see: ['controller-output-unfused', 'protection-too-far', 'fuse-in-return', 'bank-fuse-each', 'cable-too-small'],
    wrong: [
      lampSpec({
        fuse: 'switch F1 1 pole, 10 A dc, 24 V',
        feed: 'run W1 1.5 mm² red, 0.1 m, B1:+ to F1:1 # finds: supply-unfused "W1"',
        out: 'run W2 1.5 mm² red, 1.2 m, F1:2 to LAMP:+',
      }),
      lampSpec(
        {},
        'panel P1 100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.6 A',
        'controller U1 pwm, pv 50 V 10 A, output 10 A',
        'isolator QP 2 poles, 25 A dc, 60 V, category DC-PV2',
        'run W4 4 mm² red, 3 m, P1:+ to QP:1',
        'run W5 4 mm² black, 3 m, P1:- to QP:3',
        'run W20 4 mm² red, 1 m, QP:2 to U1:pv+',
        'run W21 4 mm² black, 1 m, QP:4 to U1:pv-',
        'run W6 4 mm² red, 2 m, U1:bat+ to B1:+ # finds: supply-unfused "W6"',
        'run W7 4 mm² black, 2 m, U1:bat- to B1:-',
      ),
      lampSpec(
        { fuse: 'fuse F1 5 A, blade, 32 V, breaks 2 kA' },
        'battery B2 lead-acid, 12 V, 80 Ah',
        'relay K1 coil 12 V 150 mA, contact 100 A',
        'run W4 16 mm² red, 1 m, B2:+ to K1:30 # finds: supply-unfused "W4"',
        'run W5 16 mm² red, 1 m, K1:87 to B1:+',
        'run W6 16 mm² black, 1 m, B2:- to B1:-',
        'switch S1 1 pole, 10 A dc, 24 V',
        'run W7 1 mm² red, 1 m, F1:out to S1:1',
        'run W9 1 mm² red, 1 m, S1:2 to K1:86',
        'run W8 1 mm² black, 1 m, K1:85 to B1:-',
      ),
    ],
    right: [
      lampSpec(),
      lampSpec(
        {},
        'load STARTER 90 A, cranking',
        'run W4 25 mm² red, 1 m, B1:+ to STARTER:+',
        'run W5 25 mm² black, 1 m, STARTER:- to B1:-',
      ),
    ],
  },
  *check({ model, answers }) {
    for (const part of model.parts.values()) if (part.kind.word === 'fusebox') yield* waysWithout(part, answers);
    // Where a device stands in the return instead, that is the finding.
    const inReturn = new Set(fusedInReturnOnly({ answers }).flatMap(({ loads }) => loads));
    for (const { cores, batteries, feeds } of answers.unfusedStretches) {
      const [first, ...others] = cores;
      if (first === undefined || (feeds.length > 0 && feeds.every((part) => inReturn.has(part)))) continue;
      const { run } = first;
      const along = [...new Set(cores.map((core) => core.run))];
      const figures = answers.cores.get(first);
      const from = names(batteries);
      const drives = feeds.filter((part) => !isSource(part));
      const gives = feeds.filter(isSource);
      const much = largest(cores, answers);
      const message =
        batteries.length > 1
          ? `${names(along)} ${along.length > 1 ? 'join' : 'joins'} ${from} with no fuse or breaker on the way, so each drives a short-circuit there: put one at every battery’s end, ${much}.`
          : drives.length > 0
            ? `${run.name} feeds ${names(drives)} from ${from} with no fuse or breaker on the way: put one at its beginning, ${much}.`
            : gives.length > 0
              ? `${run.name} joins ${names(gives)} to ${from} with no fuse or breaker on the way, so ${from} drives a short-circuit there: put one close to ${from}, ${much}.`
              : `${run.name} comes from ${from} with no fuse or breaker on the way: put one at its beginning, ${much}, or take it out.`;
      const named = new Set([run]);
      yield {
        message,
        place: run.namePlace,
        subject: run.name,
        figures: {
          ...(figures?.capacity === undefined ? {} : { capacityAmps: figures.capacity.amps }),
          designAmps: figures?.designAmps ?? 0,
        },
        related: [
          ...batteries.map((battery) => ({ message: `It is fed from ${battery.name}`, place: battery.namePlace })),
          ...others.flatMap((core) => {
            if (named.has(core.run)) return [];
            named.add(core.run);
            return [{ message: `${core.run.name} belongs to the same stretch`, place: core.run.namePlace }];
          }),
        ],
      };
    }
  },
};

/** Ways of a fusebox that something is joined to, with no fuse said for them: whether there is one nobody can tell. */
function* waysWithout(board: Part, { contacts, network }: Answers): Generator<Reported> {
  const said = board.facts.each('way').map((row) => {
    const first = row.number('way', 'way') ?? 0;
    return { first, last: row.number('way', 'last') ?? first };
  });
  const isSaid = (way: number) => said.some(({ first, last }) => way >= first && way <= last);
  const isLed = (way: number) => network.at.get(`${board.name}:${way}`)?.some(({ is }) => is === 'core') === true;
  const without = (contacts.get(board.name) ?? []).filter(({ pole }) => !isSaid(pole) && isLed(pole));
  const [first, ...more] = without;
  if (first === undefined) return;
  const ways = names(without.map(({ pole }) => ({ name: `${pole}` })));
  const [which, it] = more.length > 0 ? [`ways ${ways}`, 'them'] : [`way ${ways}`, 'it'];
  yield {
    severity: 'warning',
    message: `Something is fed from ${which} of ${board.name}, but no fuse is said for ${it}, so nothing there can be judged: say what is fitted, such as way ${first.pole} fuse ${amps(first.device?.amps ?? 5)}.`,
    place: board.facts.place('ways'),
    subject: board.name,
    figures: { ways },
    related: without.flatMap(({ feeds }) =>
      feeds.map((load) => ({ message: `${load.name} is fed from it`, place: load.namePlace })),
    ),
  };
}

/** What gives current as well as, or instead of, taking it. */
export function isSource({ kind, facts }: Part): boolean {
  const charger = ['controller', 'charger', 'converter', 'alternator', 'panel'].includes(kind.word);
  return charger || (kind.word === 'inverter' && facts.says('charges'));
}

/** The most that the device may be rated, for the weakest cable of the stretch where it lies; for what would blow one so small two. */
function largest(cores: readonly Core[], { cores: figures, limits, systemVolts }: Answers): string {
  const bounds = cores.flatMap((core) => {
    const capacity = figures.get(core)?.capacity;
    if (capacity === undefined || !(capacity.amps > 0)) return [];
    return [{ run: core.run, most: limits.permittedDeviceAmps(capacity, systemVolts).amps }];
  });
  const weakest = bounds.reduce<Bound | undefined>(
    (least, one) => (least === undefined || one.most < least.most ? one : least),
    undefined,
  );
  if (weakest === undefined || bounds.length < cores.length) return 'no larger than its cable carries';
  const [first] = bounds;
  const [core] = cores;
  const carried = (core && figures.get(core)?.designAmps) ?? 0;
  if (first === undefined || !exceeds(carried, weakest.most) || !exceeds(first.most, weakest.most))
    return `of at most ${amps(weakest.most)}, which is what ${told(weakest.run)} may have here`;
  const thin = new Map(bounds.filter(({ most }) => exceeds(carried, most)).map(({ run, most }) => [run, most]));
  const each = names([...thin].map(([run, most]) => ({ name: `${run.name} (${told(run)}) of at most ${amps(most)}` })));
  return `of at most ${amps(first.most)}, which is what ${told(first.run)} may have here, and one at the beginning of ${each}`;
}

const told = (run: Run): string => run.size?.written ?? 'its cable';

interface Bound {
  readonly run: Run;
  readonly most: number;
}
