/** The statements that are no parts: system, links, cases, expectations, accepted findings. */
import { nearWords } from '../../grammar/near.ts';
import { slotNumber, slotWord } from './facts.ts';
import { FactSet } from './facts.ts';
import type { Allowance, Bar, Case, Expectation, NameUse, Origin, Part, SpecFile, SystemFacts } from './model.ts';
import { type Builder, isBroken, ownFacts } from './parts.ts';
import { headPlace, placeIn, problem } from './place.ts';

export function* statementsOf(files: readonly SpecFile[], word: string): Generator<Origin> {
  for (const file of files)
    for (const statement of file.statements) if ((statement.shaped.wrapper ?? statement.shaped.spec)?.word === word) yield { file, statement };
}

export function buildSystem(builder: Builder, files: readonly SpecFile[], knownSets: readonly string[]): SystemFacts {
  let first: Origin | undefined;
  for (const origin of statementsOf(files, 'system')) {
    if (first === undefined && origin.file === files[0]) {
      first = origin;
      continue;
    }
    const place = headPlace(origin);
    if (origin.file === files[0])
      builder.problems.push(
        problem('name-twice', place, 'This spec has a system statement already: take one of the two out.', {
          related: first === undefined ? [] : [{ message: 'The first one stands here', place: headPlace(first) }],
        }),
      );
  }
  if (first === undefined)
    return { origin: undefined, facts: undefined, title: undefined, nominalVolts: undefined, ambientCelsius: undefined, coldestCelsius: undefined, hottestCelsius: undefined, limits: undefined };
  const facts = new FactSet('', first, ownFacts(first));
  const limits = facts.word('limits');
  if (limits !== undefined && !knownSets.includes(limits)) {
    const near = nearWords(limits, knownSets);
    const offers = near.length > 0 ? near : knownSets;
    const place = facts.place('limits', 'set');
    builder.problems.push(
      problem('unknown-name', place, `There is no set of limits “${limits}”: there are ${knownSets.join(' and ')}.`, {
        subject: limits,
        fixes: offers.map((name) => ({ title: `Write ${name}`, safe: false, edits: [{ place, newText: name }] })),
      }),
    );
  }
  return {
    origin: first,
    facts,
    title: first.statement.node.title?.value,
    nominalVolts: facts.number('voltage'),
    ambientCelsius: facts.number('ambient'),
    coldestCelsius: facts.number('coldest'),
    hottestCelsius: facts.number('hottest'),
    limits: limits !== undefined && knownSets.includes(limits) ? limits : undefined,
  };
}

export function buildBars(builder: Builder, files: readonly SpecFile[], uses: NameUse[]): Bar[] {
  const bars: Bar[] = [];
  for (const origin of statementsOf(files, 'link')) {
    const name = origin.statement.node.names[0];
    if (name === undefined) continue;
    const found = builder.resolver.find(name.value, placeIn(origin, name.span), ['part']);
    const part = found === undefined ? undefined : builder.parts.get(found.name);
    if (part === undefined) continue;
    for (const clause of origin.statement.shaped.clauses) {
      const atom = clause.values[0]?.atom;
      if (clause.spec.id !== 'bar' || atom?.kind !== 'range') continue;
      const place = placeIn(origin, atom.span);
      const ends = [atom.from, atom.to].map((number) => {
        const terminal = builder.terminals.get(`${part.name}:${number}`);
        if (terminal === undefined && !isBroken(part.origin)) {
          const names = part.terminals.map(({ spec }) => spec.name);
          builder.problems.push(
            problem('unknown-terminal', place, `${part.name} has no terminal ${number} for this bar: it has ${names.join(', ') || 'none'}.`, {
              subject: part.name,
              related: [{ message: `${part.name} is declared here`, place: part.namePlace }],
            }),
          );
        } else uses.push({ place, name: `${part.name}:${number}`, target: 'terminal', declaration: false });
        return terminal;
      });
      const [from, to] = ends;
      if (from !== undefined && to !== undefined) bars.push({ part, from, to, origin, place });
    }
  }
  return bars;
}

function emptyCase(): Omit<Case, 'name' | 'title' | 'origin' | 'namePlace'> {
  return {
    implied: false,
    sun: undefined,
    charge: undefined,
    chargeOf: new Map(),
    voltsOf: new Map(),
    on: new Map(),
    allLoads: undefined,
    allSources: undefined,
    ambientCelsius: undefined,
    conductorsCelsius: undefined,
  };
}

