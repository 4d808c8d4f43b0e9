/** Parts and stock: clauses in force, terminals, contacts, where they stand. */
import type { ClauseNode } from '../../grammar/shaped.ts';
import { article } from '../../grammar/shape-problems.ts';
import { kindOf } from '../kinds/vocabulary.ts';
import type { Declaration, Declarations } from './declarations.ts';
import { FactSet, mergeFacts } from './facts.ts';
import type { Fact, Location, Origin, Part, PlacedProblem, Stock, Terminal } from './model.ts';
import { placeIn, problem } from './place.ts';
import type { Resolver } from './resolve.ts';

export interface Builder {
  readonly declarations: Declarations;
  readonly resolver: Resolver;
  readonly problems: PlacedProblem[];
  readonly stocks: Map<string, Stock>;
  readonly parts: Map<string, Part>;
  readonly locations: Map<string, Location>;
  readonly terminals: Map<string, Terminal>;
}

/** True when reading the statement itself found something wrong: then what may be missing is not complained of. */
export function isBroken(origin: Origin): boolean {
  return origin.statement.shaped.problems.length > 0;
}

export function ownFacts(origin: Origin): Fact[] {
  return origin.statement.shaped.clauses.map((clause) => ({ clause, origin, fromStock: undefined }));
}

/** Clauses of the stock a statement takes with `=`, the stock's own stock included. */
export function stockFacts(builder: Builder, origin: Origin, kindWord: string): Fact[] {
  const taken = origin.statement.shaped.clauses.find(({ spec }) => spec.id === 'stock');
  const atom = taken?.values[0]?.atom;
  if (taken === undefined || atom?.kind !== 'word') return [];
  const place = placeIn(origin, atom.span);
  const found = builder.resolver.find(atom.value, place, ['stock']);
  if (found === undefined) return [];
  const stock = stockOf(builder, found, []);
  if (stock === undefined) return [];
  if (stock.kindWord !== kindWord) {
    builder.problems.push(
      problem('wrong-stock-kind', place, `“${stock.name}” is stock of ${article(stock.kindWord)}, and this is ${article(kindWord === 'cable' ? 'run' : kindWord)}: take another stock.`, {
        subject: stock.name,
        related: [{ message: `${stock.name} is declared here`, place: stock.namePlace }],
      }),
    );
    return [];
  }
  return stock.facts.facts.map((fact) => ({ ...fact, fromStock: stock.name }));
}

function stockOf(builder: Builder, declaration: Declaration, trail: readonly string[]): Stock | undefined {
  const known = builder.stocks.get(declaration.name);
  if (known !== undefined) return known;
  const { origin, name, namePlace } = declaration;
  const kindWord = origin.statement.shaped.spec?.word;
  if (kindWord === undefined) return undefined;
  const own = ownFacts(origin);
  const base = own.find(({ clause }) => clause.spec.id === 'stock')?.clause.values[0]?.atom;
  let stocked: Fact[] = [];
  if (base?.kind === 'word') {
    const place = placeIn(origin, base.span);
    if (trail.includes(base.value) || base.value === name)
      builder.problems.push(problem('unknown-name', place, `“${base.value}” is stock that takes from itself in a circle: take this = out.`, { subject: base.value }));
    else {
      const found = builder.resolver.find(base.value, place, ['stock']);
      const stock = found === undefined ? undefined : stockOf(builder, found, [...trail, name]);
      if (stock?.kindWord === kindWord) stocked = stock.facts.facts.map((fact) => ({ ...fact, fromStock: stock.name }));
    }
  }
  const facts = new FactSet(name, origin, mergeFacts(own, stocked));
  const stock: Stock = { name, title: origin.statement.node.title?.value, origin, namePlace, kindWord, facts };
  builder.stocks.set(name, stock);
  return stock;
}

export function buildStocks(builder: Builder): void {
  for (const declaration of builder.declarations.all) if (declaration.as === 'stock') stockOf(builder, declaration, []);
}

export function buildLocations(builder: Builder): void {
  for (const { as, name, origin, namePlace } of builder.declarations.all) {
    if (as !== 'place') continue;
    const facts = new FactSet(name, origin, ownFacts(origin));
    const engineSpace = facts.says('engine-space');
    builder.locations.set(name, {
      name,
      title: origin.statement.node.title?.value,
      origin,
      namePlace,
      facts,
      // An engine space is at least 50 °C (33 CFR 183.425 table 5 note 1).
      celsius: facts.number('temperature') ?? (engineSpace ? 50 : undefined),
      outdoors: facts.word('exposure') === 'outdoors',
      engineSpace,
    });
  }
}

