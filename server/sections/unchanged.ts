/**
 * What came of a spec that is worked out as a whole: the same as long as all its statements are. An edit of a comment or an
 * empty line moves them and changes nothing.
 */
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import type { Answers } from '../answers/answers.ts';
import type { ReadFiles } from '../model/files.ts';
import type { Model } from '../model/model.ts';
import type { RuleResults } from '../rules/run.ts';
import { sameStatements } from './section.ts';

/** All that is worked out of a spec. */
export interface WorkedOut extends RuleResults {
  readonly model: Model;
  readonly answers: Answers;
}

export class Unchanged {
  private last:
    | { readonly ground: string; readonly statements: readonly ShapedPlaced[]; readonly came: WorkedOut }
    | undefined;

  /** What came of these files last, if they say the same. */
  of(read: ReadFiles, piece: boolean): WorkedOut | undefined {
    const { last } = this;
    return last !== undefined &&
      last.ground === groundOf(read, piece) &&
      sameStatements(last.statements, statementsIn(read))
      ? last.came
      : undefined;
  }

  /** What is amiss may be told of at places that do not move with their statement, and is not kept. */
  keep(read: ReadFiles, piece: boolean, came: WorkedOut): void {
    const statements = statementsIn(read);
    const isSound = read.problems.length === 0 && statements.every(({ shaped }) => shaped.problems.length === 0);
    this.last = isSound ? { ground: groundOf(read, piece), statements, came } : undefined;
  }
}

function statementsIn({ files }: ReadFiles): readonly ShapedPlaced[] {
  return files.flatMap(({ statements }) => statements);
}

function groundOf({ files }: ReadFiles, piece: boolean): string {
  return `${piece} ${files.map(({ uri }) => uri).join('\n')}`;
}
