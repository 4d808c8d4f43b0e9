/** Too much voltage lost between what charges a battery and the battery. */
import type { Answers } from '../answers/answers.ts';
import { arrangementOf } from '../answers/arrangement.ts';
import { coreOhmsAt20 } from '../answers/conditions.ts';
import { outwardFrom, sumsOutward } from '../answers/outward.ts';
import { noInner, pathsFrom } from '../answers/paths.ts';
import type { Source } from '../answers/ports.ts';
import { standardSizes } from '../answers/work-out.ts';
import { lazily } from '../model/lazily.ts';
import type { Part, Run, Terminal } from '../model/model.ts';
import type { Edge } from '../model/network.ts';
import { cite } from '../tables/table.ts';
import { exceeds } from './exceeds.ts';
import { lampSpec } from './language.ts';
import type { Fix, Rule, RuleContext } from './rule.ts';
import { amps, percent, volts } from './words.ts';

const charged = (metres: number, mark = '') =>
  lampSpec(
    {},
    'charger U1 12 V, 20 A, from mains',
    'chassis G1',
    'fuse F2 30 A, blade, 32 V, breaks 2 kA',
    'run W4 6 mm² red, 0.2 m, B1:+ to F2:in',
    `run W5 6 mm² red, ${metres} m, F2:out to U1:out+${mark}`,
    `run W6 10 mm² black, ${metres} m, U1:out- to B1:-`,
    'run W7 6 mm² green/yellow, 1 m, U1:case to G1',
  );

export const rule: Rule = {
  slug: 'charging-drop',
  severity: 'warning',
  group: 'cable',
  reads: [
    'run.size',
    'run.length',
    'controller.output',
    'charger.current',
    'alternator.current',
    'inverter.charges',
    'system.limits',
  ],
  page: {
    title: 'Too much lost between charger and battery',
    why: 'A charger goes by the voltage at its own terminals. What is lost on the way the battery does not get: it is never full, and a lead-acid one that is never full dies early.',
    limit:
      'The drop that the set of limits permits for what must not fail, mostly 3 % (`iec-60364-5-52` and the others by ISO 10133 annex C, confirmed; that it holds for chargers is common practice, no source), out and back, at the greatest current that flows in a case of the spec, else at the charger’s own. Conductors are taken at 20 °C.',
    mend: 'Use a larger cable, or move the charger to the battery.',
    see: ['drop-over-limit', 'parallel-cores-unequal'],
    wrong: [charged(4, ' # finds: charging-drop "6 mm²"')],
    right: [charged(1.5)],
  },
  *check(context) {
    const { answers } = context;
    const limit = answers.limits.drop(true);
    const most = mostLost(context);
    for (const source of arrangementOf(answers.network.layout).sources) {
      if (!charges(source) || most(source) <= limit.ratio) continue;
      const current = ampsOf(source, context);
      const way = wayToBattery(source, context);
      if (current === undefined || way === undefined) continue;
      const nominal = way.battery.facts.number('voltage') ?? answers.systemVolts;
      const lost = way.ohms * current;
      const limitVolts = limit.ratio * nominal;
      if (!exceeds(lost, limitVolts)) continue;
      const [worst] = [...way.runs].sort((a, b) => b.ohms - a.ohms);
      if (worst === undefined) continue;
      const { run } = worst;
      const use = largerFor(run, worst.ohms, way.ohms, limitVolts / current);
      const where = way.runs.length === 1 ? 'in' : 'most of it in';
      yield {
        message: `${source.part.name} loses ${volts(lost)} (${percent((lost / nominal) * 100)}) on the way to ${way.battery.name} and back at ${amps(current)}, ${where} ${run.name}, and more than ${percent(limit.ratio * 100)} keeps the battery from getting full: use ${use ?? 'a larger size'}, or move it closer.${limit.source.status === 'confirmed' ? '' : ` The limit is from ${cite(limit.source)}.`}`,
        place: run.sizePlace,
        subject: run.name,
        figures: {
          dropVolts: lost,
          dropPercent: (lost / nominal) * 100,
          limitPercent: limit.ratio * 100,
          amps: current,
          charger: source.part.name,
          battery: way.battery.name,
        },
        related: [
          { message: `${source.part.name} charges by it`, place: source.part.namePlace },
          { message: `${way.battery.name} is charged`, place: way.battery.namePlace },
        ],
        fixes: use === undefined ? [] : fixOf(run, use),
      };
    }
  },
};

/**
 * No less than a source loses on its way, as part of the voltage there: at its limit, over ways out and back to any battery that
 * it is joined to. Infinity where a closer look is needed.
 */
