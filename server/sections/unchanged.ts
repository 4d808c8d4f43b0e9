/**
 * What came of a spec that is worked out as a whole: the same as long as all its statements are. An edit of a comment or an
 * empty line moves them and changes nothing; an undo, or a value tried and put back, brings back what was there before.
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

interface Before {
  readonly ground: string;
  readonly statements: readonly ShapedPlaced[];
  readonly came: WorkedOut;
}

export class Unchanged {
  /** The last first. */
  private before: readonly Before[] = [];

  /** So many wordings of a spec are kept. */
  constructor(private readonly most: number) {}

  /** What came of these files when they said the same. */
  of(read: ReadFiles, piece: boolean): WorkedOut | undefined {
    const ground = groundOf(read, piece);
    const statements = statementsIn(read);
    const same = this.before.find((one) => one.ground === ground && sameStatements(one.statements, statements));
    if (same !== undefined) this.before = [same, ...this.before.filter((one) => one !== same)];
    return same?.came;
  }

  /** What is amiss may be told of at places that do not move with their statement, and is not kept. */
  keep(read: ReadFiles, piece: boolean, came: WorkedOut): void {
    const statements = statementsIn(read);
    const isSound = read.problems.length === 0 && statements.every(({ shaped }) => shaped.problems.length === 0);
    if (isSound)
      this.before = [{ ground: groundOf(read, piece), statements, came }, ...this.before].slice(0, this.most);
  }
}

function statementsIn({ files }: ReadFiles): readonly ShapedPlaced[] {
  return files.flatMap(({ statements }) => statements);
}

function groundOf({ files }: ReadFiles, piece: boolean): string {
  return `${piece} ${files.map(({ uri }) => uri).join('\n')}`;
}
