/** Batteries of different kinds joined as one bank. */
import { standsClosed } from '../answers/contacts-in-case.ts';
import { groupBy } from '../answers/grouping.ts';
import { keptWith } from '../model/lazily.ts';
import type { Case, Part, Terminal } from '../model/model.ts';
import type { ContactEdge, Layout } from '../model/network.ts';
import { UnionFind } from '../physics/union-find.ts';
import { exceeds } from './exceeds.ts';
import { example } from './language.ts';
import { reach } from './reach.ts';
import type { Reported, Rule, RuleContext } from './rule.ts';
import { isCharging, isClosedInUse, isFirm, isHandSwitch, twoSystems } from './two-systems.ts';
import { names } from './words.ts';

function pair(first: string, second: string, found?: string) {
  return example(
    'system "Shed" 12 V',
    `battery B1 ${first}, internal 15 mΩ`,
    `battery B2 ${second}, internal 15 mΩ${found === undefined ? '' : ` # finds: ${found}`}`,
    'fuse F1 60 A, bolt-in, 58 V, breaks 5 kA',
    'fuse F2 60 A, bolt-in, 58 V, breaks 5 kA',
    'busbar POS and NEG',
    'run W1 16 mm² red, 0.2 m, B1:+ to F1:in',
    'run W2 16 mm² red, 0.4 m, F1:out to POS',
    'run W3 16 mm² red, 0.2 m, B2:+ to F2:in',
    'run W4 16 mm² red, 0.4 m, F2:out to POS',
    'run W5 16 mm² black, 0.4 m, B1:- to NEG',
    'run W6 16 mm² black, 0.4 m, B2:- to NEG',
  );
}

function series(first: string, second: string, found?: string) {
  return example(
    'system "Shed" 24 V',
    `battery B1 ${first}, internal 15 mΩ`,
    `battery B2 ${second}, internal 15 mΩ${found === undefined ? '' : ` # finds: ${found}`}`,
    'fuse F1 60 A, bolt-in, 58 V, breaks 5 kA',
    'load HEATER 100 W',
    'run W1 16 mm² black, 0.2 m, B1:+ to B2:-',
    'run W2 16 mm² red, 0.2 m, B2:+ to F1:in',
    'run W3 16 mm² red, 0.4 m, F1:out to HEATER:+',
    'run W4 16 mm² black, 0.4 m, HEATER:- to B1:-',
  );
}

/** Two batteries of which a selector takes one, or both. */
const selected = (second: string, found: string, ...more: string[]) =>
  example(
    'system "Shed" 12 V',
    'battery B1 agm, 12 V, 100 Ah, internal 15 mΩ',
    `battery B2 ${second}, internal 15 mΩ${found}`,
    'fuse F1 60 A, bolt-in, 58 V, breaks 5 kA',
    'fuse F2 60 A, bolt-in, 58 V, breaks 5 kA',
    'fuse F3 30 A, bolt-in, 58 V, breaks 5 kA',
    'selector S9 200 A dc, 48 V, positions off 1 2 both',
    'charger MC 12 V, 25 A, from mains, insulated case',
    'run W1 16 mm² red, 105 °C, 0.2 m, B1:+ to F1:in',
    'run W2 16 mm² red, 105 °C, 0.2 m, B2:+ to F2:in',
    'run W3 16 mm² red, 105 °C, 0.4 m, F1:out to S9:1',
    'run W4 16 mm² red, 105 °C, 0.4 m, F2:out to S9:2',
    'run W5 16 mm² red, 105 °C, 0.4 m, S9:common to F3:in',
    'run W6 6 mm² red, 105 °C, 1 m, F3:out to MC:out+',
    'run W7 6 mm² black, 105 °C, 1 m, MC:out- to B1:-',
    'run W8 16 mm² black, 105 °C, 0.4 m, B1:- to B2:-',
    ...more,
  );
const lithium = 'lithium-iron-phosphate, 12.8 V, 100 Ah';

/** What two figures of capacity in series may differ by (common practice, no source). */
const alike = 1.05;

