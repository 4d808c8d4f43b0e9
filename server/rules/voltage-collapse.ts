/** Loads that ask more power than their sources and wiring can bring to them. */
import { plainNumber } from '../../grammar/units.ts';
import type { Overload } from '../answers/answers.ts';
import { type Source, sourcesOf } from '../answers/ports.ts';
import type { Part, Place } from '../model/model.ts';
import { example } from './language.ts';
import { reach } from './reach.ts';
import type { Rule, RuleContext } from './rule.ts';
import { amps, names } from './words.ts';

const kettle = (watts: string, size: string, mark = '') =>
  example(
    'system "Shed" 12 V',
    'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
    'fuse F1 20 A, blade, 32 V',
    `load KETTLE ${watts}, lowest 10 V${mark}`,
    `run W1 ${size} red, 0.1 m, B1:+ to F1:in`,
    `run W2 ${size} red, 9 m, F1:out to KETTLE:+`,
    `run W3 ${size} black, 9 m, KETTLE:- to B1:-`,
    'case boil KETTLE on, charge 100 %',
  );

export const rule: Rule = {
  slug: 'voltage-collapse',
  severity: 'error',
  group: 'network',
  reads: ['load.power', 'load.current', 'run.size', 'run.length', 'battery.internal', 'case.state'],
  page: {
    title: 'More power asked than can come through',
    why: 'What takes the same power at any voltage draws more current the lower its voltage is. Beyond some power the loss on the way grows faster than what arrives: the voltage falls to next to nothing, the load does not run, and cable and source carry a current that nobody reckoned with.',
    limit:
      'What physics allows: a source of voltage E behind a resistance R, its own and the wiring’s, gives a load at most E²/4R (maximum power transfer: a law and no table, confirmed against its closed form). Where several loads share a way, the most that all of them in proportion can have is worked out on the whole network.',
    mend: 'Use a larger or shorter cable, a source with less resistance of its own, behind a converter a larger one, a smaller load, or have less on at once.',
    see: ['drop-over-limit', 'cable-too-small', 'case-unanswered'],
    wrong: [kettle('150 W', '1.5 mm²', ' # finds: voltage-collapse "150 W"')],
    right: [kettle('130 W', '10 mm²')],
  },
  *check(context) {
    for (const { overload, cases } of worstByParts(context)) {
      const { parts, asked, fed, unit } = overload;
      const told = (value: number) => `${threeFigures(value)} ${unit}`;
      const alone = parts.length === 1;
      const [first] = parts as readonly [Part, ...Part[]];
      const who = alone ? first.name : `${several(parts)} together`;
      const where = `in ${cases.length > 1 ? 'cases' : 'case'} ${names(cases.map((name) => ({ name })))}`;
      const limited = limitedSources(parts, context);
      const [strongest, ...more] = limited.map(({ part }) => part);
      // No cable helps where more is asked than they are rated for.
      const cable = asked > ratedFor(limited, unit) ? '' : ', a larger or shorter cable';
      const source =
        strongest === undefined
          ? 'a larger or shorter cable, a source with less resistance'
          : `${more.length > 0 ? 'larger ones' : `${strongest.kind.withArticle} larger`} than ${names([strongest, ...more])}${cable}`;
      const less = alone ? `a load of less than ${told(fed)}` : 'have less on at once';
      yield {
        message:
          `${who} ${alone ? 'asks' : 'ask'} ${told(asked)} ${where}, but sources and wiring can bring ${told(fed)} at most, ` +
          `so the voltage breaks down and nothing more is known of the case: use ${source}, or ${less}.`,
        place: alone ? askingPlace(first) : (casePlace(cases, context) ?? askingPlace(first)),
        subject: alone ? first.name : cases[0],
        figures: {
          ...(unit === 'W' ? { askedWatts: asked, fedWatts: fed } : { askedAmps: asked, fedAmps: fed }),
          loads: parts.map(({ name }) => name).join(' '),
          cases: cases.join(' '),
        },
        related: [
          ...limited.map(({ part, limitAmps }) => ({
            message: `${part.name} gives ${amps(limitAmps)} at most`,
            place: part.facts.says('current') ? part.facts.place('current') : part.namePlace,
          })),
          ...(alone ? [] : parts.map((part) => ({ message: `${part.name} is one of them`, place: askingPlace(part) }))),
        ],
      };
    }
  },
};

interface Limited extends Source {
  readonly limitAmps: number;
}

/** Converters and the like that alone feed some of these parts: what they give has an end, however thick the cable. */
function limitedSources(parts: readonly Part[], { answers: { network } }: RuleContext): Limited[] {
  const all = parts.flatMap((part) => {
    const plus = part.terminals.find(({ spec }) => spec.polarity === '+' && spec.side !== 'out');
    if (plus === undefined) return [];
    const reached = reach(plus, network, () => true);
    const feeding = sourcesOf(new Set([...reached].map((terminal) => terminal.part))).filter((source) =>
      reached.has(source.plus),
    );
    return feeding.every(isLimited) ? feeding : [];
  });
  return [...new Map(all.filter(isLimited).map((source) => [source.part, source])).values()];
}

const isLimited = (source: Source): source is Limited => source.limitAmps !== undefined && source.is === 'output';

/** What they give together at their own voltage, in watt or ampere. */
function ratedFor(limited: readonly Limited[], unit: Overload['unit']): number {
  return limited.reduce(
    (sum, { limitAmps, nominalVolts = 0 }) => sum + limitAmps * (unit === 'W' ? nominalVolts : 1),
    0,
  );
}

/** What asks too much in several cases is told once, with the figures of that in which it lacks most. */
function worstByParts({ answers }: RuleContext): { overload: Overload; cases: string[] }[] {
  const told = new Map<string, { overload: Overload; cases: string[] }>();
  for (const { name, overloads } of answers.cases)
    for (const overload of overloads) {
      // A short-circuit that is told takes the voltage away.
      if (overload.parts.some(({ terminals }) => terminals.some((one) => answers.miswirings.isUpset(one)))) continue;
      const key = overload.parts
        .map((part) => part.name)
        .sort()
        .join(' ');
      const before = told.get(key);
      const lacks = ({ fed, asked }: Overload) => fed / asked;
      told.set(key, {
        overload: before === undefined || lacks(overload) < lacks(before.overload) ? overload : before.overload,
        cases: [...(before?.cases ?? []), name],
      });
    }
  return [...told.values()];
}

/** The power or current as a load states it, else the part itself. */
function askingPlace({ kind, facts, namePlace }: Part): Place {
  const clause = ['power', 'current'].find((one) => kind.word === 'load' && facts.says(one));
  return clause === undefined ? namePlace : facts.place(clause);
}

function casePlace(cases: readonly string[], { model }: RuleContext): Place | undefined {
  return model.cases.find(({ name, implied }) => name === cases[0] && !implied)?.namePlace;
}

function several(parts: readonly Part[]): string {
  return parts.length <= 4 ? names(parts) : `${names(parts.slice(0, 3))} and ${parts.length - 3} more`;
}

/** Three figures and no more, rounded down: what is said to be fed can be. */
function threeFigures(value: number): string {
  const unit = 10 ** (Math.floor(Math.log10(value)) - 2);
  // What is stated is told as it is, rounding aside.
  const down = Math.floor((value / unit) * (1 + 1e-9)) * unit;
  return plainNumber(down, Math.max(0, Math.round(-Math.log10(unit))));
}
