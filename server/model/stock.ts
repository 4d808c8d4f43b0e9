/** Stock: specifications that parts, runs and other stock take with `=`. */
import { article } from '../../grammar/phrases.ts';
import type { Builder, Said } from './builder.ts';
import type { Declaration } from './declarations.ts';
import { FactSet, mergeFacts } from './facts.ts';
import { keptWith } from './lazily.ts';
import type { Fact, Facts, Origin, Place, Stock } from './model.ts';
import { fix, isBroken, placeIn, problem } from './place.ts';

export function ownFacts(origin: Origin): Fact[] {
  return origin.statement.shaped.clauses.map((clause) => ({ clause, origin, fromStock: undefined }));
}

/** Of a statement that takes no stock and has no name. */
export function factsOf({ kept, lookups }: Builder, origin: Origin): Facts {
  return kept.facts.of(origin.statement, lookups, () => new FactSet('', origin, ownFacts(origin)));
}

/** The name behind `=`, and where it stands. */
function takenBy(origin: Origin): { readonly name: string; readonly place: Place } | undefined {
  const atom = origin.statement.shaped.clauses.find(({ spec }) => spec.id === 'stock')?.values[0]?.atom;
  return atom?.kind === 'word' ? { name: atom.value, place: placeIn(origin, atom.span) } : undefined;
}

/** All stock, each over the stock it takes itself. Chains are walked, not recursed: a text may make them of any length. */
export function buildStocks(builder: Builder): void {
  for (const declaration of builder.declarations.all) {
    if (declaration.as !== 'stock' || builder.stocks.has(declaration.name)) continue;
    const chain: Declaration[] = [];
    const inChain = new Set<string>();
    let next: Declaration | undefined = declaration;
    while (next !== undefined && !builder.stocks.has(next.name) && !inChain.has(next.name)) {
      chain.push(next);
      inChain.add(next.name);
      const taken = takenBy(next.origin);
      next = taken === undefined ? undefined : builder.names.find(taken.name, ['stock']);
    }
    if (next !== undefined && inChain.has(next.name))
      circle(builder, chain.slice(chain.findIndex(({ name }) => name === next?.name)));
    for (const one of chain.reverse()) finish(builder, one);
  }
}

function finish(builder: Builder, declaration: Declaration): void {
  const { name, origin, namePlace } = declaration;
  const { shaped, node } = origin.statement;
  const kindWord = shaped.spec?.word ?? '';
  const said = kindWord === '' ? { facts: [], sure: false } : saidBy(builder, origin, kindWord);
  const make = (): Stock => {
    if (!said.sure) builder.lookups.doubt();
    const facts = new FactSet(name, origin, said.facts, namePlace);
    return { name, title: node.title?.value, origin, namePlace, kindWord, facts };
  };
  if (!said.sure) builder.unsureStock.add(name);
  builder.stocks.set(name, builder.kept.stocks.of(declaration, builder.lookups, make, said));
}

function circle(builder: Builder, chain: readonly Declaration[]): void {
  const last = chain.at(-1);
  const taken = last === undefined ? undefined : takenBy(last.origin);
  const first = chain[0];
  if (last === undefined || first === undefined || taken === undefined) return;
  const names = [...chain.map(({ name }) => name), first.name].join(' = ');
  builder.problems.push(
    problem('circle-of-names', taken.place, `This stock takes from itself (${names}): take this = out.`, {
      subject: last.name,
      related: chain.length > 1 ? [{ message: `${first.name} is declared here`, place: first.namePlace }] : [],
    }),
  );
}

/** What a statement says: its own clauses over those of its stock, once for all names of its head. */
export function saidBy(builder: Builder, origin: Origin, kindWord: string): Said {
  let said = builder.said.get(origin.statement);
  if (said === undefined) {
    said = builder.kept.said.of(origin.statement, builder.lookups, () => merged(builder, origin, kindWord));
    builder.said.set(origin.statement, said);
  }
  return said;
}

function merged(builder: Builder, origin: Origin, kindWord: string): Said {
  const own = ownFacts(origin);
  const taken = takenBy(origin);
  const stock = taken === undefined ? undefined : takeStock(builder, taken, kindWord);
  const stocked = stock === undefined ? [] : takenFrom(stock);
  const complete = taken === undefined || (stock !== undefined && !builder.unsureStock.has(stock.name));
  const sure = complete && !isBroken(origin);
  if (!sure) builder.lookups.doubt();
  return { facts: mergeFacts(own, stocked), sure };
}

/** What a stock says, as it is said of all that take it. */
const takenFrom = keptWith(({ name, facts }: Stock): readonly Fact[] =>
  facts.facts
    .filter(({ clause }) => clause.spec.id !== 'stock')
    .map(({ clause, origin }) => ({ clause, origin, fromStock: name })),
);

function takeStock(
  builder: Builder,
  taken: { readonly name: string; readonly place: Place },
  kindWord: string,
): Stock | undefined {
  const declaration = builder.names.find(taken.name, ['stock']);
  const stock = declaration === undefined ? undefined : builder.stocks.get(declaration.name);
  if (stock === undefined || stock.kindWord === '' || stock.kindWord === kindWord)
    return stock?.kindWord === '' ? undefined : stock;
  const fitting = builder.declarations.all.filter(
    (one) => one.as === 'stock' && one.origin.statement.shaped.spec?.word === kindWord,
  );
  const takes =
    kindWord === 'cable' ? 'a run takes stock of a cable' : `${article(kindWord)} takes stock of ${article(kindWord)}`;
  builder.problems.push(
    problem(
      'wrong-stock-kind',
      taken.place,
      `“${stock.name}” is stock of ${article(stock.kindWord)}, but ${takes}: take another, or take this = out.`,
      {
        subject: stock.name,
        related: [{ message: `${stock.name} is declared here`, place: stock.namePlace }],
        fixes: fitting.slice(0, 4).map(({ name }) => fix(`Write ${name}`, taken.place, name)),
      },
    ),
  );
  return undefined;
}
