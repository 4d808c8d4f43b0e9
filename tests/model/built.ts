/** Specs in memory to their models, and problems as lines that compare well. */
import { ParseCache } from '../../grammar/parse.ts';
import { buildModel } from '../../server/model/build.ts';
import { type FileSource, readFiles } from '../../server/model/files.ts';
import type { Model, PlacedProblem } from '../../server/model/model.ts';
import type { Network } from '../../server/model/network.ts';
import { buildNetwork } from '../../server/model/network-build.ts';
import { limitSets } from '../../server/physics/limits/sets.ts';

export type Files = Readonly<Record<string, string>>;

const specUri = 'memory:///spec.amps';

/** Files by name; the spec itself is `spec.amps`. */
export function memory(files: Files): FileSource {
  return {
    read(uri) {
      const text = files[uri.replace('memory:///', '')];
      return text === undefined ? { missing: 'it is not there' } : { text };
    },
    resolve: (_from, path) => `memory:///${path}`,
  };
}

export function modelOf(text: string, files: Files = {}): Model {
  const read = readFiles(specUri, memory({ ...files, 'spec.amps': text }), () => new ParseCache());
  return buildModel(read, { limitSets: [...limitSets.keys()] });
}

export function built(text: string, files: Files = {}): { readonly model: Model; readonly network: Network } {
  const model = modelOf(text, files);
  return { model, network: buildNetwork(model) };
}

export function underlined(text: string, { place }: PlacedProblem): string {
  return text.slice(place.span.start, place.span.end);
}

/** `unknown-name "LOTF"`, in order of place. */
export function problemsIn(text: string, files: Files = {}): string[] {
  return modelOf(text, files).problems.map((one) => `${one.slug} "${underlined(text, one)}"`);
}

/** The one problem of a spec. */
export function onlyProblem(text: string, files: Files = {}): PlacedProblem {
  const { problems } = modelOf(text, files);
  if (problems.length !== 1)
    throw new Error(`one problem expected: ${problems.map(({ slug, message }) => `${slug}: ${message}`).join('; ')}`);
  return problems[0] as PlacedProblem;
}

/** The text with a fix of the only problem made. */
export function mended(text: string, title: string, files: Files = {}): string {
  const { fixes } = onlyProblem(text, files);
  const fix = fixes.find((one) => one.title === title);
  if (fix === undefined) throw new Error(`no fix “${title}” among ${fixes.map((one) => one.title).join(', ')}`);
  return [...fix.edits]
    .sort((a, b) => b.place.span.start - a.place.span.start)
    .reduce(
      (before, { place, newText }) => before.slice(0, place.span.start) + newText + before.slice(place.span.end),
      text,
    );
}
