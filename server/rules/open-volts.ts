/** What voltage the contacts of a switch have to open, and what its maker states for its poles. */
import { keptWhile, lazilyEach } from '../model/lazily.ts';
import type { Part } from '../model/model.ts';
import type { Layout } from '../model/network.ts';
import { exceeds } from './exceeds.ts';
import { partsJoinedTo } from './joined.ts';
import type { RuleContext } from './rule.ts';
import { circuitsOfPoles } from './series-poles.ts';

export interface OpenVolts {
  readonly part: Part;
  readonly needed: number;
  readonly from: 'panels' | 'nominal';
  /** Parts whose voltages make it up: the panels of the string, or the batteries. */
  readonly by: readonly Part[];
  /** Rated voltage of one pole. */
  readonly rated: number;
  /** Poles that open one after another in this circuit, on both conductors together. */
  readonly poles: number;
  /** How many circuits it opens. */
  readonly circuits: number;
  /** The maker’s figure for so many in series; undefined where none is stated. */
  readonly series: { readonly poles: number; readonly volts: number } | undefined;
}

/** 12.8 V and 25.6 V are called 12 V and 24 V, and switches are marked so (common practice, no source). */
const calledRatio = 1.07;

const kept = keptWhile<Layout, readonly OpenVolts[]>();

/** Switches of which a rated voltage is stated and what they open is known. Which poles are a return follows from the layout. */
export function openVolts(context: RuleContext): readonly OpenVolts[] {
  const { strings, banks, network } = context.answers;
  return kept(network.layout, [strings, banks], () => [...lookedUp(context)]);
}

function* lookedUp({ model, answers }: RuleContext): Generator<OpenVolts> {
  // Switches of one circuit meet the same parts.
  const voltsOf = lazilyEach((met: ReadonlySet<Part>) => panelVolts(met, answers) ?? nominalVolts(met, answers));
  for (const part of model.parts.values()) {
    const rated = part.kind.family === 'switching' ? part.facts.number('voltage') : undefined;
    if (rated === undefined || !(rated > 0) || part.facts.word('voltage', 'sort') === 'ac') continue;
    const wired = part.contacts.filter((contact) =>
      [contact.from, contact.to].every((name) =>
        (answers.network.at.get(`${part.name}:${name}`) ?? []).some(({ is }) => is !== 'contact'),
      ),
    );
    // A negative may be that of several voltages: only what leads to a plus tells which.
    const returns = new Set(
      (answers.contacts.get(part.name) ?? []).flatMap(({ pole, isReturn }) => (isReturn ? [pole] : [])),
    );
    const rows = part.facts.each('series').flatMap((row) => {
      const [poles, stated] = [row.number('series', 'poles'), row.number('series', 'voltage')];
      return poles === undefined || stated === undefined ? [] : [{ poles, volts: stated }];
    });
    const circuits = circuitsOfPoles(part, wired, (pole) => returns.has(pole), answers.network);
    // Told of the circuit that is worst placed.
    let worst: OpenVolts | undefined;
    for (const { start, poles } of circuits) {
      const volts = voltsOf(partsJoinedTo(start, answers.network));
      if (volts === undefined) continue;
      const series = rows.filter((row) => row.poles <= poles && row.poles > 1).sort((a, b) => b.volts - a.volts)[0];
      const open = { part, rated, poles, circuits: circuits.length, series, ...volts };
      if (worst === undefined || ratio(open) > ratio(worst)) worst = open;
    }
    if (worst !== undefined) yield worst;
  }
}

/** What it opens, by what it may. */
function ratio({ needed, rated, series }: OpenVolts): number {
  return needed / Math.max(rated, series?.volts ?? 0);
}

/** Whether the voltage is above what one pole, and what the poles together, are stated to open. */
export function isAbove({ needed, from }: OpenVolts, rated: number): boolean {
  return exceeds(needed, from === 'nominal' ? calledRatio * rated : rated);
}

function panelVolts(met: ReadonlySet<Part>, { strings }: RuleContext['answers']) {
  const here = strings.strings.filter(
    ({ panels, controller }) =>
      panels.some((panel) => met.has(panel)) && (controller === undefined || met.has(controller)),
  );
  const worst = here.reduce<(typeof here)[number] | undefined>((a, b) => {
    const of = (one: (typeof here)[number]) => one.coldVolts ?? one.openVolts;
    return a === undefined || of(b) > of(a) ? b : a;
  }, undefined);
  return worst === undefined
    ? undefined
    : { needed: worst.coldVolts ?? worst.openVolts, from: 'panels' as const, by: worst.panels };
}

/** Of the bank whose plus the switch is joined to; on a shared negative alone nothing is known of the voltage. */
function nominalVolts(met: ReadonlySet<Part>, { banks }: RuleContext['answers']) {
  const here = banks.filter(({ strings }) => strings.some((string) => string.some((battery) => met.has(battery))));
  const bank = here.reduce<(typeof here)[number] | undefined>(
    (a, b) => (a === undefined || b.nominalVolts < a.nominalVolts ? b : a),
    undefined,
  );
  return bank === undefined ? undefined : { needed: bank.nominalVolts, from: 'nominal' as const, by: bank.batteries };
}