function mostLost({ answers }: RuleContext): (source: Source) => number {
  const { layout, edges } = answers.network;
  const ohms = lazily(() => {
    const all = new Float64Array(edges.length);
    for (const edge of edges) all[edge.index] = ohmsOf(edge, answers) ?? Number.NaN;
    return all;
  });
  return ({ plus, minus, limitAmps = Number.POSITIVE_INFINITY }) => {
    const [ways, home] = [outwardFrom(layout, plus, false), sumsOutward(outwardFrom(layout, minus, false), ohms())];
    const out = sumsOutward(ways, ohms());
    let [there, back, nominal] = [Number.POSITIVE_INFINITY, 0, Number.POSITIVE_INFINITY];
    for (const { kind, terminals, facts } of layout.parts) {
      if (kind.word !== 'battery') continue;
      const pole = (sign: '+' | '-') => terminals.find(({ spec }) => spec.polarity === sign)?.index ?? -1;
      const top = pole('+');
      if (ways.cameFrom[top] === -1 && top !== plus.index) continue;
      // The nearest is not known, so each of them may be it.
      there = Math.min(there, out[top] ?? Number.NaN);
      back = Math.max(back, home[pole('-')] ?? Number.NaN);
      nominal = Math.min(nominal, facts.number('voltage') ?? answers.systemVolts);
    }
    const lost = ((there + back) * limitAmps) / nominal;
    return lost >= 0 ? lost : Number.POSITIVE_INFINITY;
  };
}

function charges({ is, part }: Source): boolean {
  if (is === 'battery' || is === 'panel' || is === 'load-output') return false;
  return part.kind.word !== 'converter';
}

/** The greatest of the cases; of an alternator, which seldom gives its rating, nothing else is taken. */
function ampsOf({ part, is, limitAmps }: Source, { answers }: RuleContext): number | undefined {
  const greatest = Math.max(0, ...answers.cases.map((one) => Math.abs(one.partIn(part)?.amps ?? 0)));
  // An inverter that also charges is a load in the cases that have it on.
  if (greatest > 0 && part.kind.word !== 'inverter') return greatest;
  return is === 'alternator' ? undefined : limitAmps;
}

function ohmsOf(edge: Edge, { cores }: Answers): number | undefined {
  if (edge.is === 'core') return cores.get(edge.core)?.ohms;
  return edge.is === 'bar' ? 0 : edge.ohms;
}

interface Way {
  readonly battery: Part;
  readonly ohms: number;
  readonly runs: readonly { readonly run: Run; readonly ohms: number }[];
}

/** The way of least resistance to the nearest battery and back; undefined where there is none, or a size or length is not known. */
function wayToBattery({ part, plus, minus }: Source, { answers }: RuleContext): Way | undefined {
  const cost = (edge: Edge) => ohmsOf(edge, answers);
  const isTop = ({ part: there, spec }: Terminal) => there.kind.word === 'battery' && spec.polarity === '+';
  const out = pathsFrom(plus, answers.network, noInner, cost, isTop);
  // The nearest alone: what a charger at the end of a longer way does is that of the charger there.
  const top = out.reached.find(isTop);
  const there = top === undefined ? undefined : out.cost(top);
  const bottom = top?.part.terminals.find(({ spec }) => spec.polarity === '-');
  if (top === undefined || there === undefined || bottom === undefined) return undefined;
  // A conductor that its sides share inside leads back by the other one too.
  const shared = part.facts.word('common') === 'common';
  const backs = [minus, ...part.terminals.filter(({ spec }) => shared && spec.polarity === '-' && spec !== minus.spec)];
  let best: Way | undefined;
  for (const back of backs) {
    const home = pathsFrom(back, answers.network, noInner, cost, (terminal) => terminal === bottom);
    const ohms = home.cost(bottom);
    if (ohms === undefined || (best !== undefined && there + ohms >= best.ohms)) continue;
    best = { battery: top.part, ohms: there + ohms, runs: runsOf([...out.edges(top), ...home.edges(bottom)], cost) };
  }
  return best;
}

function runsOf(edges: readonly Edge[], cost: (edge: Edge) => number | undefined) {
  const ohms = new Map<Run, number>();
  for (const edge of edges)
    if (edge.is === 'core') ohms.set(edge.core.run, (ohms.get(edge.core.run) ?? 0) + (cost(edge) ?? 0));
  return [...ohms].map(([run, sum]) => ({ run, ohms: sum }));
}

/** The smallest size for the worst run that alone brings the whole way within its limit. */
function largerFor(run: Run, own: number, all: number, limitOhms: number): string | undefined {
  const now = coreOhmsAt20(run, run.size);
  if (run.size === undefined || now === undefined || !(now > 0)) return undefined;
  return standardSizes(run.size.system === 'awg').find((size) => {
    const ohms = coreOhmsAt20(run, size);
    return ohms !== undefined && ohms < now && all - own + own * (ohms / now) <= limitOhms;
  })?.written;
}

function fixOf(run: Run, use: string): Fix[] {
  if (run.facts.fact('size')?.fromStock !== undefined) return [];
  return [{ title: `Use ${use}`, safe: false, edits: [{ place: run.sizePlace, newText: use }] }];
}
