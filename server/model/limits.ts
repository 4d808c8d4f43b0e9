/** Names of sets of limits: the published ones, and those that stand in stock. */
import { nearWords } from '../../grammar/near.ts';
import { article, list } from '../../grammar/phrases.ts';
import { kindOf } from '../kinds/vocabulary.ts';
import type { Builder } from './builder.ts';
import type { Facts, PlacedProblem, Stock } from './model.ts';
import { isSlip } from './names.ts';
import { fix, problem } from './place.ts';
import { requireClauses } from './required.ts';

/**
 * Whether what a system says after `limits` is a set there is; else that is told. The use of one in stock is recorded, so
 * that its name can be followed.
 */
export function isSet(builder: Builder, written: string, facts: Facts, published: readonly string[]): boolean {
  if (published.includes(written)) return true;
  const place = facts.place('limits', 'set');
  const stock = builder.stocks.get(written);
  if (stock !== undefined) builder.names.use(written, place, ['stock']);
  if (stock?.kindWord === 'limit-set') return true;
  if (stock !== undefined && stock.kindWord !== '') builder.problems.push(otherStock(stock, facts));
  else if (stock === undefined && !isMissing(builder, written, ownSets(builder)))
    builder.problems.push(unknownSet(written, [...ownSets(builder), ...published], facts, 'limits'));
  return false;
}

/** Every set in stock must be over a published one. */
export function checkBases(builder: Builder, published: readonly string[]): void {
  const kind = kindOf('limit-set');
  for (const { name, kindWord, facts, origin } of builder.stocks.values()) {
    if (kind === undefined || kindWord !== kind.word) continue;
    if (!builder.unsureStock.has(name)) requireClauses(builder, origin, kind, facts.facts);
    const fact = facts.fact('base');
    const written = facts.word('base', 'set');
    if (written === undefined || fact?.fromStock !== undefined || published.includes(written)) continue;
    builder.problems.push(
      builder.stocks.get(written)?.kindWord === 'limit-set'
        ? ownBase(written, facts)
        : unknownSet(written, published, facts, 'base'),
    );
  }
}

function ownSets({ stocks }: Builder): string[] {
  return [...stocks.values()].filter(({ kindWord }) => kindWord === 'limit-set').map(({ name }) => name);
}

/** It may be declared where nothing could be read. */
function isMissing({ names, read }: Builder, written: string, own: readonly string[]): boolean {
  if (names.isGhost(written)) return true;
  return read.problems.some(({ slug }) => slug === 'use-missing') && !own.some((name) => isSlip(written, name));
}

function unknownSet(written: string, known: readonly string[], facts: Facts, clause: 'limits' | 'base'): PlacedProblem {
  const near = nearWords(written, known);
  const place = facts.place(clause, 'set');
  return problem(
    'unknown-name',
    place,
    `There is no ${clause === 'limits' ? '' : 'published '}set of limits “${written}”: ${near.length > 0 ? `did you mean ${list(near)}?` : `there are ${list(known).replace(/ or (?=\S+$)/, ' and ')}.`}`,
    {
      subject: written,
      fixes: (near.length > 0 ? near : known).map((name) =>
        fix(`Write ${name}`, place, name, near.length === 1 && isSlip(written, name)),
      ),
    },
  );
}

function ownBase(written: string, facts: Facts): PlacedProblem {
  return problem(
    'unknown-name',
    facts.place('base', 'set'),
    `“${written}” is a set of limits of your own: take it with “= ${written}”; “based on” names a published set.`,
    { subject: written, fixes: [fix(`Write = ${written}`, facts.place('base'), `= ${written}`)] },
  );
}

function otherStock({ name, kindWord, namePlace }: Stock, facts: Facts): PlacedProblem {
  return problem(
    'wrong-stock-kind',
    facts.place('limits', 'set'),
    `“${name}” is stock of ${article(kindWord)}, but limits take stock of a limit-set: name another, or a published set.`,
    { subject: name, related: [{ message: `${name} is declared here`, place: namePlace }] },
  );
}
