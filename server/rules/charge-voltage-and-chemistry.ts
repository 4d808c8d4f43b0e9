/** A controller set to a charging voltage that is not its battery’s, or an alternator above it. */
import type { Answers } from '../answers/answers.ts';
import type { Model, Part } from '../model/model.ts';
import { chargeRange, chargeRangeSource } from '../tables/charge-ranges.ts';
import { cite, tellStatus } from '../tables/table.ts';
import { isAccepted } from './accepted.ts';
import { batteriesChargedBy } from './batteries-charged-by.ts';
import { driven } from './driven-example.ts';
import { exceeds } from './exceeds.ts';
import { reach } from './reach.ts';
import type { Fix, Reported, Rule } from './rule.ts';
import { sunny } from './sunny.ts';
import { volts } from './words.ts';

/** What a stated charging voltage may be missed by, V for each 12 V of nominal voltage (common practice, no source). */
const toleranceVolts = 0.2;

const gel = 'gel, 12 V, 100 Ah, internal 15 mΩ';
const found = (words: string) => ` # finds: charge-voltage-and-chemistry "${words}"`;

export const rule: Rule = {
  slug: 'charge-voltage-and-chemistry',
  severity: 'warning',
  group: 'battery',
  reads: [
    'controller.charge-voltage',
    'alternator.voltage',
    'battery.charge-voltage',
    'battery.chemistry',
    'battery.voltage',
    'run.ends',
  ],
  page: {
    title: 'A charging voltage that does not suit the battery',
    why: 'Charged too high, gel and glass mat dry out, and lithium cells are damaged or cut off. Charged too low, a lead battery is never full and sulphates.',
    limit: `The charging voltage that the battery’s maker states, within ${toleranceVolts} V for each 12 V (common practice, no source); above it is an error. Where the battery states none, the range usual for its chemistry: ${cite(chargeRangeSource)}. An alternator that charges the battery with nothing between that limits it is held to the greatest of that.`,
    mend: 'Set the controller to what the battery’s maker asks for, and say it with `charge voltage`. Between an alternator and a battery that bears less fit a battery-to-battery charger.',
    see: ['charge-current-over-battery', 'alternator-without-limit', 'lithium-charged-in-frost'],
    wrong: [
      sunny({ controller: `, charge voltage 14.5 V${found('charge voltage 14.5 V')}`, battery: gel }),
      sunny({ controller: `, charge voltage 14.1 V${found('charge voltage 14.1 V')}` }),
      sunny({
        controller: `, charge voltage 14.41 V${found('charge voltage 14.41 V')}`,
        battery: `${gel}, charge voltage 14.2 V`,
      }),
      driven(gel, `14.41 V, 80 A, fixed${found('14.41 V')}`),
      driven(`${gel}, charge voltage 14.2 V`, `14.5 V, 80 A, fixed${found('14.5 V')}`),
    ],
    right: [
      sunny({ controller: ', charge voltage 14.4 V', battery: gel }),
      sunny({ controller: ', charge voltage 14.2 V' }),
      sunny({ controller: ', charge voltage 14.4 V', battery: `${gel}, charge voltage 14.2 V` }),
      sunny({ battery: `${gel}, charge voltage 14.2 V` }),
      driven(gel, '14.4 V, 80 A, fixed'),
      driven(gel, '13.5 V, 80 A, fixed'),
    ],
  },
  *check({ model, answers }): Iterable<Reported> {
    for (const { strings, nominalVolts, chargers } of answers.banks) {
      const wanted = strings.flatMap((string) => rangeOf(string, nominalVolts) ?? []);
      for (const { part } of chargers) {
        const set = part.facts.number('charge-voltage');
        const bad = set === undefined ? undefined : wanted.find((one) => isAbove(set, one) || exceeds(one.least, set));
        if (set !== undefined && bad !== undefined) yield ofCharger(part, set, bad);
      }
    }
    for (const part of model.parts.values())
      if (part.kind.word === 'alternator') yield* ofAlternator(part, model, answers);
  },
};

type Wanted = NonNullable<ReturnType<typeof rangeOf>>;

const isAbove = (volts: number, { most }: Wanted): boolean => exceeds(volts, most);

/** `gel is usually charged to 13.8 V to 14.4 V`, `its maker asks for 14.2 V`. */
function asks({ least, most, stated, battery }: Wanted): string {
  return stated === undefined
    ? `${battery.facts.word('chemistry')} is usually charged to ${volts(least)} to ${volts(most)} (typical, ${tellStatus(chargeRangeSource.status)})`
    : `its maker asks for ${volts(stated)}`;
}

