/**
 * One pass, many readers: `analyse` turns a file's text into one immutable `Analysis`. The editor, the command, the
 * reports and the tests all read that.
 */
import type { LineIndex } from '../grammar/lines.ts';
import type { SpecTree } from '../grammar/tree.ts';
import type { Answers } from './answers/answers.ts';
import type { Model } from './model/model.ts';
import type { Finding } from './rules/rule.ts';

/** How `use` gets the text of other files; pure analysis asks, the caller answers from memory. */
export interface FileSource {
  /** Text of the file, or why there is none, in plain words (`not found`, `not UTF-8 text`). */
  read(uri: string): { readonly text: string } | { readonly missing: string };
  /** URI of `path` as written in the file `from`. */
  resolve(from: string, path: string): string;
}

export interface Analysis {
  readonly uri: string;
  readonly text: string;
  readonly lines: LineIndex;
  readonly tree: SpecTree;
  readonly model: Model;
  readonly answers: Answers;
  /** Findings of this file after `allow`, in order of place. Those in used files are reported when that file is analysed. */
  readonly findings: readonly Finding[];
  /** Findings accepted by an `allow`, for hover and printed sheets. */
  readonly accepted: readonly Finding[];
}
