/**
 * The specs of the folders that are open, found by whoever can look into them: this process, or the client. For what must
 * not stop at the files that happen to be open, as rename and the symbols of the workspace.
 */
import type { Connection } from 'vscode-languageserver';
import type { Environment } from './environment.ts';
import { listSpecsRequest } from './protocol.ts';
import { sameSpelling } from './uris.ts';

export class Specs {
  /** What was found in which folders: true while the client tells of every file that comes or goes. */
  private known: { readonly folders: string; readonly addresses: readonly string[] } | undefined;

  private changes = 0;

  /** `folders` are those of the start, for a client that cannot be asked for them. */
  constructor(
    private readonly connection: Connection,
    private readonly environment: Environment,
    private readonly folders: () => readonly string[],
    private readonly asks: () => boolean,
    private readonly watches: () => boolean,
  ) {}

  /** Files came or went. What is no spec may be a folder, which counts where specs are known below it. */
  changed(uris: readonly string[]): void {
    this.changes += 1;
    const below = (folder: string) => this.known?.addresses.some((one) => one.startsWith(`${folder}/`)) === true;
    if (uris.some((uri) => uri.endsWith('.amps') || below(uri))) this.known = undefined;
  }

  /** Their addresses, each once; none where nobody can tell. */
  async addresses(): Promise<readonly string[]> {
    const open = await this.openFolders();
    const folders = open.join('\n');
    if (this.known?.folders === folders) return this.known.addresses;
    const { changes } = this;
    const addresses = await this.lookInto(open);
    // What came while it was looked for may be missing from the list.
    if (this.watches() && changes === this.changes) this.known = { folders, addresses };
    return addresses;
  }

  /** Those in the very folder of a file, where this process can look there. */
  async beside(uri: string): Promise<readonly string[]> {
    const found = await this.environment.specsBeside?.(uri.slice(0, uri.lastIndexOf('/')));
    return (found ?? []).map(sameSpelling).sort();
  }

  private async lookInto(folders: readonly string[]): Promise<readonly string[]> {
    const found = new Set<string>();
    let untold = false;
    for (const folder of folders) {
      const specs = await this.environment.specsIn?.(folder);
      if (specs === undefined) untold = true;
      for (const uri of specs ?? []) found.add(sameSpelling(uri));
    }
    if (untold) for (const uri of await this.fromClient()) found.add(sameSpelling(uri));
    return [...found].sort();
  }

  private async openFolders(): Promise<readonly string[]> {
    if (!this.asks()) return this.folders();
    const answered = await this.connection.workspace.getWorkspaceFolders();
    return (answered ?? []).map(({ uri }) => uri);
  }

  private async fromClient(): Promise<readonly string[]> {
    try {
      return await this.connection.sendRequest<string[]>(listSpecsRequest);
    } catch {
      // A client that does not know the question has no folders to look into for us.
      return [];
    }
  }
}