export function buildCases(builder: Builder, files: readonly SpecFile[]): Case[] {
  const cases: Case[] = [];
  for (const { name, origin, namePlace } of builder.declarations.cases.values()) {
    const chargeOf = new Map<string, number>();
    const voltsOf = new Map<string, number>();
    const on = new Map<string, boolean>();
    let [sun, charge, ambient, conductors]: (number | undefined)[] = [];
    let [allLoads, allSources]: (boolean | undefined)[] = [];
    for (const clause of origin.statement.shaped.clauses) {
      const value = (slot: string) => clause.values.find((v) => v.slot === slot);
      const number = (slot: string) => {
        const v = value(slot);
        return v === undefined ? undefined : slotNumber(v);
      };
      const partOf = (v: (typeof clause.values)[number]) => {
        const word = slotWord(v);
        return word === undefined ? undefined : builder.resolver.find(word, placeIn(origin, v.span), ['part'])?.name;
      };
      const stateOn = value('state')?.atom.text === 'on';
      switch (clause.spec.id) {
        case 'sun':
          sun = number('sun');
          break;
        case 'charge':
          charge = number('charge');
          break;
        case 'charge-of':
        case 'volts-of': {
          const battery = value('battery');
          const part = battery === undefined ? undefined : partOf(battery);
          const amount = number(clause.spec.id === 'charge-of' ? 'charge' : 'voltage');
          if (part !== undefined && amount !== undefined) (clause.spec.id === 'charge-of' ? chargeOf : voltsOf).set(part, amount);
          break;
        }
        case 'all':
          if (value('group')?.atom.text === 'loads') allLoads = stateOn;
          else allSources = stateOn;
          break;
        case 'state':
          for (const v of clause.values) {
            if (v.slot !== 'part') continue;
            const part = partOf(v);
            if (part !== undefined) on.set(part, stateOn);
          }
          break;
        case 'ambient':
          ambient = number('temperature');
          break;
        case 'conductors':
          conductors = number('temperature');
          break;
      }
    }
    cases.push({
      name,
      title: origin.statement.node.title?.value,
      origin,
      namePlace,
      implied: false,
      sun,
      charge,
      chargeOf,
      voltsOf,
      on,
      allLoads,
      allSources,
      ambientCelsius: ambient,
      conductorsCelsius: conductors,
    });
  }
  if (cases.length > 0) return cases;
  const [file] = files;
  const statement = file?.statements[0];
  if (file === undefined || statement === undefined) return [];
  // A spec without cases is worked out for these four.
  const implied = (name: string, more: Partial<Case>): Case => ({
    ...emptyCase(),
    name,
    title: undefined,
    origin: { file, statement },
    namePlace: headPlace({ file, statement }),
    implied: true,
    ...more,
  });
  return [
    implied('loads-only', { allLoads: true }),
    implied('sun-only', { sun: 1 }),
    implied('sun-and-loads', { sun: 1, allLoads: true }),
    implied('charging', { sun: 1, allSources: true }),
  ];
}

export function buildExpectations(builder: Builder, files: readonly SpecFile[], uses: NameUse[]): Expectation[] {
  const expectations: Expectation[] = [];
  for (const origin of statementsOf(files, 'expect')) {
    for (const clause of origin.statement.shaped.clauses) {
      for (const value of clause.values) {
        const place = placeIn(origin, value.span);
        if (value.slot === 'case' && value.atom.kind === 'word') builder.resolver.find(value.atom.value, place, ['case']);
        else if (value.slot === 'subject' && value.atom.kind === 'word') builder.resolver.find(value.atom.value, place, ['part', 'run']);
        else if (value.slot === 'subject' && value.atom.kind === 'terminal') {
          const found = builder.resolver.find(value.atom.part, placeIn(origin, value.atom.partSpan), ['part']);
          const id = `${value.atom.part}:${value.atom.terminal}`;
          if (found !== undefined && builder.terminals.has(id)) uses.push({ place: placeIn(origin, value.atom.terminalSpan), name: id, target: 'terminal', declaration: false });
        }
      }
    }
    expectations.push({ origin, facts: new FactSet('', origin, ownFacts(origin)) });
  }
  return expectations;
}

export function buildAllowances(builder: Builder, files: readonly SpecFile[]): Allowance[] {
  const allowances: Allowance[] = [];
  for (const origin of statementsOf(files, 'allow')) {
    const facts = new FactSet('', origin, ownFacts(origin));
    const slug = facts.word('finding', 'slug');
    if (slug === undefined) continue;
    const subject = facts.word('finding', 'subject');
    if (subject !== undefined) builder.resolver.find(subject, facts.place('finding', 'subject'), ['part', 'run', 'place', 'stock', 'case']);
    const reason = facts.word('reason');
    if (reason === undefined && !isBroken(origin))
      builder.problems.push(
        problem('missing-required-clause', facts.place('finding', 'slug'), `Say why ${slug} is accepted, in quotes behind it: whoever reads this in two years will want to know.`, { subject: slug }),
      );
    allowances.push({ origin, slug, slugPlace: facts.place('finding', 'slug'), subject, reason });
  }
  return allowances;
}

export type { Part };
