/** A controller set to a charging voltage that is not its battery’s. */
import type { Part } from '../model/model.ts';
import { chargeRange, chargeRangeSource } from '../tables/charge-ranges.ts';
import { cite, tellStatus } from '../tables/table.ts';
import { exceeds } from './exceeds.ts';
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
  reads: ['controller.charge-voltage', 'battery.charge-voltage', 'battery.chemistry', 'battery.voltage'],
  page: {
    title: 'A charging voltage that does not suit the battery',
    why: 'Charged too high, gel and glass mat dry out, and lithium cells are damaged or cut off. Charged too low, a lead battery is never full and sulphates.',
    limit: `The charging voltage that the battery’s maker states, within ${toleranceVolts} V for each 12 V (common practice, no source); above it is an error. Where the battery states none, the range usual for its chemistry: ${cite(chargeRangeSource)}.`,
    mend: 'Set the controller to what the battery’s maker asks for, and say it with `charge voltage`.',
    see: ['charge-current-over-battery', 'lithium-charged-in-frost'],
    wrong: [
      sunny({ controller: `, charge voltage 14.5 V${found('charge voltage 14.5 V')}`, battery: gel }),
      sunny({ controller: `, charge voltage 14.1 V${found('charge voltage 14.1 V')}` }),
      sunny({
        controller: `, charge voltage 14.41 V${found('charge voltage 14.41 V')}`,
        battery: `${gel}, charge voltage 14.2 V`,
      }),
    ],
    right: [
      sunny({ controller: ', charge voltage 14.4 V', battery: gel }),
      sunny({ controller: ', charge voltage 14.2 V' }),
      sunny({ controller: ', charge voltage 14.4 V', battery: `${gel}, charge voltage 14.2 V` }),
      sunny({ battery: `${gel}, charge voltage 14.2 V` }),
    ],
  },
  *check({ answers }): Iterable<Reported> {
    for (const { strings, nominalVolts, chargers } of answers.banks) {
      const wanted = strings.flatMap((string) => rangeOf(string, nominalVolts) ?? []);
      for (const { part } of chargers) {
        const set = part.facts.number('charge-voltage');
        if (set === undefined) continue;
        const bad = wanted.find(({ least, most }) => exceeds(set, most) || exceeds(least, set));
        if (bad === undefined) continue;
        const { least, most, stated, battery } = bad;
        const high = exceeds(set, most);
        const asks =
          stated === undefined
            ? `${battery.facts.word('chemistry')} is usually charged to ${volts(least)} to ${volts(most)} (typical, ${tellStatus(chargeRangeSource.status)})`
            : `its maker asks for ${volts(stated)}`;
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
        yield {
          ...(high && stated !== undefined ? { severity: 'error' as const } : {}),
          message: `${part.name} charges ${battery.name} to ${volts(set)}, but ${asks}, so it ${high ? 'is overcharged' : 'is never quite full'}: set ${part.name} to ${stated === undefined ? `what the maker of ${battery.name} asks for, and say that with charge voltage` : volts(stated)}.`,
          place: part.facts.place('charge-voltage'),
          subject: part.name,
          figures: { setVolts: set, leastVolts: least, mostVolts: most },
          related: [
            {
              message: `${battery.name} wants less or more`,
              place: battery.facts.place(stated === undefined ? 'chemistry' : 'charge-voltage'),
            },
          ],
          fixes,
        };
      }
    }
  },
};

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
