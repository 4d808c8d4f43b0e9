/** An inverter that has less voltage than it works at, at its power or while it gives its surge. */
import type { Part } from '../model/model.ts';
import { exceeds } from './exceeds.ts';
import { example } from './language.ts';
import { leastSeen, nominalOf, type SeenVolts, wantsHigher } from './other-voltage.ts';
import type { Rule, RuleContext } from './rule.ts';
import { amps, names, volts } from './words.ts';

const inverter = (clauses: string, metres: string) =>
  example(
    'system "Shed" 12 V',
    'battery B1 lead-acid, 12 V, 200 Ah, internal 6 mΩ',
    'fuse F1 60 A, bolt-in, 58 V, breaks 3 kA',
    `inverter INV 350 W, ${clauses}`,
    'run W1 16 mm² red, 0.2 m, B1:+ to F1:in',
    `run W2 16 mm² red, ${metres}, F1:out to INV:+`,
    `run W3 16 mm² black, ${metres}, INV:- to B1:-`,
    'case away INV on, B1 at 12.4 V',
  );

export const rule: Rule = {
  slug: 'inverter-input-drop',
  severity: 'warning',
  group: 'network',
  reads: ['inverter.lowest', 'inverter.surge', 'inverter.power', 'run.size', 'run.length', 'system.limits'],
  page: {
    title: 'An inverter that cuts out for want of voltage',
    why: 'An inverter takes a great current, and a motor behind it several times that while it starts. What the battery and the cables lose then may leave so little that the inverter cuts out, again and again, though the battery is charged.',
    limit:
      'The lowest input voltage that its maker states (`lowest`), against the voltage at its terminals at its power in every case that has it on, and with its `surge` at the current that takes there (common practice, no source). What is lost in cables beyond the drop allowed is told as `drop-over-limit` alone.',
    mend: 'Use larger or shorter cables to the inverter, put it next to the battery, or take a battery that holds its voltage better.',
    see: ['drop-over-limit', 'load-below-lowest-voltage'],
    wrong: [
      inverter('surge 700 W, lowest 11 V, insulated case # finds: inverter-input-drop "surge 700 W"', '6 m'),
      inverter('lowest 12.2 V, insulated case # finds: inverter-input-drop "lowest 12.2 V"', '2 m'),
    ],
    right: [
      inverter('surge 700 W, lowest 11 V, insulated case', '1.5 m'),
      inverter('lowest 11 V, insulated case', '2 m'),
    ],
  },
  *check(context) {
    const { model, answers } = context;
    for (const inverter of model.parts.values()) {
      const lowest = inverter.kind.word === 'inverter' ? inverter.facts.number('lowest') : undefined;
      if (lowest === undefined) continue;
      const figures = answers.loads.get(inverter.name);
      const least = leastSeen(inverter, answers);
      if (least !== undefined && wantsHigher(lowest, least)) {
        yield forHigher(inverter, lowest, least, figures?.source);
        continue;
      }
      const limit = answers.limits.drop(inverter.facts.says('essential')).ratio * 100;
      if (figures !== undefined && exceeds(figures.dropPercent, limit)) continue;
      const low = atPower(inverter, context) ?? atSurge(inverter, context);
      if (low === undefined || !exceeds(lowest, low.volts)) continue;
      const runs = [...new Set((figures?.cores ?? []).map(({ run }) => run))];
      const lost = low.sourceVolts - low.volts;
      const cables = runs.length > 0 && runs.length <= 4 ? names(runs) : 'cables';
      const mend = exceeds(lowest, low.sourceVolts) ? 'take' : 'use larger or shorter ones, or';
      yield {
        message: `${inverter.name} has ${volts(low.volts)} at its ${low.surge ? `surge (${amps(low.amps)})` : 'power'} in case ${low.caseName}, and cuts out below ${volts(lowest)}: ${low.source} gives ${volts(low.sourceVolts)} then, and ${cables} ${runs.length === 1 ? 'loses' : 'lose'} ${volts(lost)}; ${mend} a battery that holds its voltage better.`,
        place: inverter.facts.place(low.surge ? 'surge' : 'lowest'),
        subject: inverter.name,
        figures: {
          volts: low.volts,
          lowestVolts: lowest,
          amps: low.amps,
          sourceVolts: low.sourceVolts,
          dropVolts: lost,
        },
        related: runs.map((run) => ({ message: `${run.name} leads to it`, place: run.sizePlace })),
      };
    }
  },
};

/** No battery of this voltage ever gives what it works at. */
function forHigher(
  inverter: Part,
  lowest: number,
  { volts: left, lost, caseName }: SeenVolts,
  source: Part | undefined,
) {
  const nominal = nominalOf(source);
  return {
    message: `${inverter.name} works from ${volts(lowest)} on, but ${source?.name ?? 'its source'} gives ${volts(left + lost)} in case ${caseName}: it is made for a higher voltage. Fit one for ${nominal === undefined ? 'this voltage' : volts(nominal)}, or feed it from a bank of its own voltage.`,
    place: inverter.facts.place('lowest'),
    subject: inverter.name,
    figures: { volts: left, lowestVolts: lowest, sourceVolts: left + lost, dropVolts: lost },
    related: source === undefined ? [] : [{ message: `${source.name} feeds it`, place: source.namePlace }],
  };
}

/** What is left at an inverter where that is least. */
interface Low {
  readonly volts: number;
  readonly amps: number;
  readonly source: string;
  readonly sourceVolts: number;
  readonly caseName: string;
  readonly surge: boolean;
}

/** At its power; undefined where that is enough. */
function atPower(inverter: Part, { answers }: RuleContext): Low | undefined {
  const { name, facts } = inverter;
  const source = answers.loads.get(name)?.source?.name ?? 'its source';
  const lows = answers.cases.flatMap((one): Low[] => {
    const { volts: left, amps: taken = 0, dropVolts = 0 } = one.partIn(inverter) ?? {};
    if (!one.converged || left === undefined || !(taken > 1e-9)) return [];
    return [{ volts: left, amps: taken, source, sourceVolts: left + dropVolts, caseName: one.name, surge: false }];
  });
  const worst = leastOf(lows);
  return worst !== undefined && exceeds(facts.number('lowest') ?? 0, worst.volts) ? worst : undefined;
}

function atSurge(inverter: Part, { answers }: RuleContext): Low | undefined {
  const { facts } = inverter;
  if (!facts.says('surge')) return undefined;
  const least = answers.directions.leastWhileStarting(inverter);
  if (least !== undefined && least >= (facts.number('lowest') ?? 0)) return undefined;
  return leastOf(
    answers.directions.startsOf(inverter).map(({ source, ...rest }) => ({ ...rest, source: source.name, surge: true })),
  );
}

function leastOf(lows: readonly Low[]): Low | undefined {
  return [...lows].sort((one, other) => one.volts - other.volts)[0];
}
