/** Analysing texts in memory, as tests do. */
import { type Analysis, analyse, type FileSource } from '../server/analysis.ts';

export const specUri = 'memory:///spec.amps';

/** Files by name, `spec.amps` first. */
export function memorySource(files: Readonly<Record<string, string>>): FileSource {
  return {
    read(uri) {
      const text = files[uri.replace('memory:///', '')];
      return text === undefined ? { missing: 'it is not there' } : { text };
    },
    resolve: (_from, path) => `memory:///${path}`,
  };
}

export function analyseText(text: string, files: Readonly<Record<string, string>> = {}): Analysis {
  return analyse(specUri, memorySource({ ...files, 'spec.amps': text }));
}

/** Slugs found, in order of place. */
export function slugs(text: string, files?: Readonly<Record<string, string>>): string[] {
  return analyseText(text, files).findings.map(({ slug }) => slug);
}
