/**
 * The answers of a whole spec, put together of its sections' answers: who asks of one thing is answered by the section that
 * has it, and lists are put together when first asked for.
 */
import type { Answers, CaseAnswer, Directions, Flow } from '../answers/answers.ts';
import type { FaultAnswers } from '../answers/fault-answers.ts';
import { lazily } from '../model/lazily.ts';
import type { Case, Core, Part, Terminal } from '../model/model.ts';
import type { Island, Layout, Network } from '../model/network.ts';
import { JoinedMap } from './joined-map.ts';
import type { Section } from './section.ts';

/** At least one section. */
export function mergedAnswers(sections: readonly [Section, ...Section[]]): Answers {
  const all = sections.map(({ answers }) => answers);
  const [{ answers: first }] = sections;
  const bySubject = new JoinedMap<string, Answers>(
    sections.map(({ model, answers }) => ({
      get: (name) => (model.parts.has(name) || model.runs.has(name) ? answers : undefined),
    })),
    () =>
      new Map(
        sections.flatMap(({ model, answers }) =>
          [...model.parts.keys(), ...model.runs.keys()].map((name) => [name, answers] as const),
        ),
      ),
  );
  const ofPart = (part: Part) => bySubject.get(part.name) ?? first;
  const ofCore = (core: Core) => bySubject.get(core.run.name) ?? first;
  const flat = <T>(of: (answers: Answers) => readonly T[]) => lazily(() => all.flatMap(of));
  const joined = <Key, Value>(of: (answers: Answers) => ReadonlyMap<Key, Value>) =>
    lazily(() => new JoinedMap(all.map(of), () => new Map(all.flatMap((one) => [...of(one)]))));
  const inCase = (of: (answers: Answers) => CaseAnswer) =>
    mergedCase(new Map(all.map((one) => [one, of(one)] as const)), ofPart, ofCore);
  const network = lazily(() => mergedNetwork(sections));
  const cases = lazily(() => first.cases.map((own, index) => inCase((one) => one.cases[index] ?? own)));
  const cores = joined((one) => one.cores);
  const runs = joined((one) => one.runs);
  const contacts = joined((one) => one.contacts);
  const loads = joined((one) => one.loads);
  const unfused = flat((one) => one.unfused);
  const loneDevices = flat((one) => one.loneDevices);
  const unfusedStretches = flat((one) => one.unfusedStretches);
  const chosen = flat((one) => one.chosen);
  const banks = flat((one) => one.banks);
  const unfusedBanks = flat((one) => one.unfusedBanks);
  const strings = lazily(() => ({
    strings: all.flatMap((one) => one.strings.strings),
    inputs: all.flatMap((one) => one.strings.inputs),
  }));
  const faults = lazily(() => mergedFaults(all, ofPart, ofCore));
  const directions = lazily(() => mergedDirections(all, ofPart, ofCore));
  const miswirings = lazily(() => ({
    shorts: all.flatMap((one) => one.miswirings.shorts),
    reversed: all.flatMap((one) => one.miswirings.reversed),
    astray: all.flatMap((one) => one.miswirings.astray),
    stranded: all.flatMap((one) => one.miswirings.stranded),
    voltages: all.flatMap((one) => one.miswirings.voltages),
    isUpset: (terminal: Terminal) => ofPart(terminal.part).miswirings.isUpset(terminal),
    anyHalved: all.some((one) => one.miswirings.anyHalved),
    isHalved: (terminal: Terminal) => ofPart(terminal.part).miswirings.isHalved(terminal),
  }));
  return {
    limits: first.limits,
    limitsStated: first.limitsStated,
    systemVolts: first.systemVolts,
    inCase: (one: Case) => inCase((answers) => answers.inCase(one)),
    tailOf: (core) => ofCore(core).tailOf(core),
    waysTo: (load, one) => ofPart(load).waysTo(load, one),
    get network() {
      return network();
    },
    get cases() {
      return cases();
    },
    get cores() {
      return cores();
    },
    get runs() {
      return runs();
    },
    get contacts() {
      return contacts();
    },
    get loads() {
      return loads();
    },
    get unfused() {
      return unfused();
    },
    get loneDevices() {
      return loneDevices();
    },
    get unfusedStretches() {
      return unfusedStretches();
    },
    get chosen() {
      return chosen();
    },
    get banks() {
      return banks();
    },
    get unfusedBanks() {
      return unfusedBanks();
    },
    get strings() {
      return strings();
    },
    polarities: {
      of: (terminal) => ofPart(terminal.part).polarities.of(terminal),
      ofCore: (core) => ofCore(core).polarities.ofCore(core),
    },
    get faults() {
      return faults();
    },
    get directions() {
      return directions();
    },
    get miswirings() {
      return miswirings();
    },
  };
}

