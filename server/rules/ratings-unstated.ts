/** A fuse, breaker or switch of which the voltage or the breaking capacity is not said, so that nothing judges it. */
import type { ContactFigures } from '../answers/answers.ts';
import { breakingCapacity } from '../answers/clearing.ts';
import type { Part } from '../model/model.ts';
import { endOf } from '../model/place.ts';
import { usualBreakingCapacity } from '../tables/breaking-capacity.ts';
import { usualFuseVolts } from '../tables/fuse-voltages.ts';
import { isolatorVolts, stylesOf } from '../tables/sizes.ts';
import { isNotDc } from './breaker-not-dc.ts';
import { exceeds } from './exceeds.ts';
import { lampSpec, throughS1 } from './language.ts';
import type { Fix, Reported, Rule, RuleContext } from './rule.ts';
import { sunny, throughIsolator } from './sunny.ts';
import { alternatingClause } from './switch-not-dc.ts';

const { out, on } = throughS1;

const found = (words: string) => ` # finds: ratings-unstated "${words}"`;

/** Another lamp behind another switch. */
const besides = [
  'run W5 1.5 mm² red, 1 m, F1:out to S2:1',
  'run W6 1.5 mm² red, 1 m, S2:2 to FAN:+',
  'run W7 1.5 mm² black, 1 m, FAN:- to B1:-',
];

export const slug = 'ratings-unstated';

export const rule: Rule = {
  slug,
  severity: 'advice',
  group: 'protection',
  reads: [
    'fuse.rating',
    'fuse.style',
    'fuse.voltage',
    'fuse.breaks',
    'breaker.rating',
    'breaker.voltage',
    'breaker.breaks',
    'isolator.rating',
    'isolator.voltage',
    'isolator.category',
    'switch.rating',
    'switch.voltage',
    'switch.category',
    'selector.rating',
    'selector.voltage',
  ],
  page: {
    title: 'A voltage or breaking capacity that is not said',
    why: 'The rated current of a fuse or switch is what it carries, not what it can open. Above its voltage the arc of direct current stays; above its breaking capacity a fuse bursts and a breaker welds. What is not said is not judged, and no finding is then no proof.',
    limit:
      'A fuse, breaker, isolator, switch or selector in a circuit says its voltage, a fuse and breaker also what they break, so that they can be judged (common practice, no source). A body style that usually has the figure says it as well: blade, bolt-in, strip and glass fuses a voltage, blade, bolt-in, strip, class-t and gpv fuses a breaking capacity. On the panels’ side it is a warning, since there the voltage is what keeps the arc alive.',
    mend: 'Read the figures off the body or the data sheet and write them: `fuse F1 20 A, blade, 32 V, breaks 1 kA`, `breaker C1 20 A, 60 V dc, breaks 5 kA`, `isolator Q1 1 pole, 300 A dc, 48 V`. While a part is not chosen yet, write `? V`.',
    see: ['fuse-voltage', 'fuse-breaking-capacity', 'switch-voltage', 'blank-unfilled'],
    wrong: [
      lampSpec({ fuse: `fuse F1 5 A${found('5 A')}` }),
      lampSpec({ fuse: `fuse F1 5 A, cartridge, 125 V${found('5 A')}` }),
      lampSpec({ fuse: `breaker F1 5 A, 60 V dc${found('5 A')}` }),
      lampSpec({ out }, `switch S1 1 pole, 10 A dc${found('10 A dc')}`, on),
      // Two that lack the same are told at the first.
      lampSpec({ out }, 'load FAN 12 W', `switch S1 and S2 1 pole, 10 A dc${found('10 A dc')}`, on, ...besides),
      sunny({
        between: [`isolator Q1 2 poles, 16 A dc, category DC-PV2${found('16 A dc')}`, ...throughIsolator.slice(1)],
      }),
    ],
    right: [
      lampSpec({ fuse: 'fuse F1 5 A, blade' }),
      lampSpec({ fuse: 'fuse F1 5 A, cartridge, 125 V, breaks 20 kA' }),
      lampSpec({ fuse: 'breaker F1 5 A, 60 V dc, breaks 5 kA' }),
      lampSpec({ out }, 'switch S1 1 pole, 10 A dc, 24 V', on),
    ],
  },
  forKind: ({ word, family }) => word === 'fuse' || word === 'breaker' || (family === 'switching' && word !== 'relay'),
  ofPart(part) {
    const missing = missingOf(part);
    return missing.length === 0 ? undefined : (context) => tell(part, missing, context);
  },
};

/** What could be said, in the order in which it is. */
type Missing = 'voltage' | 'breaks';

function missingOf(part: Part): readonly Missing[] {
  const { facts, kind } = part;
  const rating = facts.number('rating');
  // What is not chosen at all is told of as a blank, and one for alternating current by that.
  if (rating === undefined || alternatingClause(facts) !== undefined || isNotDc(facts)) return [];
  const missing: Missing[] = [];
  const isUsual = kind.word === 'fuse' && usualFuseVolts(facts.word('style')) !== undefined;
  if (!facts.says('voltage') && !isUsual) missing.push('voltage');
  const isDevice = kind.family === 'protection';
  if (isDevice && !facts.says('breaks') && breakingCapacity(part, rating) === undefined) missing.push('breaks');
  return missing;
}

