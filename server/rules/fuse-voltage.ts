/** A fuse or breaker for a lower voltage than its circuit has. */
import type { CircuitVolts } from '../answers/circuit-volts.ts';
import type { Model, Part } from '../model/model.ts';
import { usualFuseVolts } from '../tables/fuse-voltages.ts';
import { coldVoc } from '../tables/photovoltaic.ts';
import { cite, citeWithin } from '../tables/table.ts';
import { exceeds } from './exceeds.ts';
import { lampSpec } from './language.ts';
import type { Reported, Rule, Severity } from './rule.ts';
import { circuitsOfPoles } from './series-poles.ts';
import { inSeries, sunSpec } from './sun-examples.ts';
import { names, temperature, volts } from './words.ts';

const high = {
  system: 'system "Shed" 48 V',
  battery: 'battery B1 lithium-iron-phosphate, 51.2 V, 100 Ah, internal 60 mΩ',
  load: 'load LAMP 60 W',
} as const;
const cells = 'panel P1 and P2 100 W, voc 22.5 V, isc 5.9 A, vmp 18.6 V, imp 5.4 A, voc drift -0.30 %/°C';

/** A breaker of which each pole serves a lamp of its own. */
const twoCircuits = (breaker: string) =>
  lampSpec(
    {
      ...high,
      fuse: breaker,
      feed: 'run W1 1.5 mm² red, 0.1 m, B1:+ to F1:1',
      out: 'run W2 1.5 mm² red, 1 m, F1:2 to LAMP:+',
    },
    'load FAN 60 W',
    'run W4 1.5 mm² red, 0.1 m, B1:+ to F1:3',
    'run W5 1.5 mm² red, 1 m, F1:4 to FAN:+',
    'run W6 1.5 mm² black, 1 m, FAN:- to B1:-',
  );

export const rule: Rule = {
  slug: 'fuse-voltage',
  severity: 'error',
  group: 'protection',
  reads: [
    'fuse.voltage',
    'fuse.style',
    'breaker.voltage',
    'breaker.series-voltage',
    'battery.voltage',
    'battery.charge-voltage',
    'controller.charge-voltage',
    'alternator.voltage',
    'panel.voc',
    'system.coldest',
  ],
  page: {
    title: 'A fuse or breaker for a lower voltage',
    why: 'When it opens, the voltage keeps the arc in the gap alive. At more than its rating the arc does not go out: the fuse burns, and the fault with it.',
    limit:
      'The rated d.c. voltage of a device must not be below the voltage of its circuit (IEC 60364-5-53 clause 533, from memory): the nominal voltage of what feeds it, and of panels the open-circuit voltage at the system’s coldest by their drift; where that is from a table it is a warning. Below the charging voltage that something on it states it is a warning too. A fuse that states none is advice from above what its body style usually has: blade, bolt-in, strip and glass 32 V (ISO 8820-3 and 8820-5, from memory). Poles of a breaker in series count for the figure that their maker states, those of one circuit alone.',
    mend: 'Fit one for a higher d.c. voltage: 58 V or 80 V kinds for 48 V, string fuses (`gpv`) for panels.',
    see: ['ratings-unstated', 'fuse-breaking-capacity', 'breaker-not-dc', 'pv-voltage-over-controller'],
    wrong: [
      lampSpec({ ...high, fuse: 'fuse F1 5 A, blade, 32 V # finds: fuse-voltage "32 V"' }),
      lampSpec({ ...high, fuse: 'fuse F1 5 A, blade # finds: fuse-voltage "blade"' }),
      sunSpec({
        panels: cells,
        wiring: `${inSeries.replace('P1:+ to ', 'P1:+ to F9:in\nrun W99 4 mm² red, 1 m, F9:out to ')}
fuse F9 10 A, gpv, 45 V # finds: fuse-never-blows "10 A"; fuse-voltage "45 V"`,
      }),
      twoCircuits('breaker F1 5 A, 2 poles, 32 V dc, breaks 20 kA, 2 in series 60 V # finds: fuse-voltage "32 V dc"'),
    ],
    right: [
      twoCircuits('breaker F1 5 A, 2 poles, 60 V dc, breaks 20 kA'),
      lampSpec({ ...high, fuse: 'fuse F1 5 A, blade, 58 V' }),
      lampSpec({ fuse: 'fuse F1 5 A, blade, 32 V' }),
    ],
  },
  *check({ model, answers }) {
    for (const [name, contacts] of answers.contacts) {
      const part = model.parts.get(name);
      if (part === undefined || !['fuse', 'breaker'].includes(part.kind.word)) continue;
      const all = contacts.map(({ volts: of }) => of);
      const wired = part.contacts.filter((contact) => isUsed(part, contact.pole, answers.network.at));
      const returns = new Set(contacts.flatMap(({ pole, isReturn }) => (isReturn ? [pole] : [])));
      // Of poles alone in a return its circuit is not known: all are taken to share it.
      const circuits = part.facts.says('series-voltage')
        ? circuitsOfPoles(part, wired, (pole) => returns.has(pole), answers.network)
        : [];
      const used = circuits.length === 0 ? wired.length : Math.min(...circuits.map(({ poles }) => poles));
      const reported = judge(part, used, all, model);
      if (reported !== undefined) yield reported;
    }
  },
};