/** A case that one section cannot answer is not answered as a whole, and nobody reads figures in it. */
function mergedCase(
  bySection: ReadonlyMap<Answers, CaseAnswer>,
  ofPart: (part: Part) => Answers,
  ofCore: (core: Core) => Answers,
): CaseAnswer {
  const answers = [...bySection.values()];
  const converged = answers.every((one) => one.converged);
  const told = converged ? answers : [];
  const others = answers.filter(({ converged, unfed }) => !converged && unfed.length === 0);
  const joined = <Value>(of: (answer: CaseAnswer) => ReadonlyMap<string, Value>) =>
    lazily(() => new JoinedMap(told.map(of), () => new Map(told.flatMap((one) => [...of(one)]))));
  const volts = joined((one) => one.volts);
  const cores = lazily(() => told.flatMap((one) => one.cores));
  const contacts = lazily(() => told.flatMap((one) => one.contacts));
  const parts = joined((one) => one.parts);
  return {
    coreIn: (core) => (converged ? bySection.get(ofCore(core))?.coreIn(core) : undefined),
    voltsAt: (terminal) => (converged ? bySection.get(ofPart(terminal.part))?.voltsAt(terminal) : undefined),
    partIn: (part) => (converged ? bySection.get(ofPart(part))?.partIn(part) : undefined),
    name: answers[0]?.name ?? '',
    converged,
    trouble: [...others, ...answers].find(({ trouble }) => trouble !== undefined)?.trouble,
    overloads: answers.flatMap(({ overloads }) => overloads),
    unfed: others.length === 0 ? answers.flatMap(({ unfed }) => unfed) : [],
    residual: Math.max(0, ...answers.map(({ residual }) => residual)),
    get volts() {
      return volts();
    },
    get cores() {
      return cores();
    },
    get contacts() {
      return contacts();
    },
    get parts() {
      return parts();
    },
  };
}

function mergedFaults(
  all: readonly Answers[],
  ofPart: (part: Part) => Answers,
  ofCore: (core: Core) => Answers,
): FaultAnswers {
  const terminals = lazily(() => new Map(all.flatMap(({ faults }) => [...faults.terminals])));
  const cores = lazily(() => new Map(all.flatMap(({ faults }) => [...faults.cores])));
  const devices = lazily(() => new Map(all.flatMap(({ faults }) => [...faults.devices])));
  return {
    get terminals() {
      return terminals();
    },
    get cores() {
      return cores();
    },
    get devices() {
      return devices();
    },
    ofTerminal: (terminal) => ofPart(terminal.part).faults.ofTerminal(terminal),
    ofCore: (core) => ofCore(core).faults.ofCore(core),
    ofDevice: (part, pole) => ofPart(part).faults.ofDevice(part, pole),
    mostThrough: (part, pole) => ofPart(part).faults.mostThrough(part, pole),
  };
}

function mergedDirections(
  all: readonly Answers[],
  ofPart: (part: Part) => Answers,
  ofCore: (core: Core) => Answers,
): Directions {
  return {
    get greatestSurgeAmps() {
      return Math.max(...all.map(({ directions }) => directions.greatestSurgeAmps));
    },
    ofCore: (core): Flow => ofCore(core).directions.ofCore(core),
    ofContact: (part, pole): Flow => ofPart(part).directions.ofContact(part, pole),
    mostOfContact: (part, pole, enough) => ofPart(part).directions.mostOfContact(part, pole, enough),
    heatingAmps: (core, other) => ofCore(core).directions.heatingAmps(core, other),
    warmingOf: (core) => ofCore(core).directions.warmingOf(core),
    get cranking() {
      return all.flatMap(({ directions }) => directions.cranking);
    },
    startsOf: (load) => ofPart(load).directions.startsOf(load),
    leastWhileStarting: (load) => ofPart(load).directions.leastWhileStarting(load),
  };
}

/** Terminals, edges and islands are numbered through; nothing that is worked out rests on these numbers. */
function mergedNetwork(sections: readonly Section[]): Network {
  const networks = sections.map(({ answers }) => answers.network);
  const layout = lazily(() => mergedLayout(networks.map((one) => one.layout)));
  const edges = lazily(() => networks.flatMap((one) => one.edges).map((edge, index) => ({ ...edge, index })));
  return {
    get layout() {
      return layout();
    },
    get edges() {
      return edges();
    },
    at: new JoinedMap(
      networks.map(({ at }) => at),
      () => new Map(networks.flatMap(({ at }) => [...at])),
    ),
  };
}

function mergedLayout(layouts: readonly Layout[]): Layout {
  const islandOf = new Map<string, number>();
  const islands: Island[] = [];
  for (const layout of layouts) {
    const from = islands.length;
    for (const island of layout.islands) islands.push({ ...island, id: from + island.id });
    for (const [terminal, island] of layout.islandOf) islandOf.set(terminal, from + island);
  }
  return {
    parts: layouts.flatMap(({ parts }) => parts),
    terminals: layouts.flatMap(({ terminals }) => terminals),
    joints: layouts.flatMap(({ joints }) => joints).map((joint, index) => ({ ...joint, index })),
    islands,
    islandOf,
  };
}