function ofCharger(part: Part, set: number, bad: Wanted): Reported {
  const { stated, battery } = bad;
  const high = isAbove(set, bad);
  const fixes: Fix[] =
    stated === undefined || part.facts.fact('charge-voltage')?.fromStock !== undefined
      ? []
      : [
          {
            title: `Set it to ${volts(stated)}`,
            safe: false,
            edits: [{ place: part.facts.place('charge-voltage'), newText: `charge voltage ${volts(stated)}` }],
          },
        ];
  return {
    ...common(part, set, bad),
    message: `${part.name} charges ${battery.name} to ${volts(set)}, but ${asks(bad)}, so it ${high ? 'is overcharged' : 'is never quite full'}: set ${part.name} to ${stated === undefined ? `what the maker of ${battery.name} asks for, and say that with charge voltage` : volts(stated)}.`,
    place: part.facts.place('charge-voltage'),
    fixes,
  };
}

/** One that gives less is no fault: others may charge the battery fully, and an engine seldom runs for so long. */
function* ofAlternator(part: Part, model: Model, { banks, network, miswirings }: Answers): Iterable<Reported> {
  const regulated = part.facts.number('voltage');
  const plus = part.terminals.find(({ spec }) => spec.polarity === '+');
  if (regulated === undefined || plus === undefined || miswirings.isUpset(plus)) return;
  const tooLow = banks.flatMap(({ strings, batteries, nominalVolts }) =>
    strings
      .flatMap((string) => rangeOf(string, nominalVolts) ?? [])
      .filter((wanted) => isAbove(regulated, wanted) && !isToldAsUnlimited(part, wanted.battery, model))
      .map((wanted) => ({ wanted, batteries })),
  );
  if (tooLow.length === 0) return;
  const charged = new Set(batteriesChargedBy(part, plus, network, model));
  // Without a way back, as before a strap between two in series is fitted, it charges nothing.
  const minus = part.terminals.find(({ spec }) => spec.polarity === '-');
  const back = minus === undefined ? undefined : reach(minus, network, () => true);
  const isReturned = ({ terminals }: Part) =>
    back === undefined || terminals.some((one) => one.spec.polarity === '-' && back.has(one));
  const bad = tooLow.find(
    ({ wanted, batteries }) => isReturned(wanted.battery) && batteries.some((battery) => charged.has(battery)),
  )?.wanted;
  if (bad === undefined) return;
  const { battery } = bad;
  yield {
    ...common(part, regulated, bad),
    message: `${part.name} charges ${battery.name} to ${volts(regulated)} with nothing between that limits it, but ${asks(bad)}, so it is overcharged: fit a battery-to-battery charger between, or a regulator for the voltage that the maker of ${battery.name} asks for.`,
    place: part.facts.place('voltage'),
  };
}

/** What a lithium battery wants between is told of by itself, and settles the voltage too. */
function isToldAsUnlimited(part: Part, { facts }: Part, model: Model): boolean {
  return (
    facts.word('chemistry')?.startsWith('lithium') === true && !isAccepted(model, 'alternator-without-limit', part.name)
  );
}

function common(part: Part, set: number, bad: Wanted) {
  const { least, most, stated, battery } = bad;
  return {
    ...(isAbove(set, bad) && stated !== undefined ? { severity: 'error' as const } : {}),
    subject: part.name,
    figures: { setVolts: set, leastVolts: least, mostVolts: most },
    related: [
      {
        message: `${battery.name} wants ${isAbove(set, bad) ? 'less' : 'more'}`,
        place: battery.facts.place(stated === undefined ? 'chemistry' : 'charge-voltage'),
      },
    ],
  };
}

/** What a string of batteries is to be charged to. */
function rangeOf(string: readonly Part[], nominalVolts: number) {
  const [battery] = string;
  if (battery === undefined) return undefined;
  const said = string.map(({ facts }) => facts.number('charge-voltage'));
  if (said.every((one) => one !== undefined)) {
    const stated = said.reduce<number>((sum, one) => sum + (one ?? 0), 0);
    const slack = (toleranceVolts * nominalVolts) / 12;
    return { battery, stated, least: stated - slack, most: stated + slack };
  }
  const usual = chargeRange(battery.facts.word('chemistry') ?? '', nominalVolts);
  return usual === undefined ? undefined : { battery, stated: undefined, ...usual };
}
