/** A battery that has to give more than its maker allows. */

import { plainNumber } from '../../grammar/units.ts';
import type { CaseAnswer } from '../answers/answers.ts';
import { keptWith } from '../model/lazily.ts';
import type { Part } from '../model/model.ts';
import type { Layout } from '../model/network.ts';
import { exceeds } from './exceeds.ts';
import { example } from './language.ts';
import type { Rule } from './rule.ts';
import { amps } from './words.ts';

function heater(load: string, battery: string, ...more: string[]) {
  return example(
    'system "Shed" 12 V',
    `battery B1 lithium-iron-phosphate, 12.8 V, 100 Ah${battery}`,
    'fuse F1 125 A, cartridge, 125 V, breaks 20 kA',
    `load HEATER ${load}`,
    'run W1 50 mm² red, 0.2 m, B1:+ to F1:in',
    'run W2 50 mm² red, 1 m, F1:out to HEATER:+',
    'run W3 50 mm² black, 1 m, HEATER:- to B1:-',
    ...more,
  );
}

export const rule: Rule = {
  slug: 'discharge-over-battery',
  severity: 'error',
  group: 'battery',
  reads: ['battery.discharge', 'load.current', 'load.power', 'case.all', 'case.state'],
  page: {
    title: 'More taken from a battery than it may give',
    why: 'A lithium battery switches itself off in the middle of it, and all goes dark; a lead one gets hot, gasses and dies early.',
    limit:
      'The continuous discharge current that the maker states, with `discharge`, against the current out of the battery in each case (common practice, no source). A battery that states none is not judged. Starter motors are short and are not counted.',
    mend: 'Take a battery that gives more, put a second one beside it, or do not run these loads together: say in `case` what is on at once.',
    see: ['charge-current-over-battery', 'bank-unbalanced'],
    wrong: [heater('100.1 A', ', discharge 100 A # finds: discharge-over-battery "discharge 100 A"')],
    right: [
      heater('100 A', ', discharge 100 A'),
      heater('100.1 A', ''),
      heater(
        '60 A',
        ', discharge 100 A',
        'load STARTER 400 A, cranking',
        'run W4 50 mm² red, 1 m, B1:+ to STARTER:+',
        'run W5 50 mm² black, 1 m, STARTER:- to B1:-',
      ),
    ],
  },
  *check({ answers }) {
    const cranking = crankingIn(answers.network.layout);
    const cases = answers.cases.filter((one) => one.converged && !cranking.some((part) => draws(one, part)));
    // One that stands in a row and feeds something alone is in two banks.
    for (const battery of new Set(answers.banks.flatMap(({ batteries }) => batteries))) {
      const most = battery.facts.number('discharge');
      if (most === undefined) continue;
      const worst = cases
        .map((one) => ({ name: one.name, given: one.partIn(battery)?.amps ?? 0 }))
        .reduce((a, b) => (b.given > a.given ? b : a), { name: '', given: 0 });
      if (!exceeds(worst.given, most)) continue;
      // Rounded alike, the two would seem to agree.
      const given = amps(worst.given) === amps(most) ? `${plainNumber(worst.given, 2)} A` : amps(worst.given);
      yield {
        message: `${battery.name} gives ${given} in case ${worst.name}, more than the ${battery.facts.written('discharge')} its maker allows: take a larger battery or a second one, or run fewer loads together.`,
        place: battery.facts.place('discharge'),
        subject: battery.name,
        figures: { amps: worst.given, dischargeAmps: most, case: worst.name },
      };
    }
  },
};

/** What starts an engine. */
const crankingIn = keptWith(({ parts }: Layout) => parts.filter(({ facts }) => facts.says('cranking')));

function draws(one: CaseAnswer, part: Part): boolean {
  return (one.partIn(part)?.amps ?? 0) > 0;
}