function isUsed(part: Part, pole: number, at: ReadonlyMap<string, readonly { readonly is: string }[]>): boolean {
  const contact = part.contacts.find((one) => one.pole === pole);
  return part.terminals.some(
    ({ id, spec }) =>
      (spec.name === contact?.from || spec.name === contact?.to) && (at.get(id) ?? []).some(({ is }) => is === 'core'),
  );
}

interface Asked {
  readonly volts: number;
  readonly severity: Severity;
  /** What makes the voltage up. */
  readonly by: readonly Part[];
  because(): string;
}

function judge(part: Part, used: number, all: readonly CircuitVolts[], model: Model): Reported | undefined {
  const stated = ratedVolts(part, used);
  const style = part.facts.word('style');
  const usual = stated === undefined && part.kind.word === 'fuse' ? usualFuseVolts(style) : undefined;
  const rated = stated ?? usual?.volts;
  if (rated === undefined) return undefined;
  const over = all
    .flatMap((one) => asked(one, model))
    .filter((one) => exceeds(one.volts, rated))
    .sort((a, b) => rank(a) - rank(b) || b.volts - a.volts);
  const [worst] = over;
  if (worst === undefined) return undefined;
  const base = {
    subject: part.name,
    figures: { ratedVolts: rated, circuitVolts: worst.volts, stated: stated !== undefined },
    related: (worst.by.length > 1 ? worst.by : []).map((one) => ({
      message: `${one.name} makes the voltage`,
      place: one.facts.says('voltage') ? one.facts.place('voltage') : one.namePlace,
    })),
  };
  const fit = `fit one for ${volts(Math.ceil(worst.volts))} d.c. or more`;
  return usual === undefined
    ? {
        ...base,
        severity: worst.severity,
        message: `${part.name} is rated ${volts(rated)}, but ${worst.because()}, and above its rating its arc may not go out: ${fit}.`,
        place: part.facts.place('voltage'),
      }
    : {
        ...base,
        severity: 'advice',
        message: `The voltage of ${part.name} is not said, and a ${style} fuse is usually for ${volts(rated)} (${citeWithin(usual.source)}), but ${worst.because()}: say its voltage, or ${fit}.`,
        place: part.facts.place('style'),
      };
}

const rank = ({ severity }: Asked) => (severity === 'error' ? 0 : 1);

/** Of poles in series what their maker states for as many as are wired. */
function ratedVolts({ facts }: Part, used: number): number | undefined {
  const single = facts.number('voltage');
  const series = facts
    .each('series-voltage')
    .filter((row) => (row.number('series-voltage', 'poles') ?? Number.POSITIVE_INFINITY) <= used)
    .flatMap((row) => row.number('series-voltage', 'voltage') ?? []);
  return single === undefined ? undefined : Math.max(single, ...series);
}

function asked({ nominal, charging, panels }: CircuitVolts, model: Model): Asked[] {
  const found: Asked[] = [];
  if (nominal !== undefined)
    found.push({
      volts: nominal.volts,
      severity: 'error',
      by: nominal.by,
      because: () =>
        nominal.by.length > 1
          ? `${names(nominal.by)} in series give ${volts(nominal.volts)}`
          : `${names(nominal.by)} gives ${volts(nominal.volts)}`,
    });
  if (charging !== undefined)
    found.push({
      volts: charging.volts,
      severity: 'warning',
      by: charging.by,
      because: () =>
        charging.by.length > 1
          ? `${names(charging.by)} in series are charged at ${volts(charging.volts)}`
          : `${names(charging.by)} is charged at ${volts(charging.volts)} or charges to it`,
    });
  if (panels !== undefined) {
    const { panels: own, coldVolts } = panels;
    const reach = () => `${names(own)} ${own.length > 1 ? 'reach' : 'reaches'}`;
    found.push({
      volts: panels.openVolts,
      severity: 'error',
      by: own,
      because: () => `${reach()} ${volts(panels.openVolts)}`,
    });
    const { coldestCelsius } = model.system;
    if (coldVolts !== undefined && coldestCelsius !== undefined)
      found.push({
        volts: coldVolts,
        severity: panels.byTable.length > 0 ? 'warning' : 'error',
        by: own,
        because: () =>
          `${reach()} ${volts(coldVolts)} at ${temperature(coldestCelsius, model)}${panels.byTable.length > 0 ? `, by ${cite(coldVoc)}` : ''}`,
      });
  }
  return found;
}