function tell(part: Part, missing: readonly Missing[], { answers }: RuleContext): Reported[] {
  const contacts = answers.contacts.get(part.name) ?? [];
  const [volts, onPanels] = [Math.max(...contacts.map(voltsOf)), contacts.some(({ onPanelSide }) => onPanelSide)];
  // Where nothing tells what it opens there is nothing to judge it by.
  if (!(volts > 0)) return [];
  const isArc = onPanels && missing.includes('voltage');
  // Panels give little more in a short circuit than in use.
  const asked = onPanels ? missing.filter((one) => one === 'voltage') : missing;
  if (asked.length === 0) return [];
  const words = { ...wordsFor(part, asked, volts), onPanels: isArc };
  return [
    {
      severity: isArc ? 'warning' : 'advice',
      message: sayUnstated([part.name], words),
      place: part.facts.place('rating', part.kind.family === 'switching' ? undefined : 'rating'),
      subject: part.name,
      figures: { kind: part.kind.word, ...words },
      fixes: leaveBlanks(part, asked),
    },
  ];
}

/** Open and cold of panels, else the highest that supplies it. */
function voltsOf({ volts: { nominal, charging, panels } }: ContactFigures): number {
  return Math.max(0, panels?.coldVolts ?? panels?.openVolts ?? 0, nominal?.volts ?? 0, charging?.volts ?? 0);
}

export interface Unstated {
  readonly lacks: 'voltage' | 'breaks' | 'both';
  /** What could be written, whatever the rating: `32 V, breaks 1 kA`. */
  readonly such: string;
  /** What is usual for this rating alone, with its body: `bolt-in, 32 V, breaks 2 kA`. */
  readonly usual: string;
  /** That its voltage is one of panels. */
  readonly onPanels: boolean;
}

/** Usual d.c. voltages of fuses and of switches, V; breakers go by those of isolators (common practice, no source). */
const usualLeast = 32;
const [fuseVolts, switchVolts] = [
  [usualLeast, 58, 80, 125, 500, 600, 1000, 1500],
  [24, 48, ...isolatorVolts],
];

function wordsFor(
  { kind: { word }, facts }: Part,
  missing: readonly Missing[],
  volts: number,
): Omit<Unstated, 'onPanels'> {
  const series = word === 'fuse' ? fuseVolts : word === 'breaker' ? isolatorVolts : switchVolts;
  const rated = `${series.find((one) => !exceeds(volts, one)) ?? Math.ceil(volts)} V${word === 'breaker' ? ' dc' : ''}`;
  const isPlain = word === 'fuse' && volts <= usualLeast;
  const [body] = isPlain && !facts.says('style') ? stylesOf(facts.number('rating') ?? 0) : [];
  const breaks = usualBreakingCapacity(body, facts.number('rating'))?.amps;
  const say = (kilo: number, ...before: string[]) =>
    [
      ...before,
      ...(missing.includes('voltage') ? [rated] : []),
      ...(missing.includes('breaks') ? [`breaks ${kilo} kA`] : []),
    ].join(', ');
  const [first = 'voltage', another] = missing;
  const such = say(isPlain ? 1 : 5);
  const usual = body === undefined || breaks === undefined ? such : say(breaks / 1000, body);
  return { lacks: another === undefined ? first : 'both', such, usual };
}

/** Of one part, or of several that lack the same. */
export function sayUnstated(names: readonly string[], { lacks, such, usual, onPanels }: Unstated): string {
  const many = names.length > 1;
  const who =
    names.length <= 4
      ? [names.slice(0, -1).join(', '), names.at(-1)].filter((one) => one !== '').join(' and ')
      : `${names.slice(0, 3).join(', ')} and ${names.length - 3} more`;
  const what = {
    voltage: many ? 'their voltage' : 'its voltage',
    breaks: `what ${many ? 'they break' : 'it breaks'}`,
    both: many ? 'their voltage or what they break' : 'its voltage or what it breaks',
  }[lacks];
  const so = lacks === 'both' ? 'neither is judged' : 'that is not judged';
  const arc = onPanels ? ', and the voltage of panels is what keeps an arc alive' : '';
  return `${who} ${many ? 'do' : 'does'} not say ${what}, so ${so}${arc}: write what is printed on ${many ? 'them' : 'it'} or in the data sheet, such as ${many ? such : usual}.`;
}

function leaveBlanks({ facts, name }: Part, missing: readonly Missing[]): Fix[] {
  if (facts.fact('rating')?.fromStock !== undefined) return [];
  const blanks = missing.map((one) => (one === 'voltage' ? '? V' : 'breaks ? kA'));
  return [
    {
      title: `Add ${blanks.join(' and ')} to ${name}, to fill in`,
      safe: false,
      edits: [{ place: endOf(facts.place('rating')), newText: `, ${blanks.join(', ')}` }],
    },
  ];
}
