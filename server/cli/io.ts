import type { DrawingTools } from './drawing-tools.ts';

/** What the command may touch of its surroundings; handed in, so that tests can stand in for a terminal. */
export interface Surroundings {
  readonly here: string;
  /** Colours are used only when standard output is a terminal that wants them. */
  readonly colours: boolean;
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  readonly standardInput: () => Promise<Uint8Array>;
  readonly serve: () => void;
  readonly version: string;
  /** For the title block of a drawing. */
  readonly now: () => Date;
  /** Revision of the repository that a file is in, if it is in one. */
  readonly revision: (file: string) => string | undefined;
  /** What draws, loaded when it is first asked for. */
  readonly drawing: () => DrawingTools;
}
