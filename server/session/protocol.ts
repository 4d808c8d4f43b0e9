/**
 * What the server asks of the client beyond the standard protocol, and the words both use for it. The client side imports
 * this file too, so that the two cannot drift apart.
 */

/** Server to client: the text of a file that a spec uses, for a server that has no disk (the web worker). */
export const readFileRequest = 'ampscribe/readFile';

export interface ReadFileParams {
  readonly uri: string;
}

/** Server to client: the addresses of all specs in the folders that are open, for a server that cannot look there itself. */
export const listSpecsRequest = 'ampscribe/specs';

/** A command of the client that lists the findings. */
export const showFindingsCommand = 'ampscribe.showFindings';

/** A command of the client that shows a case in the picture: it is handed the spec's address and the name of the case. */
export const showCaseCommand = 'ampscribe.showCase';

/** More specs than this are not looked through. */
export const mostSpecs = 2000;

/** What a client may say when it starts the server (`initializationOptions`). */
export interface ServerOptions {
  /** Where it shows the pages of findings: the address of each is this, its slug and `.md`. */
  readonly pages?: string;
  /** Its settings, for a client that cannot be asked for them: `severity` and `severityByFile`. */
  readonly settings?: unknown;
  /** It shows pictures of `data:` addresses in the Markdown of a hover. */
  readonly pictures?: boolean;
  /** Commands that it has and the server may offer. */
  readonly commands?: readonly string[];
}

/** The text of a file, or why there is none, in plain words that fit behind “it cannot be used, since”. */
export type FileText = { readonly text: string } | { readonly missing: string };

/**
 * Bytes to text, strictly: what is not UTF-8 is said to be so and never guessed at. A byte order mark is no text: editors take
 * it off before they count characters.
 */
export function decodeSpec(bytes: Uint8Array): FileText {
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    return { missing: 'it is not UTF-8 text: save it as UTF-8' };
  }
}

/** The same for errors of any file system: what the reader can act on, never a stack trace. */
export function whyMissing(error: unknown): FileText {
  const code = typeof error === 'object' && error !== null && 'code' in error ? String(error.code) : '';
  if (code === 'ENOENT' || code === 'FileNotFound') return { missing: 'there is no such file' };
  if (code === 'EISDIR' || code === 'FileIsADirectory') return { missing: 'it is a folder' };
  if (code === 'EACCES' || code === 'EPERM' || code === 'NoPermissions')
    return { missing: 'its permissions forbid reading it: change them' };
  return { missing: 'it could not be read' };
}