export function buildParts(builder: Builder): void {
  const inside = new Map<string, string>();
  const at = new Map<string, string>();
  const drafts: (Omit<Part, 'enclosure' | 'location' | 'terminals'> & { terminals: Terminal[] })[] = [];
  for (const { as, name, origin, namePlace } of builder.declarations.all) {
    if (as !== 'part') continue;
    const kind = kindOf(origin.statement.shaped.spec?.word ?? '');
    if (kind === undefined) continue;
    const facts = new FactSet(name, origin, mergeFacts(ownFacts(origin), stockFacts(builder, origin, kind.word)));
    const draft = {
      name,
      title: origin.statement.node.title?.value,
      origin,
      namePlace,
      kind,
      facts,
      contacts: kind.contacts(facts),
      terminals: [] as Terminal[],
    };
    drafts.push(draft);
    const enclosure = lookUp(builder, facts, 'in', 'enclosure', 'enclosure');
    if (enclosure !== undefined) inside.set(name, enclosure);
    const place = lookUp(builder, facts, 'at', 'place', 'place');
    if (place !== undefined) at.set(name, place);
    missingClauses(builder, origin, facts, kind.withArticle, kind.clauses);
  }
  // Enclosures first, outermost inward, so that every part finds the one it stands in.
  const pending = new Map(drafts.map((draft) => [draft.name, draft]));
  const finish = (name: string, trail: readonly string[]): Part | undefined => {
    const known = builder.parts.get(name);
    if (known !== undefined) return known;
    const draft = pending.get(name);
    if (draft === undefined || trail.includes(name)) return undefined;
    const within = inside.get(name);
    const enclosure = within === undefined ? undefined : finish(within, [...trail, name]);
    const placed = at.get(name);
    const part: Part = {
      ...draft,
      enclosure,
      location: placed === undefined ? enclosure?.location : builder.locations.get(placed),
    };
    for (const spec of part.kind.terminals(part.facts)) {
      const id = spec.name === '' ? name : `${name}:${spec.name}`;
      const terminal = { id, part, spec };
      draft.terminals.push(terminal);
      builder.terminals.set(id, terminal);
    }
    builder.parts.set(name, part);
    return part;
  };
  for (const { name } of drafts) finish(name, []);
  // Statement order counts for everything that lists parts.
  const ordered = drafts.map(({ name }) => builder.parts.get(name)).filter((part) => part !== undefined);
  builder.parts.clear();
  for (const part of ordered) builder.parts.set(part.name, part);
}

function lookUp(builder: Builder, facts: FactSet, clause: string, slot: string, wanted: 'enclosure' | 'place'): string | undefined {
  const fact = facts.fact(clause);
  const value = facts.slot(clause, slot);
  if (fact === undefined || value?.atom.kind !== 'word') return undefined;
  // A name that stands in stock is complained of there.
  return builder.resolver.find(value.atom.value, placeIn(fact.origin, value.span), [wanted])?.name;
}

/** Clauses a kind must say, each once; of a group (a load's power, current or resistance) one is enough. */
export function missingClauses(
  builder: Builder,
  origin: Origin,
  facts: FactSet,
  withArticle: string,
  clauses: readonly ClauseNode['spec'][],
): void {
  if (isBroken(origin) || origin.statement.node.names[0]?.value !== (facts.name || undefined)) return;
  const missing = clauses.filter((clause) => clause.required === true && !facts.says(clause.id));
  const groups = new Map<string, string[]>();
  for (const clause of clauses) if (clause.oneOf !== undefined) groups.set(clause.oneOf, [...(groups.get(clause.oneOf) ?? []), clause.id]);
  const wanted = missing.map(({ id, example }) => ({ what: id.replaceAll('-', ' '), example }));
  for (const ids of groups.values()) {
    if (ids.some((id) => facts.says(id))) continue;
    const examples = clauses.filter(({ id }) => ids.includes(id)).map(({ example }) => example);
    wanted.push({ what: ids.map((id) => id.replaceAll('-', ' ')).join(' or '), example: examples[0] ?? '' });
  }
  if (wanted.length === 0) return;
  const { node } = origin.statement;
  const anchor = node.names.at(-1) ?? node.keyword;
  if (anchor === undefined) return;
  const end = node.title?.span.end ?? anchor.span.end;
  const said = wanted.map(({ what, example }) => `${what} (${example})`).join(', ');
  const place = placeIn(origin, anchor.span);
  builder.problems.push(
    problem('missing-required-clause', place, `${withArticle.charAt(0).toUpperCase()}${withArticle.slice(1)} must say its ${said}; write ? where it is not decided yet.`, {
      subject: facts.name,
      fixes: wanted.map(({ what, example }) => {
        const text = example.replace(/-?\d+(?:\.\d+)?(?=\s)/, '?');
        const comma = node.body.length > 0 ? ',' : '';
        return {
          title: `Add its ${what}: ${text}`,
          safe: false,
          edits: [{ place: placeIn(origin, { start: end, end }), newText: ` ${text}${comma}` }],
        };
      }),
    }),
  );
}
