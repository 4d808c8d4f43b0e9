/** Files for the command: reading them strictly as UTF-8, finding specs in a folder, and `use` from the disk. */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { withLineFeeds } from '../../grammar/text-in-blocks.ts';
import type { FileSource } from '../analysis.ts';

/** Why a file could not be read, in plain words. */
export class UnreadableError extends Error {}

/** The text with a byte order mark where the file has one. */
export function decodeUtf8(bytes: Uint8Array, name: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    throw new UnreadableError(`${name} is not UTF-8 text: save it as UTF-8 and try again.`);
  }
}

export function readSpec(path: string): string {
  let bytes: Uint8Array;
  try {
    bytes = readFileSync(path);
  } catch (error) {
    throw new UnreadableError(whyUnreadable(path, error));
  }
  return decodeUtf8(bytes, path);
}

function whyUnreadable(path: string, error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code;
  if (code === 'ENOENT') return `There is no file or folder ${path}.`;
  if (code === 'EACCES' || code === 'EPERM') return `${path} may not be read: its permissions forbid it.`;
  if (code === 'EISDIR') return `${path} is a folder, not a file.`;
  return `${path} could not be read (${code ?? String(error)}).`;
}

/** The `.amps` files of a path: itself, or all below a folder in order of name; hidden and package folders are left out. */
export function specsAt(path: string): string[] {
  let folder: boolean;
  try {
    folder = statSync(path).isDirectory();
  } catch (error) {
    throw new UnreadableError(whyUnreadable(path, error));
  }
  if (!folder) return [path];
  const found: string[] = [];
  const walk = (directory: string) => {
    const entries = readdirSync(directory, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1));
    for (const entry of entries) {
      if (entry.name.startsWith('.') || entry.name === 'node_modules') continue;
      const child = join(directory, entry.name);
      if (entry.isDirectory()) walk(child);
      else if (entry.isFile() && entry.name.endsWith('.amps')) found.push(child);
    }
  };
  walk(path);
  if (found.length === 0) throw new UnreadableError(`There is no .amps file in ${path}.`);
  return found;
}

/** As editors show it: they count no byte order mark among a line's characters, and a `\r` alone ends a line to them. */
export function asInEditor(text: string): string {
  return withLineFeeds(text.replace(/^\uFEFF/, ''));
}

/** `use` from the disk. `given` holds texts already read, such as standard input, by URI. */
export function diskSource(given: ReadonlyMap<string, string> = new Map()): FileSource {
  return {
    read(uri) {
      const text = given.get(uri);
      if (text !== undefined) return { text };
      try {
        return { text: asInEditor(readSpec(fileURLToPath(uri))) };
      } catch (error) {
        return { missing: error instanceof UnreadableError ? error.message : 'it could not be read' };
      }
    },
    resolve(from, path) {
      return new URL(path.split('/').map(encodeURIComponent).join('/'), from).href;
    },
  };
}

/** The path to show for a URI: relative to `here` when below it. */
export function shownPath(uri: string, here: string): string {
  if (!uri.startsWith('file:')) return uri;
  const path = fileURLToPath(uri);
  const short = relative(here, path);
  return short.startsWith('..') ? path : short;
}

export function uriOf(path: string): string {
  return pathToFileURL(path).href;
}
