/** What a server is given by the process it runs in: the same server runs on Node and in a web worker. */
import type { DrawingRoom } from './drafting.ts';
import type { FileText } from './protocol.ts';

export interface Environment {
  /**
   * Text of a file that is not open in the editor. Undefined, or no such function, where this process cannot reach the file
   * (a web worker has no disk, and a virtual workspace none either): the server then asks the client (`ampscribe/readFile`).
   */
  readFile?(uri: string): Promise<FileText | undefined>;
  /**
   * Addresses of the `.amps` files in a folder and below, hidden and package folders left out. Undefined, or no such function,
   * where this process cannot look there: the server then asks the client (`ampscribe/specs`).
   */
  specsIn?(folder: string): Promise<readonly string[] | undefined>;
  /** The same of a folder alone, without those below it; for a file that was opened by itself. */
  specsBeside?(folder: string): Promise<readonly string[] | undefined>;
  /**
   * Where the page of a finding can be opened without a network; undefined for none. A client that shows the pages itself says
   * so when it starts the server (`ServerOptions.pages`), and this is not asked.
   */
  pageUri(slug: string): string | undefined;
  /**
   * Lays pictures out without keeping the server from answering. Undefined where this process can start no thread: the server
   * then asks the client (`ampscribe/picture/draft`).
   */
  readonly drawingRoom?: DrawingRoom;
  /** Told of every text that is opened before the first findings were handed out, by its number of characters. */
  textOpened?(characters: number): void;
  /** Told whenever findings were handed out, whether they were the first of all, and how many runs hang together at most. */
  findingsTold?(areFirst: boolean, runs: number): void;
  /** Clears away what was in use for a short time only, while nobody waits. No such function where it cannot be asked for. */
  clearYoung?(): void;
}
