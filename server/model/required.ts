/** Clauses that a statement must say and does not. */
import { capital } from '../../grammar/phrases.ts';
import type { ClauseSpec, StatementSpec } from '../../grammar/vocabulary.ts';
import type { Builder } from './builder.ts';
import { keptWith } from './lazily.ts';
import type { Fact, Origin } from './model.ts';
import { fix, placeIn, problem } from './place.ts';

export interface Wanting {
  readonly what: string;
  readonly example: string;
  /** Texts that would say it: a blank to fill, or each of the words it may be. */
  readonly texts: readonly string[];
}

/**
 * One problem a statement, with a fix for each clause and one for all. Of a group (a load's power, current or resistance)
 * one is enough. A blank `?` counts as said. `withThem` is told along with what is wanting, and never alone. Whether anything
 * is wanting.
 */
export function requireClauses(
  builder: Builder,
  origin: Origin,
  spec: StatementSpec,
  facts: readonly Fact[],
  more: readonly Wanting[] = [],
  withThem: readonly Wanting[] = [],
): boolean {
  const says = ({ id }: ClauseSpec) => facts.some(({ clause }) => clause.spec.id === id);
  const wanting = requiredBy(spec).filter((choice) => !choice.some(says));
  if (wanting.length === 0 && more.length === 0) return false;
  complain(builder, origin, spec.word, [...wanting.map((choice) => wantingOf(choice)), ...more, ...withThem]);
  return true;
}

/** Clauses of which one must be said: those that must by themselves, then the members of each group. */
const requiredBy = keptWith((spec: StatementSpec): readonly (readonly ClauseSpec[])[] => {
  const alone = spec.clauses.filter(({ required }) => required === true).map((clause) => [clause]);
  const groups = new Set(spec.clauses.flatMap(({ oneOf }) => oneOf ?? []));
  return [...alone, ...[...groups].map((group) => spec.clauses.filter(({ oneOf }) => oneOf === group))];
});

/** What a run says by its cores, told of by itself where nothing else is wanting. */
export const wantingEnds: Wanting = { what: 'two ends', example: 'F1:out to LAMP:+', texts: [] };

/** A run says its size itself or takes it from stock, which its table cannot tell. */
export const wantingSize: Wanting = { what: 'size', example: '6 mm²” or “10 AWG', texts: ['? mm²'] };

function complain(builder: Builder, origin: Origin, word: string, wanting: readonly Wanting[]): void {
  const { node } = origin.statement;
  const [first, last] = [node.names[0] ?? node.keyword, node.names.at(-1) ?? node.keyword];
  if (first === undefined || last === undefined) return;
  const at = node.title?.span.end ?? last.span.end;
  const end = placeIn(origin, { start: at, end: at });
  // A line end parts two clauses as well, and so does a comma that is there.
  const kind = node.body[0]?.kind;
  const comma = kind === undefined || kind === 'line' || kind === 'comma' ? '' : ',';
  const insert = (texts: readonly string[]) => ` ${texts.join(', ')}${comma}`;
  const fixes = wanting.flatMap(({ what, texts }) =>
    texts.map((text) => fix(`Add its ${what}: ${text}`, end, insert([text]))),
  );
  const blanks = wanting.filter((one) => one !== wantingEnds).map(({ texts }) => texts[0] ?? '');
  if (blanks.length > 1 && wanting.every((one) => one === wantingEnds || one.texts.length === 1))
    fixes.unshift(fix(`Add ${blanks.join(', ')}`, end, insert(blanks)));
  const names = node.names.map(({ value }) => value);
  const [who, its] =
    names.length === 0
      ? [`This ${word}`, 'its']
      : names.length === 1
        ? [`${capital(word)} ${names[0]}`, 'its']
        : [`${names.slice(0, -1).join(', ')} and ${names.at(-1)}`, 'their'];
  const open = wanting.includes(wantingEnds) ? 'a figure' : 'it';
  const undecided = blanks.some((text) => text.includes('?')) ? `; write ? where ${open} is not decided yet` : '';
  builder.problems.push(
    problem(
      'missing-required-clause',
      placeIn(origin, { start: first.span.start, end: last.span.end }),
      `${who} must say ${its} ${wanting.map(({ what, example }) => `${what}, such as ${quoted(example)}`).join(`; ${its} `)}${undecided}.`,
      { subject: names[0], figures: { missing: wanting.map(({ what }) => what).join(', ') }, fixes },
    ),
  );
}

function quoted(example: string): string {
  return example.includes('"') ? example : `“${example}”`;
}

function wantingOf(clauses: readonly ClauseSpec[]): Wanting {
  const words = clauses.map(({ id }) => id.replaceAll('-', ' '));
  const what = words.length === 1 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
  return { what, example: clauses[0]?.example ?? '', texts: clauses.slice(0, 1).flatMap(textsOf) };
}

function textsOf({ form, example }: ClauseSpec): string[] {
  const choice = /^\{[\w-]+=([^}]+)\}$/u.exec(form)?.[1];
  if (choice !== undefined) return choice.split('|').map((word) => word.trim());
  const blank = example.replaceAll(/(?<![\p{L}\p{N}".-])-?\d+(?:\.\d+)?(?=\s)/gu, '?');
  return blank.includes('?') ? [blank] : [];
}
