/** Batteries in parallel behind one device, joined by leads that do not bear what the others drive into a failed one. */
import type { BankLead } from '../answers/bank-leads.ts';
import type { Model, Part } from '../model/model.ts';
import type { Edge, Network } from '../model/network.ts';
import { citeWithin } from '../tables/table.ts';
import { exceeds } from './exceeds.ts';
import { example } from './language.ts';
import { reach } from './reach.ts';
import type { Rule } from './rule.ts';
import { ampsSquared, kiloamps, names } from './words.ts';

const bank = (size: string, ...more: string[]) =>
  example(
    'system "Shed" 12 V',
    'battery B1 and B2 lithium-iron-phosphate, 12.8 V, 100 Ah, internal 5 mΩ',
    'busbar POS 200 A',
    'busbar NEG 200 A',
    'fuse F1 60 A, class-t, 125 V, breaks 20 kA',
    'load LAMP 12 W',
    ...more,
    `run W3 ${size} black, 0.5 m, B1:- to NEG`,
    `run W4 ${size} black, 0.5 m, B2:- to NEG`,
    'run W5 25 mm² red, 0.2 m, POS to F1:in',
    'run W6 25 mm² red, 1 m, F1:out to LAMP:+',
    'run W7 25 mm² black, 1 m, LAMP:- to NEG',
  );

export const rule: Rule = {
  slug: 'bank-fuse-each',
  severity: 'warning',
  group: 'protection',
  reads: [
    'battery.internal',
    'battery.capacity',
    'run.size',
    'run.length',
    'run.insulation',
    'fuse.rating',
    'selector.positions',
  ],
  page: {
    title: 'Batteries in parallel with one fuse for all',
    why: 'The fuse stands behind the bank. When a cell of one battery fails, or the lead to it is crushed, the others drive everything they have into it, and no fuse is on the way: the lead glows.',
    limit:
      'What the others drive through a lead must not be above what it bears for 5 s: I²t ≤ k²S² (IEC 60364-4-43 clause 434.5.2 and table 43A, confirmed), since nothing opens sooner. That a battery of such a bank then gets a device of its own is common practice, no source. Batteries that switch themselves off inside may not need it: then accept the finding and say so. A selector that does not say its positions may join its two supplies: it is advice then to say them.',
    mend: 'Put a fuse at the positive of each battery, of batteries in series at that of the last, or leads so thick that they bear it.',
    see: ['supply-unfused', 'both-ends-need-protection', 'cable-withstand'],
    wrong: [
      bank(
        '25 mm²',
        'run W1 25 mm² red, 0.5 m, B1:+ to POS',
        'run W2 25 mm² red, 90 °C, 0.5 m, B2:+ to POS # finds: bank-fuse-each "W2"',
      ),
    ],
    right: [
      bank('95 mm²', 'run W1 95 mm² red, 0.5 m, B1:+ to POS', 'run W2 95 mm² red, 0.5 m, B2:+ to POS'),
      bank(
        '25 mm²',
        'fuse F2 and F3 60 A, class-t, 125 V, breaks 20 kA',
        'run W1 25 mm² red, 0.1 m, B1:+ to F2:in',
        'run W2 25 mm² red, 0.1 m, B2:+ to F3:in',
        'run W8 25 mm² red, 0.4 m, F2:out to POS',
        'run W9 25 mm² red, 0.4 m, F3:out to POS',
      ),
    ],
  },
  *check({ model, answers }) {
    for (const { batteries, tops, leads } of answers.unfusedBanks) {
      // Where a way between two of them is itself found without a device, that is the finding.
      const told = answers.unfusedStretches.some(
        (stretch) => stretch.batteries.filter((one) => batteries.includes(one)).length > 1,
      );
      const over = leads
        .filter((lead) => isOwn(lead) || !leads.some((other) => other.core === lead.core && isOwn(other)))
        .filter(({ i2t, withstand }) => exceeds(i2t, withstand))
        .sort((a, b) => share(b) - share(a) || compare(a.core.run.name, b.core.run.name));
      const [worst] = over;
      if (told || worst === undefined) continue;
      const { run } = worst.core;
      const others = [...new Set(over.map(({ core }) => core.run))].filter((one) => one !== run);
      const perhaps = unsaidBetween(worst, model, answers.network);
      const driven = `can drive ${kiloamps(worst.amps)} through ${run.name} into ${names(worst.into)} with no fuse on the way`;
      const heat = `${ampsSquared(worst.i2t)} in ${worst.seconds} s, but ${run.size?.written ?? 'its cable'} bears ${ampsSquared(worst.withstand)} (${worst.sources.map(citeWithin).join('; ')})`;
      const fuses = `put a fuse at the positive of each of ${names([...tops].sort((a, b) => compare(a.name, b.name)))}`;
      yield {
        ...(perhaps.length === 0 ? {} : { severity: 'advice' as const }),
        message:
          perhaps.length === 0
            ? `${names(worst.from)} ${driven}, ${heat}: ${fuses}.`
            : `What positions ${names(perhaps)} ${perhaps.length > 1 ? 'have' : 'has'} is not said; in one that joins both, ${names(worst.from)} ${driven}: say them, such as positions off 1 2, or ${fuses}.`,
        place: run.namePlace,
        subject: run.name,
        figures: { faultAmps: worst.amps, i2t: worst.i2t, withstand: worst.withstand, batteries: batteries.length },
        related: [
          ...(perhaps.length === 0 ? [] : [{ message: `Then ${run.name} takes ${heat}`, place: run.namePlace }]),
          ...perhaps.map((part) => ({ message: `${part.name} does not say its positions`, place: part.namePlace })),
          ...others.map((one) => ({ message: `${one.name} bears no more`, place: one.namePlace })),
        ],
      };
    }
  },
};

/** Selectors that do not say their positions, where these alone join those that drive to those that are driven. */
function unsaidBetween({ from, into }: BankLead, { parts }: Model, network: Network): Part[] {
  const unsaid = [...parts.values()].filter(({ kind, facts }) => kind.word === 'selector' && !facts.says('positions'));
  if (unsaid.length === 0) return [];
  const plusOf = ({ terminals }: Part) => terminals.find(({ spec }) => spec.polarity === '+');
  const passes = (edge: Edge) => edge.is !== 'contact' || (!edge.contact.protects && !unsaid.includes(edge.part));
  const pluses = (batteries: readonly Part[]) => batteries.flatMap((part) => plusOf(part) ?? []);
  const reached = new Set(pluses(into).flatMap((plus) => [...reach(plus, network, passes)]));
  if (pluses(from).some((plus) => reached.has(plus))) return [];
  return unsaid.filter(({ terminals }) => terminals.some((terminal) => reached.has(terminal)));
}

/** Rounded, so that leads alike are told by their names. */
function share({ i2t, withstand }: BankLead): number {
  return Number((i2t / withstand).toPrecision(6));
}

/** Into the battery at its end; of a lead between others both ways count. */
function isOwn({ core: { from, to }, into }: BankLead): boolean {
  return [from, to].some((end) => end !== undefined && into.includes(end.part));
}

function compare(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}
