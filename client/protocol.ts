/** What client and server say to each other beside the language server protocol. */

/** Asks the client for a file that the spec uses; in a web worker the client alone can read it. */
export const readFileRequest = 'ampscribe/readFile';

export interface ReadFileParams {
  readonly uri: string;
}

export type ReadFileResult = { readonly text: string } | { readonly missing: string };
