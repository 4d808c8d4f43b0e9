/** What a server is given by the process it runs in: the same server runs on Node and in a web worker. */
import type { FileText } from './protocol.ts';

export interface Environment {
  /**
   * Text of a file that is not open in the editor. Leave it out where there is no disk: the server then asks the client
   * (`ampscribe/readFile`).
   */
  readFile?(uri: string): Promise<FileText>;
  /** Where the page of a finding can be opened without a network (`file:…` or a client's own scheme); undefined for none. */
  pageUri(slug: string): string | undefined;
}
