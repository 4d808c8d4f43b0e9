/** Chargers that together give a battery more than it may take. */
import type { Part } from '../model/model.ts';
import { exceeds } from './exceeds.ts';
import { example } from './language.ts';
import type { Rule } from './rule.ts';
import { amps, names } from './words.ts';

function charged(battery: string, ...chargers: string[]) {
  return example(
    'system "Shed" 12 V',
    `battery B1 agm, 12 V, 100 Ah, internal 15 mΩ${battery}`,
    'busbar POS and NEG',
    'fuse F1 60 A, bolt-in, 58 V, breaks 5 kA',
    'run W1 16 mm² red, 0.2 m, B1:+ to F1:in',
    'run W2 16 mm² red, 0.4 m, F1:out to POS',
    'run W3 16 mm² black, 0.6 m, B1:- to NEG',
    ...chargers.flatMap((amps, i) => [
      `charger U${i + 1} 12 V, ${amps}, from mains, insulated case`,
      `run R${i + 1} 16 mm² red, 0.6 m, U${i + 1}:out+ to POS`,
      `run K${i + 1} 16 mm² black, 0.6 m, U${i + 1}:out- to NEG`,
    ]),
  );
}

export const rule: Rule = {
  slug: 'charge-current-over-battery',
  severity: 'error',
  group: 'battery',
  reads: ['battery.charge', 'charger.current', 'controller.output', 'inverter.charges', 'panel.power'],
  page: {
    title: 'More charge than the battery may take',
    why: 'Charged too fast a battery gets hot and gasses; lithium cells are damaged for good, or their protection cuts off under full current.',
    limit:
      'The greatest charge current that the maker states, with `charge`; in a bank the sum of its strings. A controller gives no more than its panels can. One charger alone above it is an error; that several together are above it a warning, since they seldom all run at once (common practice, no source). An alternator is not counted: a lead battery takes what it takes.',
    mend: 'Take a smaller charger, or set its current lower and state that; or take a battery that stands more.',
    see: [
      'charge-voltage-and-chemistry',
      'discharge-over-battery',
      'alternator-without-limit',
      'lithium-charged-in-frost',
    ],
    wrong: [
      charged(', charge 30 A # finds: charge-current-over-battery "charge 30 A"', '30.1 A'),
      charged(', charge 30 A # finds: charge-current-over-battery "charge 30 A"', '20 A', '10.1 A'),
    ],
    right: [charged(', charge 30 A', '30 A'), charged(', charge 30 A', '20 A', '10 A'), charged('', '60 A')],
  },
  *check({ answers }) {
    for (const { strings, batteries, chargers } of answers.banks) {
      const most = strings.reduce((sum, string) => sum + takenBy(string), 0);
      const [first] = batteries;
      if (first === undefined || !Number.isFinite(most)) continue;
      const alone = chargers.filter((one) => exceeds(one.amps, most));
      const sum = chargers.reduce((total, one) => total + one.amps, 0);
      const guilty = alone.length > 0 ? alone : exceeds(sum, most) ? chargers : [];
      if (guilty.length === 0) continue;
      const given = alone.length > 0 ? Math.max(...alone.map((one) => one.amps)) : sum;
      const bank = names(batteries);
      yield {
        ...(alone.length > 0 ? {} : { severity: 'warning' as const }),
        message: `${names(guilty.map(({ part }) => part))} can charge ${bank} with ${amps(given)}${alone.length > 0 ? '' : ' together'}, more than the ${amps(most)} ${batteries.length === 1 ? 'it may' : 'they may'} take: fit a smaller charger or set it lower, or a battery that stands more.`,
        place: first.facts.place('charge'),
        subject: first.name,
        figures: { chargeAmps: given, mostAmps: most },
        related: guilty.map(({ part, amps: own, limitedBy }) => ({
          message: `${part.name} can give ${amps(own)}${limitedBy === 'panels' ? ', as much as its panels have' : ''}`,
          place: part.namePlace,
        })),
      };
    }
  },
};

/** What a string of batteries may take: its weakest; Infinity where one says nothing. */
function takenBy(string: readonly Part[]): number {
  const stated = string.map(({ facts }) => facts.number('charge'));
  return stated.some((one) => one === undefined) ? Number.POSITIVE_INFINITY : Math.min(...(stated as number[]));
}
