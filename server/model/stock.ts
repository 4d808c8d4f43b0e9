/** Stock: specifications that parts, runs and other stock take with `=`. */
import { article } from '../../grammar/shape-problems.ts';
import type { Builder, Said } from './builder.ts';
import type { Declaration } from './declarations.ts';
import { FactSet, mergeFacts } from './facts.ts';
import type { Fact, Origin, Place, Stock } from './model.ts';
import { fix, isBroken, placeIn, problem } from './place.ts';

export function ownFacts(origin: Origin): Fact[] {
  return origin.statement.shaped.clauses.map((clause) => ({ clause, origin, fromStock: undefined }));
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

function finish(builder: Builder, { name, origin, namePlace }: Declaration): void {
  const { shaped, node } = origin.statement;
  const kindWord = shaped.spec?.word ?? '';
  const { facts, sure } = kindWord === '' ? { facts: [], sure: false } : saidBy(builder, origin, kindWord);
  if (!sure) builder.unsureStock.add(name);
  const stock: Stock = {
    name,
    title: node.title?.value,
    origin,
    namePlace,
    kindWord,
    facts: new FactSet(name, origin, facts, namePlace),
  };
  builder.stocks.set(name, stock);
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
  const known = builder.said.get(origin.statement);
  if (known !== undefined) return known;
  const own = ownFacts(origin);
  const taken = takenBy(origin);
  const stock = taken === undefined ? undefined : takeStock(builder, taken, kindWord);
  const stocked = stock?.facts.facts.map((fact) => ({ ...fact, fromStock: stock.name })) ?? [];
  const complete = taken === undefined || (stock !== undefined && !builder.unsureStock.has(stock.name));
  const said = { facts: mergeFacts(own, stocked), sure: complete && !isBroken(origin) };
  builder.said.set(origin.statement, said);
  return said;
}

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
