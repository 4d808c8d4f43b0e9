/** Parts and places: clauses in force, terminals, contacts, and where they stand. */
import type { Atom } from '../../grammar/tree.ts';
import type { KindSpec, TerminalSpec } from '../kinds/kind.ts';
import { kindOf } from '../kinds/vocabulary.ts';
import type { Builder, Said } from './builder.ts';
import type { Declaration } from './declarations.ts';
import { FactSet } from './facts.ts';
import { keptWith } from './lazily.ts';
import type { Location, Part, Terminal } from './model.ts';
import { placeIn, problem } from './place.ts';
import { requireClauses } from './required.ts';
import { ownFacts, saidBy } from './stock.ts';

/** Ambient of an engine space of which no temperature is said, °C: 33 CFR 183.425(a) table 5 note 1 takes 50 °C there. */
const engineSpaceCelsius = 50;

export function buildLocations(builder: Builder): void {
  const { declarations, kept, lookups, locations } = builder;
  for (const declaration of declarations.all)
    if (declaration.as === 'place')
      locations.set(
        declaration.name,
        kept.locations.of(declaration, lookups, () => locationOf(declaration)),
      );
}

function locationOf({ name, origin, namePlace }: Declaration): Location {
  const facts = new FactSet(name, origin, ownFacts(origin), namePlace);
  const engineSpace = facts.says('engine-space');
  return {
    name,
    title: origin.statement.node.title?.value,
    origin,
    namePlace,
    facts,
    celsius: facts.number('temperature') ?? (engineSpace ? engineSpaceCelsius : undefined),
    outdoors: facts.word('exposure') === 'outdoors',
    engineSpace,
  };
}

/** A part without what it stands in, and with what terminals it has. */
export interface Draft {
  readonly part: Omit<Part, 'enclosure' | 'location' | 'terminals'>;
  readonly terminals: readonly TerminalSpec[];
}

export function buildParts(builder: Builder): void {
  const { kept, lookups } = builder;
  const make = (declaration: Declaration, said: Said) => draftOf(builder, declaration, said);
  const drafts = new Map<string, Draft>();
  // Terminals are numbered, in the order of statements.
  const firsts = new Map<Draft, number>();
  let count = 0;
  for (const declaration of builder.declarations.all) {
    if (declaration.as !== 'part') continue;
    const kind = kindIn(declaration);
    if (kind === undefined) continue;
    const draft = kept.drafts.of(declaration, lookups, make, saidBy(builder, declaration.origin, kind.word));
    drafts.set(declaration.name, draft);
    firsts.set(draft, count);
    count += draft.terminals.length;
  }
  // Every part is made after the enclosure it stands in, so that it finds it and the place that is at.
  const made = new Map<string, Part>();
  for (const draft of drafts.values()) {
    const stack: Draft[] = [];
    let next: Draft | undefined = draft;
    while (next !== undefined && !made.has(next.part.name) && !stack.includes(next)) {
      stack.push(next);
      next = enclosing(builder, drafts, next);
    }
    if (next !== undefined && stack.includes(next)) circle(builder, stack.slice(stack.indexOf(next)));
    for (const one of stack.reverse()) made.set(one.part.name, finish(builder, one, made, firsts.get(one) ?? 0));
  }
  // Statement order counts for everything that lists parts.
  for (const name of drafts.keys()) {
    const part = made.get(name);
    if (part === undefined) continue;
    builder.parts.set(name, part);
    for (const terminal of part.terminals) builder.terminals.set(terminal.id, terminal);
  }
}

function kindIn({ origin }: Declaration): KindSpec | undefined {
  return kindOf(origin.statement.shaped.spec?.word ?? '');
}

function draftOf(builder: Builder, declaration: Declaration, { facts: clauses, sure }: Said): Draft {
  const { name, origin, namePlace } = declaration;
  const kind = kindIn(declaration) as KindSpec;
  const facts = new FactSet(name, origin, clauses, namePlace);
  const first = origin.statement.node.names[0]?.value === name;
  const isWanting = sure && first && requireClauses(builder, origin, kind, clauses);
  // A statement that is not finished may go on to say how many terminals there are.
  const counts = countsOf(kind);
  const mayCount = isWanting && counts.length > 0 && !counts.some(({ id }) => facts.says(id));
  if (!sure || mayCount || !countsKnown(kind, facts)) {
    builder.unsureParts.add(name);
    builder.lookups.doubt();
  }
  // A pole pair may name a terminal twice (`pairs 1-2 1-3`); it is one terminal all the same.
  const terminals = new Map(kind.terminals(facts).map((spec) => [spec.name, spec]));
  return {
    part: {
      name,
      title: origin.statement.node.title?.value,
      origin,
      namePlace,
      kind,
      facts,
      contacts: kind.contacts(facts),
    },
    terminals: [...terminals.values()],
  };
}

/** Whether the counts that terminals follow from (poles, ways, pins, studs) are said in figures. */
function countsKnown(kind: KindSpec, facts: FactSet): boolean {
  return countsOf(kind).every(({ id, required }) =>
    facts.says(id)
      ? !facts.all(id).some(({ clause }) => clause.values.some(({ atom }) => isNoCount(atom)))
      : required !== true,
  );
}

/** A blank, or a number of which there cannot be so many: `1.5 poles`. */
const isNoCount = (atom: Atom) =>
  atom.kind === 'blank' || (atom.kind === 'number' && !(Number.isInteger(atom.value) && atom.value > 0));

const countsOf = keptWith(({ clauses }: KindSpec) => clauses.filter(({ form }) => /\{[\w-]+:number\}/u.test(form)));

function enclosing(builder: Builder, drafts: ReadonlyMap<string, Draft>, { part }: Draft): Draft | undefined {
  const name = part.facts.word('in', 'enclosure');
  const found = name === undefined ? undefined : builder.names.find(name, ['enclosure']);
  return found === undefined ? undefined : drafts.get(found.name);
}

function finish(builder: Builder, draft: Draft, made: ReadonlyMap<string, Part>, first: number): Part {
  const { name, facts } = draft.part;
  const within = facts.word('in', 'enclosure');
  const enclosed = within === undefined ? undefined : builder.names.find(within, ['enclosure']);
  const at = facts.word('at', 'place');
  const enclosure = enclosed === undefined ? undefined : made.get(enclosed.name);
  const location = (at === undefined ? undefined : builder.locations.get(at)) ?? enclosure?.location;
  return builder.kept.part(draft, enclosure, location, first, () => {
    const terminals: Terminal[] = [];
    const part: Part = { terminals, enclosure, location, ...draft.part };
    for (const spec of draft.terminals)
      terminals.push({
        id: spec.name === '' ? name : `${name}:${spec.name}`,
        part,
        spec,
        index: first + terminals.length,
      });
    return part;
  });
}

function circle(builder: Builder, chain: readonly Draft[]): void {
  const last = chain.at(-1)?.part;
  const fact = last?.facts.fact('in');
  const first = chain[0]?.part;
  if (last === undefined || first === undefined || fact === undefined) return;
  const place = fact.fromStock === undefined ? placeIn(fact.origin, fact.clause.span) : last.facts.place('in');
  const names = [...chain.map(({ part }) => part.name), first.name].join(' in ');
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
