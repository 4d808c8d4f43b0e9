/** The files of a spec: itself and those it uses, each read once; circles and missing files become problems. */
import { type ParseCache, parseDocument } from '../../grammar/parse.ts';
import type { FileSource } from '../analysis.ts';
import { vocabulary } from '../kinds/vocabulary.ts';
import type { PlacedProblem, SpecFile } from './model.ts';
import { placeIn, problem } from './place.ts';

export interface ReadFiles {
  readonly files: readonly SpecFile[];
  readonly problems: readonly PlacedProblem[];
  /** Why the first file itself could not be read. */
  readonly missing: string | undefined;
}

/** `cacheFor` hands out the parse cache of a file, so that unchanged statements keep their objects. */
export function readFiles(uri: string, source: FileSource, cacheFor: (uri: string) => ParseCache): ReadFiles {
  const files = new Map<string, SpecFile>();
  const problems: PlacedProblem[] = [];
  let missing: string | undefined;
  const visit = (at: string, text: string, trail: readonly string[]): void => {
    const tree = parseDocument(text, vocabulary, cacheFor(at));
    const file: SpecFile = { uri: at, text, tree, statements: tree.statements };
    files.set(at, file);
    for (const statement of tree.statements) {
      if (statement.shaped.spec?.word !== 'use') continue;
      const path = statement.shaped.clauses[0]?.values[0]?.atom;
      if (path?.kind !== 'text') continue;
      const place = placeIn({ file, statement }, path.span);
      const target = path.value.trim() === '' ? '' : source.resolve(at, path.value);
      if (target === '') {
        problems.push(problem('use-missing', place, 'This use names no file: put its path between the quotes.'));
        continue;
      }
      const circle = [...trail, at].indexOf(target);
      if (circle !== -1) {
        const names = [...[...trail, at].slice(circle), target].map(fileName).join(' → ');
        problems.push(
          problem('circle-of-use', place, `These files use each other in a circle (${names}): take this use out, or move what is shared to a file that uses neither.`),
        );
        continue;
      }
      if (files.has(target)) continue;
      const read = source.read(target);
      if ('missing' in read)
        problems.push(problem('use-missing', place, `The file “${path.value}” is not there to use (${read.missing.replace(/\.$/, '')}): check its path, which counts from this file.`));
      else visit(target, read.text, [...trail, at]);
    }
  };
  const own = source.read(uri);
  if ('missing' in own) missing = own.missing;
  visit(uri, 'text' in own ? own.text : '', []);
  return { files: [...files.values()], problems, missing };
}

export function fileName(uri: string): string {
  const last = uri.slice(uri.lastIndexOf('/') + 1);
  try {
    return decodeURIComponent(last);
  } catch {
    return last;
  }
}
