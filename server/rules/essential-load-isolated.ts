/** An essential load that goes off with a switch for something else. */
import type { Answers } from '../answers/answers.ts';
import type { Part } from '../model/model.ts';
import { lampSpec, throughS1 } from './language.ts';
import type { Rule } from './rule.ts';
import { names } from './words.ts';

const { out, on } = throughS1;

const alarm = (feed: string) => [
  'load ALARM 2 W, essential',
  `run W5 1.5 mm² red, 1 m, ${feed} to ALARM:+`,
  'run W6 1.5 mm² black, 1 m, ALARM:- to B1:-',
];
const fan = ['load FAN 6 W', 'run W7 1.5 mm² red, 1 m, F1:out to FAN:+', 'run W8 1.5 mm² black, 1 m, FAN:- to B1:-'];
const s1 = 'switch S1 1 pole, 10 A dc, 24 V';

export const rule: Rule = {
  slug: 'essential-load-isolated',
  severity: 'advice',
  group: 'switching',
  reads: ['load.essential', 'inverter.essential', 'socket.essential', 'run.ends'],
  page: {
    title: 'An essential load behind a switch for other things',
    why: 'Somebody turns the lamps off, and the gas alarm or the cooler with them.',
    limit:
      'What must not fail shares no switch with ordinary loads; a main switch that turns everything off may have it (common practice, no source).',
    mend: 'Feed it from before the switch, by a fuse of its own.',
    see: ['drop-over-limit', 'no-isolation'],
    wrong: [lampSpec({ out }, `${s1} # finds: essential-load-isolated "S1"`, on, ...alarm('S1:2'), ...fan)],
    right: [lampSpec({ out }, s1, on, ...alarm('F1:out'), ...fan), lampSpec({ out }, s1, on, ...alarm('S1:2'))],
  },
  *check({ answers }) {
    for (const contacts of answers.contacts.values()) {
      const [first] = contacts;
      if (first?.part.kind.family !== 'switching' || first.part.kind.word === 'relay') continue;
      const { part } = first;
      if (!contacts.some((one) => !one.isReturn && one.feeds.some(({ facts }) => facts.says('essential')))) continue;
      const feeding = contacts.filter(({ isReturn }) => !isReturn);
      if (!feeding.some(({ feeds }) => feeds.some(isEssential))) continue;
      const fed = [...new Set(feeding.flatMap(({ feeds }) => feeds))];
      const found = essentialAmong(fed, answers);
      if (found === undefined) continue;
      const { essential, others } = found;
      yield {
        message: `${part.name} turns off ${names(others)}, and with ${others.length === 1 ? 'it' : 'them'} ${essential.name}, which is essential: feed ${essential.name} from before ${part.name}.`,
        place: part.namePlace,
        subject: part.name,
        figures: { essential: essential.name },
        related: [{ message: `${essential.name} must not fail`, place: essential.facts.place('essential') }],
      };
    }
  },
};

/** An essential load that is turned off together with others, where not all that its source feeds is. */
export function essentialAmong(
  fed: readonly Part[],
  answers: Answers,
): { readonly essential: Part; readonly others: readonly Part[] } | undefined {
  const essential = fed.find(isEssential);
  const others = fed.filter((one) => !isEssential(one) && one.kind.behaviour.is !== 'converter');
  if (essential === undefined || others.length === 0) return undefined;
  const source = answers.loads.get(essential.name)?.usualSource;
  const isMain = ![...answers.loads.values()].some((one) => one.usualSource === source && !fed.includes(one.load));
  return source === undefined || isMain ? undefined : { essential, others };
}

function isEssential({ facts }: Part): boolean {
  return facts.says('essential');
}