export const rule: Rule = {
  slug: 'batteries-mixed',
  severity: 'warning',
  group: 'battery',
  reads: [
    'battery.chemistry',
    'battery.capacity',
    'run.ends',
    'case.state',
    'case.all',
    'case.sun',
    'case.position',
    'load.cranking',
  ],
  page: {
    title: 'Different batteries in one bank',
    why: 'Batteries side by side have one voltage, and each chemistry wants another: one is never full, the other is overcharged. In series the smallest is empty first and is then driven backwards by the rest.',
    limit: `Batteries in parallel with no relay or diode between, nor a switch that parts them in use, are of one chemistry; those in series also of one capacity, within ${Math.round((alike - 1) * 100)} % (common practice, no source). Different sorts of lead-acid beside one another are advice only. ${twoSystems} A stated case that joins two by a switch or selector is found as well, where something charges in it or the switch is named in it; to start an engine they may be joined.`,
    mend: 'Take batteries of one make and age, or part the two with a relay, a diode or a battery-to-battery charger.',
    see: ['bank-unbalanced', 'voltages-joined'],
    wrong: [
      pair('agm, 12 V, 100 Ah', 'lithium-iron-phosphate, 12.8 V, 100 Ah', 'batteries-mixed "lithium-iron-phosphate"'),
      pair('agm, 12 V, 100 Ah', 'gel, 12 V, 100 Ah', 'batteries-mixed "gel"'),
      series('agm, 12 V, 105.1 Ah', 'agm, 12 V, 100 Ah', 'batteries-mixed "100 Ah"'),
      selected(lithium, ' # finds: batteries-mixed "lithium-iron-phosphate"', 'case shore S9 at both, MC on'),
    ],
    right: [
      selected(lithium, '', 'case shore S9 at 1, MC on', 'case later S9 at 2, MC on'),
      selected('agm, 12 V, 80 Ah', '', 'case shore S9 at both, MC on'),
      pair('agm, 12 V, 100 Ah', 'agm, 12 V, 80 Ah'),
      series('agm, 12 V, 105 Ah', 'agm, 12 V, 100 Ah'),
    ],
  },
  *check(context): Iterable<Reported> {
    const { model, answers } = context;
    const told = new Set<Part>();
    const inUse = (edge: ContactEdge) => isClosedInUse(edge, answers.network, model);
    for (const { strings, firm } of answers.banks)
      for (const group of firm.length > 1 ? joined(strings, context, inUse) : firm) {
        // Of two voltages that are joined that alone is told.
        if (isUpset(group, context)) continue;
        const unlike = unlikeIn(group);
        if (unlike === undefined) {
          for (const string of group) {
            const found = unequal(string);
            if (found !== undefined) yield found;
          }
          continue;
        }
        for (const battery of group.flat()) told.add(battery);
        yield report(unlike, switchesBetween(group, context, inUse));
      }
    yield* joinedInCases(told, context);
  },
};

type Strings = readonly (readonly Part[])[];

/** The batteries that a switch or selector joins in a case that is stated. */
function* joinedInCases(told: Set<Part>, context: RuleContext): Generator<Reported> {
  const { model, answers } = context;
  const strings = answers.banks.flatMap((bank) => bank.strings);
  if (strings.length < 2 || new Set(strings.flat().map(chemistry)).size < 2) return;
  for (const stated of model.cases) {
    if (stated.implied || isToStart(stated, context)) continue;
    const charges = isCharging(stated, answers.network);
    const isJoining = (edge: ContactEdge) => standsClosed(edge, stated) && (charges || isNamed(edge.part, stated));
    for (const group of joined(strings, context, isJoining)) {
      if (group.length < 2 || isUpset(group, context)) continue;
      const unlike = unlikeIn(group);
      if (unlike === undefined || unlike.every((battery) => told.has(battery))) continue;
      for (const battery of group.flat()) told.add(battery);
      yield report(unlike, switchesBetween(group, context, isJoining), stated);
    }
  }
}

function isToStart({ on }: Case, { model }: RuleContext): boolean {
  return [...on].some(([name, isOn]) => isOn && model.parts.get(name)?.facts.says('cranking') === true);
}

function isNamed({ name }: Part, { on, positions }: Case): boolean {
  return on.has(name) || positions.has(name);
}

/** Strings that are joined at both ends by what is firm and by such switches. */
function joined(strings: Strings, { answers }: RuleContext, isJoining: (edge: ContactEdge) => boolean): Strings[] {
  const { layout } = answers.network;
  const { firm, byHand } = partedByHand(layout);
  const sets = new UnionFind(layout.terminals.length);
  for (const edge of byHand) if (isJoining(edge)) sets.join(firm.find(edge.from.index), firm.find(edge.to.index));
  const at = (end: Terminal) => sets.find(firm.find(end.index));
  return [
    ...groupBy(strings, (string) => {
      const [plus, minus] = [endOf(string, '+'), endOf(string, '-')];
      return plus === undefined || minus === undefined ? string : `${at(plus)} ${at(minus)}`;
    }).values(),
  ];
}

/** Terminals that are joined by what is firm, and the switches worked by hand beside them. */
const partedByHand = keptWith(({ terminals, joints }: Layout) => {
  const firm = new UnionFind(terminals.length);
  for (const joint of joints) if (isFirm(joint)) firm.join(joint.from.index, joint.to.index);
  return { firm, byHand: joints.filter((joint): joint is ContactEdge => joint.is === 'contact' && isByHand(joint)) };
});

