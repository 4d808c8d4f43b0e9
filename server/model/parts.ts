/** Parts and places: clauses in force, terminals, contacts, and where they stand. */
import type { KindSpec } from '../kinds/kind.ts';
import { kindOf } from '../kinds/vocabulary.ts';
import type { Builder } from './builder.ts';
import type { Declaration } from './declarations.ts';
import { FactSet } from './facts.ts';
import type { Part, Terminal } from './model.ts';
import { placeIn, problem } from './place.ts';
import { requireClauses } from './required.ts';
import { ownFacts, saidBy } from './stock.ts';

/** Ambient of an engine space of which no temperature is said, °C: 33 CFR 183.425(a) table 5 note 1 takes 50 °C there. */
const engineSpaceCelsius = 50;

export function buildLocations(builder: Builder): void {
  for (const { as, name, origin, namePlace } of builder.declarations.all) {
    if (as !== 'place') continue;
    const facts = new FactSet(name, origin, ownFacts(origin), namePlace);
    const engineSpace = facts.says('engine-space');
    builder.locations.set(name, {
      name,
      title: origin.statement.node.title?.value,
      origin,
      namePlace,
      facts,
      celsius: facts.number('temperature') ?? (engineSpace ? engineSpaceCelsius : undefined),
      outdoors: facts.word('exposure') === 'outdoors',
      engineSpace,
    });
  }
}

type Draft = Omit<Part, 'enclosure' | 'location' | 'terminals'>;
type MadePart = Part & { readonly terminals: Terminal[] };

export function buildParts(builder: Builder): void {
  const drafts = new Map<string, Draft>();
  for (const declaration of builder.declarations.all) {
    if (declaration.as !== 'part') continue;
    const kind = kindOf(declaration.origin.statement.shaped.spec?.word ?? '');
    if (kind !== undefined) drafts.set(declaration.name, draftOf(builder, declaration, kind));
  }
  // Every part is made after the enclosure it stands in, so that it finds it and the place that is at.
  const made = new Map<string, MadePart>();
  for (const draft of drafts.values()) {
    const stack: Draft[] = [];
    const names = new Set<string>();
    let next: Draft | undefined = draft;
    while (next !== undefined && !made.has(next.name) && !names.has(next.name)) {
      stack.push(next);
      names.add(next.name);
      next = enclosing(builder, drafts, next);
    }
    if (next !== undefined && names.has(next.name)) circle(builder, stack.slice(stack.indexOf(next)));
    for (const one of stack.reverse()) made.set(one.name, finish(builder, one, made));
  }
  // Statement order counts for everything that lists parts.
  for (const name of drafts.keys()) {
    const part = made.get(name);
    if (part === undefined) continue;
    builder.parts.set(name, part);
    addTerminals(builder, part);
  }
}

function draftOf(builder: Builder, { name, origin, namePlace }: Declaration, kind: KindSpec): Draft {
  const { facts: clauses, sure } = saidBy(builder, origin, kind.word);
  const facts = new FactSet(name, origin, clauses, namePlace);
  const first = origin.statement.node.names[0]?.value === name;
  if (sure && first) requireClauses(builder, origin, kind, clauses);
  if (!sure || !countsKnown(kind, facts)) builder.unsureParts.add(name);
  return {
    name,
    title: origin.statement.node.title?.value,
    origin,
    namePlace,
    kind,
    facts,
    contacts: kind.contacts(facts),
  };
}

/** Whether the counts that terminals follow from (poles, ways, pins, studs) are said in figures. */
function countsKnown(kind: KindSpec, facts: FactSet): boolean {
  return kind.clauses.every(({ id, form, required }) => {
    const counts = /\{[\w-]+:number\}/u.test(form);
    return (
      !counts ||
      (facts.says(id)
        ? !facts.all(id).some(({ clause }) => clause.values.some(({ atom }) => atom.kind === 'blank'))
        : required !== true)
    );
  });
}

function enclosing(builder: Builder, drafts: ReadonlyMap<string, Draft>, { facts }: Draft): Draft | undefined {
  const name = facts.word('in', 'enclosure');
  const found = name === undefined ? undefined : builder.names.find(name, ['enclosure']);
  return found === undefined ? undefined : drafts.get(found.name);
}

/** Terminals are numbered, so that they come in the order of statements as well. */
function addTerminals(builder: Builder, part: MadePart): void {
  for (const spec of part.kind.terminals(part.facts)) {
    const id = spec.name === '' ? part.name : `${part.name}:${spec.name}`;
    // A pole pair may name a terminal twice (`pairs 1-2 1-3`); it is one terminal all the same.
    if (builder.terminals.has(id)) continue;
    const terminal: Terminal = { id, part, spec, index: builder.terminals.size };
    part.terminals.push(terminal);
    builder.terminals.set(id, terminal);
  }
}

function finish(builder: Builder, draft: Draft, made: ReadonlyMap<string, Part>): MadePart {
  const within = draft.facts.word('in', 'enclosure');
  const enclosed = within === undefined ? undefined : builder.names.find(within, ['enclosure']);
  const at = draft.facts.word('at', 'place');
  const enclosure = enclosed === undefined ? undefined : made.get(enclosed.name);
  return {
    terminals: [],
    enclosure,
    location: (at === undefined ? undefined : builder.locations.get(at)) ?? enclosure?.location,
    ...draft,
  };
}

function circle(builder: Builder, chain: readonly Draft[]): void {
  const last = chain.at(-1);
  const fact = last?.facts.fact('in');
  const first = chain[0];
  if (last === undefined || first === undefined || fact === undefined) return;
  const place = fact.fromStock === undefined ? placeIn(fact.origin, fact.clause.span) : last.facts.place('in');
  const names = [...chain.map(({ name }) => name), first.name].join(' in ');
  builder.problems.push(
    problem(
      'circle-of-names',
      place,
      `This enclosure stands in itself (${names}): say where one of them really stands.`,
      {
        subject: last.name,
        related: chain.length > 1 ? [{ message: `${first.name} is declared here`, place: first.namePlace }] : [],
      },
    ),
  );
}
