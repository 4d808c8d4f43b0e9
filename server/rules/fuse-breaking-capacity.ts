/** A protective device that cannot interrupt the short circuit there can be at its place. */
import type { Answers } from '../answers/answers.ts';
import { breakingCapacity } from '../answers/clearing.ts';
import type { DeviceFault } from '../answers/fault-answers.ts';
import type { Part } from '../model/model.ts';
import { citeWithin } from '../tables/table.ts';
import { exceeds } from './exceeds.ts';
import { lampSpec } from './language.ts';
import type { Rule } from './rule.ts';
import { deviceName, kiloamps, names } from './words.ts';

const strong = 'battery B1 lithium-iron-phosphate, 12.8 V, 200 Ah, internal 3 mΩ';

export const rule: Rule = {
  slug: 'fuse-breaking-capacity',
  severity: 'error',
  group: 'protection',
  reads: [
    'fuse.breaks',
    'fuse.style',
    'fusebox.breaks',
    'breaker.breaks',
    'battery.internal',
    'battery.chemistry',
    'system.coldest',
  ],
  page: {
    title: 'A fuse or breaker that cannot break the short circuit there can be',
    why: 'It melts or opens, and the arc burns on inside it: it may burst, throw out hot metal and let the current flow on. Lithium batteries give so much that small fuses are often too weak for them.',
    limit:
      'The rated breaking capacity must not be below the prospective short-circuit current at the place of the device (IEC 60364-4-43 clause 434.5.1, from memory). The greatest is reckoned with batteries full, cables at 20 °C or at the coldest temperature stated (IEC 60909-0, from memory) and every source there. Where the internal resistance of a battery is not stated, the usual one of its kind is taken, and what is not more than twice above the breaking capacity is advice only. Where the breaking capacity is not stated, the usual figure of the body style stands in, from memory: blade 1000 A (ISO 8820-3), bolt-in and strip 2000 A (ISO 8820-5), string fuses of style `gpv` 10000 A (IEC 60269-6), style `class-t` 20000 A where so marked for d.c.; that is advice only, and so is a device behind another that breaks the current on every way from a battery: such back-up protection is allowed where the makers say that the two go together (IEC 60364-4-43 clause 434.5.1, from memory).',
    mend: 'Fit a device with a greater breaking capacity, or say `breaks` if its maker states more. Sometimes the resistance of a longer cable is enough: the current at the device is what counts.',
    see: ['supply-unfused', 'protection-too-far', 'fuse-never-blows', 'not-selective'],
    wrong: [
      lampSpec({
        battery: strong,
        fuse: 'fuse F1 5 A, blade, 32 V, breaks 1 kA # finds: fuse-breaking-capacity "breaks 1 kA"',
      }),
      lampSpec({ battery: strong, fuse: 'fuse F1 5 A, blade, 32 V # finds: fuse-breaking-capacity "5 A"' }),
      lampSpec(
        {
          battery: strong,
          fuse: 'fuse F1 5 A, blade, 32 V, breaks 1 kA # finds: fuse-breaking-capacity "breaks 1 kA"',
          feed: 'run W1 1.5 mm² red, 0.1 m, F2:out to F1:in',
        },
        'fuse F2 20 A, class-t, 125 V, breaks 20 kA',
        'run W4 4 mm² red, 0.1 m, B1:+ to F2:in',
      ),
      lampSpec({
        battery: strong,
        fuse: 'breaker F1 5 A, 60 V dc, breaks 1.5 kA # finds: fuse-breaking-capacity "breaks 1.5 kA"',
      }),
    ],
    right: [
      lampSpec({ battery: strong, fuse: 'fuse F1 5 A, cartridge, 125 V, breaks 20 kA' }),
      lampSpec({ battery: strong, fuse: 'fuse F1 5 A, class-t, 125 V' }),
      lampSpec({
        battery: strong,
        fuse: 'fuse F1 5 A, blade, 32 V, breaks 1 kA',
        feed: 'run W1 1.5 mm² red, 1 m, B1:+ to F1:in',
      }),
    ],
  },
  *check({ answers }) {
    for (const contacts of answers.contacts.values()) {
      const devices = contacts.flatMap(({ part, pole, device }) => {
        const breaks = device === undefined ? undefined : breakingCapacity(part, device.amps);
        return breaks !== undefined && exceeds(answers.faults.mostThrough(part, pole), breaks.amps)
          ? (answers.faults.ofDevice(part, pole) ?? [])
          : [];
      });
      const [first, ...others] = devices;
      if (first === undefined) continue;
      const worst = others.reduce((most, one) => (one.greatestAmps > most.greatestAmps ? one : most), first);
      const { part, pole, breaks, greatestAmps } = worst;
      if (breaks === undefined || !exceeds(greatestAmps, breaks.amps)) continue;
      const stated = breaks.from === 'stated';
      const guessed = exceeds(greatestAmps, certain * breaks.amps) ? [] : unsaidBefore(worst, answers);
      const backUp = worst.backedUpBy.map((device) => ({ ...device, name: deviceName(device.part, device.pole) }));
      const fit = `fit one that breaks ${kiloamps(greatestAmps)} or more`;
      const risk =
        backUp.length === 0
          ? `so it may burst or burn on: ${fit}${stated ? '' : ', or say what its maker states with `breaks`'}.`
          : `so it relies on ${names(backUp)} before it, which ${backUp.length === 1 ? 'breaks' : 'break'} that: keep it so only where the maker says that they go together, or ${fit}.`;
      yield {
        ...(stated && backUp.length === 0 && guessed.length === 0 ? {} : { severity: 'advice' as const }),
        message: `${said(worst)}, but ${kiloamps(greatestAmps)} can flow through it in a short circuit, ${risk}`,
        place: part.facts.place(stated ? 'breaks' : part.facts.says('rating') ? 'rating' : 'ways'),
        subject: part.name,
        figures: {
          greatestAmps,
          breaksAmps: breaks.amps,
          stated,
          backedUp: backUp.length > 0,
          device: deviceName(part, pole),
        },
        related: [
          ...guessed.map((battery) => ({
            message: `The resistance of ${battery.name} is a usual one: say \`internal\` where its maker states it`,
            place: battery.namePlace,
          })),
          ...backUp.map((device) => ({
            message: `${device.name} breaks ${kiloamps(greatestAmps)}`,
            place: device.part.facts.place('breaks'),
          })),
        ],
      };
    }
  },
};