function isByHand(edge: ContactEdge): boolean {
  return isHandSwitch(edge) || edge.contact.operated === 'position';
}

function endOf(string: readonly Part[], polarity: '+' | '-'): Terminal | undefined {
  return string.at(polarity === '+' ? -1 : 0)?.terminals.find(({ spec }) => spec.polarity === polarity);
}

/** Switches of which each, opened alone, parts some of them. */
function switchesBetween(group: Strings, context: RuleContext, isJoining: (edge: ContactEdge) => boolean): Part[] {
  if (joined(group, context, () => false).length < 2) return [];
  const ends = group.flatMap((string) => [endOf(string, '+'), endOf(string, '-')]);
  const met = new Set(
    ends.flatMap((end) =>
      end === undefined
        ? []
        : [...reach(end, context.answers.network, isFirm)].flatMap(({ part }) =>
            part.contacts.length > 0 ? [part] : [],
          ),
    ),
  );
  return [...met].filter((part) => joined(group, context, (edge) => edge.part !== part && isJoining(edge)).length > 1);
}

function isUpset(group: Strings, { answers: { miswirings } }: RuleContext): boolean {
  return group.flat().some(({ terminals }) => terminals.some((terminal) => miswirings.isUpset(terminal)));
}

/** Of a group the two that differ by most in what they are. */
function unlikeIn(group: Strings): readonly [Part, Part] | undefined {
  const sorts = [...new Set(group.flat())].sort((a, b) => rank(a) - rank(b) || (a.name < b.name ? -1 : 1));
  const [first, other] = [sorts[0], sorts.at(-1)];
  return first === undefined || other === undefined || chemistry(first) === chemistry(other)
    ? undefined
    : [first, other];
}

function report([first, other]: readonly [Part, Part], switches: readonly Part[], stated?: Case): Reported {
  const lithium = [first, other].filter((one) => chemistry(one).startsWith('lithium')).length;
  const joins =
    switches.length === 0 || switches.length > 2
      ? 'nothing parts them'
      : `with ${names(switches)} closed nothing parts them`;
  const parts =
    stated === undefined
      ? joins
      : `case ${stated.name} joins them${switches.length === 0 || switches.length > 2 ? '' : ` by ${names(switches)}`}`;
  return {
    ...(lithium === 0 ? { severity: 'advice' as const } : {}),
    message: `${first.name} is ${chemistry(first)} and ${other.name} is ${chemistry(other)}, and ${parts}, so neither is charged as it should be: take two of a kind, or ${stated === undefined ? '' : 'use one at a time, or '}put a charger, relay or diode between.`,
    place: other.facts.place('chemistry'),
    subject: other.name,
    figures: {
      first: chemistry(first),
      second: chemistry(other),
      ...(stated === undefined ? {} : { case: stated.name }),
    },
    related: [
      { message: `${first.name} is ${chemistry(first)}`, place: first.facts.place('chemistry') },
      ...(stated?.namePlace === undefined ? [] : [{ message: `${stated.name} joins them`, place: stated.namePlace }]),
    ],
  };
}

/** The one told is the one that wants the most care. */
const ranks = ['lead-acid', 'agm', 'gel', 'lithium-ion', 'lithium-iron-phosphate'];

function rank(battery: Part): number {
  return ranks.indexOf(chemistry(battery));
}

function chemistry(battery: Part | undefined): string {
  return battery?.facts.word('chemistry') ?? '';
}

/** The smallest in series with one that holds more. */
function unequal(string: readonly Part[]): Reported | undefined {
  const known = string.flatMap((battery) => {
    const capacity = battery.facts.number('capacity');
    return capacity === undefined || !(capacity > 0) ? [] : [{ battery, capacity }];
  });
  const [least, most] = [...known]
    .sort((a, b) => a.capacity - b.capacity)
    .flatMap((one, i, all) => (i === 0 || i === all.length - 1 ? [one] : []));
  if (least === undefined || most === undefined || !exceeds(most.capacity, alike * least.capacity)) return undefined;
  const hours = (coulombs: number) => Math.round(coulombs / 36) / 100;
  return {
    message: `${least.battery.name} (${hours(least.capacity)} Ah) is in series with ${most.battery.name} (${hours(most.capacity)} Ah), so it is empty first and is then driven backwards: take batteries of one capacity.`,
    place: least.battery.facts.place('capacity'),
    subject: least.battery.name,
    figures: { leastAmpereHours: hours(least.capacity), mostAmpereHours: hours(most.capacity) },
    related: [{ message: `${most.battery.name} holds more`, place: most.battery.facts.place('capacity') }],
  };
}
