/** The place that is completed: what the grammar expects there, and what stands around it. */
import type { Expectation } from '../../../grammar/expected.ts';
import type { ShapedPlaced } from '../../../grammar/shaped.ts';
import type { Analysis } from '../../analysis.ts';
import type { Part, Run } from '../../model/model.ts';

export interface CompletionOptions {
  readonly snippets: boolean;
  readonly markdown: boolean;
  /** The day it is, as 2026-04-18; a reading is most likely taken today. */
  readonly today?: string | undefined;
  /** The last analysis that was worked out, for the order of offers while this one is not. */
  readonly before?: Analysis | undefined;
}

export interface Context {
  readonly analysis: Analysis;
  readonly offset: number;
  readonly options: CompletionOptions;
  readonly at: Expectation;
  /** Text of the segment before the word that is typed: from the comma, line end or head (`run W1`) before it. */
  readonly segment: string;
  /** The name that the statement declares first. */
  readonly name: string | undefined;
  /** What the statement declares, if it is known already. */
  readonly part: Part | undefined;
  readonly run: Run | undefined;
  /** Whether nothing but white space or a comment follows on the line. */
  readonly lastOnLine: boolean;
}

/** The newest analysis that is worked out; of a text that is being typed it is the one before. */
export function workedOut({ analysis, options }: Context): Analysis | undefined {
  return analysis.isWorkedOut ? analysis : options.before;
}

/** No clause is longer; a line that is all noise may be. */
const longestSegment = 2000;

export function contextOf(analysis: Analysis, offset: number, at: Expectation, options: CompletionOptions): Context {
  const { text, model } = analysis;
  const { statement, replace } = at;
  const before =
    statement === undefined
      ? ''
      : text.slice(Math.min(statement.offset + headEnd(statement), replace.start), replace.start);
  const name = statement?.node.names[0]?.value;
  const stocked = statement?.shaped.wrapper !== undefined;
  const rest = /^[^\r\n]*/u.exec(text.slice(replace.end, replace.end + 200))?.[0] ?? '';
  return {
    analysis,
    offset,
    options,
    at,
    // Only after `to` and `and` does a clause go on over a line end.
    segment: /(?:[^,\n]|\b(?:to|and)[^\S\n]*\n)*$/u.exec(before.slice(-longestSegment))?.[0] ?? '',
    name,
    part: stocked || name === undefined ? undefined : model.parts.get(name),
    run: stocked || name === undefined ? undefined : model.runs.get(name),
    lastOnLine: /^\s*(?:#.*)?$/u.test(rest),
  };
}

/** Where a statement's word, names and title end, and of a stock the kind of thing it is. */
function headEnd({ node, shaped }: ShapedPlaced): number {
  const kind = shaped.wrapper === undefined ? undefined : node.body.find((atom) => atom.kind === 'word');
  return Math.max(0, ...[node.keyword, ...node.names, node.title, kind].map((atom) => atom?.span.end ?? 0));
}