/** A battery may have this many times the internal resistance that is usual for its kind (common practice, no source). */
const certain = 2;

/** Batteries on the side that drives the fault, the resistance of which is not said. */
function unsaidBefore({ part, pole, forwardAmps, backwardAmps }: DeviceFault, { network }: Answers): Part[] {
  const own = part.terminals
    .flatMap(({ id }) => network.at.get(id) ?? [])
    .find((edge) => edge.is === 'contact' && edge.part === part && edge.contact.pole === pole);
  if (own === undefined) return [];
  const reached = new Set([forwardAmps >= backwardAmps ? own.from : own.to]);
  for (const terminal of reached)
    for (const edge of network.at.get(terminal.id) ?? []) if (edge !== own) reached.add(edge.from).add(edge.to);
  const parts = new Set([...reached].map((terminal) => terminal.part));
  return [...parts].filter(({ kind, facts }) => kind.word === 'battery' && facts.number('internal') === undefined);
}

/** `F1 breaks 1 kA`; for what is not stated with the usual figure and where that is from. */
function said({ part, pole, breaks }: DeviceFault): string {
  if (breaks === undefined || breaks.from === 'stated')
    return `${part.name} breaks ${part.facts.written('breaks') ?? kiloamps(breaks?.amps ?? 0)} at most`;
  return `What ${deviceName(part, pole)} breaks is not said, usually ${kiloamps(breaks.amps)} (${citeWithin(breaks.from)})`;
}
