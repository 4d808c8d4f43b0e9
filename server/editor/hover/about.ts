/** What every hover begins and ends with: the name, what it is, what is said of it, what was accepted about it. */
import type { Analysis } from '../../analysis.ts';
import type { Fact, Facts, Named } from '../../model/model.ts';
import { type Block, bold, type Inline, line, list, quiet } from '../markup.ts';

/** `**F1** “Main fuse”: fuse`, then the notes that stand above the statement. */
export function heading(named: Pick<Named, 'name' | 'title' | 'origin'>, what: string): Block[] {
  const title = named.title === undefined ? [] : [` “${named.title}”`];
  const { notes } = named.origin.statement;
  return [
    line(bold(named.name), ...title, `: ${what}`),
    ...(notes === '' ? [] : [line(quiet(notes.replaceAll('\n', ' ')))]),
  ];
}

/** A clause as it is written, on one line. */
export function written({ clause, origin }: Fact): string {
  return origin.statement.node.text.slice(clause.span.start, clause.span.end).replace(/\s+/g, ' ');
}

/** What is said, in the spec's own words; what comes from stock is told apart. */
export function said(facts: Facts, leaveOut: ReadonlySet<string> = new Set()): Block[] {
  const shown = facts.facts.filter(({ clause }) => !leaveOut.has(clause.spec.id));
  const own = shown.filter(({ fromStock }) => fromStock === undefined).map(written);
  const stocks = [...new Set(shown.map(({ fromStock }) => fromStock))].filter((stock) => stock !== undefined);
  const blocks: Block[] = own.length === 0 ? [] : [line(own.join(', '))];
  for (const stock of stocks)
    blocks.push(
      line(
        quiet(`from ${stock}: `),
        shown
          .filter(({ fromStock }) => fromStock === stock)
          .map(written)
          .join(', '),
      ),
    );
  return blocks;
}

/** Findings about a name that an `allow` accepts, with the reason given. */
export function accepted(analysis: Analysis, name: string): Block[] {
  const lines = analysis.accepted
    .filter(({ subject }) => subject === name)
    .map(({ slug, message }): Inline[] => {
      const allowance = analysis.model.allowances.find(
        (one) => one.slug === slug && (one.subject === undefined || one.subject === name),
      );
      return [`Accepted, “${allowance?.reason ?? ''}”: ${message}`];
    });
  return list(lines);
}

/** At most `most` of a list, and how many more there are. */
export function atMost<T>(all: readonly T[], most: number, show: (one: T) => string): string {
  const shown = all.slice(0, most).map(show).join(', ');
  return all.length > most ? `${shown} and ${all.length - most} more` : shown;
}
