/** One spec for the command: its analysis and the name to show for it. */
import { join, resolve } from 'node:path';
import { type Analysis, analyse } from '../analysis.ts';
import { asInEditor, decodeUtf8, diskSource, readSpec, uriOf } from './files.ts';
import type { Surroundings } from './io.ts';

export interface Loaded {
  /** As given on the command line; `-` for standard input. */
  readonly name: string;
  readonly analysis: Analysis;
}

/**
 * Files checked together: one that another of them uses is a piece of that spec, and what it alone lacks is no fault of it.
 */
export function asPieces(loaded: readonly Loaded[]): Loaded[] {
  const used = new Set(loaded.flatMap(({ analysis }) => analysis.model.files.slice(1).map(({ uri }) => uri)));
  return loaded.map((one) => {
    const { uri, text } = one.analysis;
    if (!used.has(uri)) return one;
    const source = { ...diskSource(new Map([[uri, String(text)]])), isUsed: (file: string) => used.has(file) };
    return { ...one, analysis: analyse(uri, source) };
  });
}

/** Text behind a path or `-`, with its byte order mark. Throws `UnreadableError`. */
export async function textOf(path: string, io: Surroundings): Promise<string> {
  if (path === '-') return decodeUtf8(await io.standardInput(), 'Standard input');
  return readSpec(resolve(io.here, path));
}

export async function load(path: string, io: Surroundings): Promise<Loaded> {
  // Standard input may `use` files beside where the command is run.
  const uri = uriOf(path === '-' ? join(io.here, 'standard-input.amps') : resolve(io.here, path));
  const text = asInEditor(await textOf(path, io));
  return { name: path, analysis: analyse(uri, diskSource(new Map([[uri, text]]))) };
}
