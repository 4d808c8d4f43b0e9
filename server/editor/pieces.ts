/**
 * An analysis piece by piece, for what goes through all of a file after every edit: whoever asks each piece about its own
 * spares putting all of them together.
 */
import type { Analysis, Piece } from '../analysis.ts';
import type { CaseAnswer } from '../answers/answers.ts';

/** A piece, and its answers in the cases that all pieces answer: of other cases no figure is shown anywhere. */
export interface AnsweredPiece extends Piece {
  readonly cases: readonly CaseAnswer[];
}

/** They have every part and run of the spec, each once. */
export function answeredPieces({ pieces, answers }: Analysis): AnsweredPiece[] {
  const isAnswered = answers.cases.map(({ converged }) => converged);
  return pieces.map((piece) => ({ ...piece, cases: piece.answers.cases.filter((_, at) => isAnswered[at] === true) }));
}

/** They have every statement of the spec and of what it uses, each once; what is common asks all of the spec. */
export function piecesByStatement({ pieces, common, model, answers }: Analysis): Piece[] {
  return [...pieces, { statements: common, model, answers }];
}
