/** The files of a spec: itself and those it uses, each read once; circles and missing files become problems. */
import { type ParseCache, parseDocument } from '../../grammar/parse.ts';
import { vocabulary } from '../kinds/vocabulary.ts';
import type { NameUse, Place, PlacedProblem, SpecFile } from './model.ts';
import { placeIn, problem } from './place.ts';

/** How `use` gets the text of other files; pure analysis asks, the caller answers from memory. */
export interface FileSource {
  /** Text of the file, or why there is none, in plain words (`not found`, `not UTF-8 text`). */
  read(uri: string): { readonly text: string } | { readonly missing: string };
  /** URI of `path` as written in the file `from`. */
  resolve(from: string, path: string): string;
  /**
   * True when another file that is open or checked uses this one. Where such a file has no `system` of its own it is a
   * piece of another spec, and is checked for language alone.
   */
  isUsed?(uri: string): boolean;
}

export interface ReadFiles {
  /** The spec's own file first, then those it uses in order of first use. */
  readonly files: readonly SpecFile[];
  readonly problems: readonly PlacedProblem[];
  readonly uses: readonly NameUse[];
  /** The `use` in the spec's own file that brings another file in, by that file's URI. */
  readonly broughtBy: ReadonlyMap<string, Place>;
}

/** `cacheFor` hands out the parse cache of a file, so that unchanged statements keep their objects. */
export function readFiles(uri: string, source: FileSource, cacheFor: (uri: string) => ParseCache): ReadFiles {
  const files = new Map<string, SpecFile>();
  const problems: PlacedProblem[] = [];
  const uses: NameUse[] = [];
  const broughtBy = new Map<string, Place>();

  const visit = (at: string, text: string, trail: readonly string[], root: Place | undefined): void => {
    const tree = parseDocument(text, vocabulary, cacheFor(at));
    const file: SpecFile = { uri: at, text, tree, statements: tree.statements };
    files.set(at, file);
    if (root !== undefined) broughtBy.set(at, root);
    for (const statement of tree.statements) {
      if (statement.shaped.spec?.word !== 'use' || statement.shaped.wrapper !== undefined) continue;
      for (const { values } of statement.shaped.clauses) {
        const path = values[0]?.atom;
        if (path?.kind === 'text') use(file, placeIn({ file, statement }, path.span), path.value, [...trail, at], root);
      }
    }
  };

  const use = (from: SpecFile, place: Place, path: string, trail: readonly string[], root: Place | undefined): void => {
    const target = path.trim() === '' ? undefined : resolveIn(source, from.uri, path);
    if (target === undefined) {
      problems.push(problem('use-missing', place, 'This use names no file: put its path between the quotes.'));
      return;
    }
    uses.push({ place, name: target, target: 'file', declaration: false });
    const start = trail.indexOf(target);
    if (start !== -1) {
      const names = [...trail.slice(start), target].map(fileName);
      const circle =
        names.length === 2
          ? `This file uses itself (${names.join(' → ')}): take this use out.`
          : `These files use each other in a circle (${names.join(' → ')}): take this use out, or move what is shared to a file that uses neither.`;
      // Every file of the circle is told at its own use: in the spec's own file that is the one that leads into it.
      problems.push(
        problem('circle-of-use', start === 0 && root !== undefined ? root : place, circle, {
          figures: { files: names.join(' ') },
        }),
      );
      return;
    }
    if (files.has(target)) return;
    const read = readFrom(source, target);
    if ('missing' in read)
      problems.push(
        problem(
          'use-missing',
          place,
          `“${path}” cannot be used (${read.missing.replace(/\.$/, '')}): check its path, which counts from this file.`,
          {
            figures: { why: read.missing },
          },
        ),
      );
    else visit(target, read.text, trail, root ?? place);
  };

  const own = readFrom(source, uri);
  visit(uri, 'text' in own ? own.text : '', [], undefined);
  if ('missing' in own)
    problems.push(
      problem(
        'use-missing',
        { uri, span: { start: 0, end: 0 } },
        `This file cannot be read (${own.missing.replace(/\.$/, '')}).`,
        {
          figures: { why: own.missing },
        },
      ),
    );
  return { files: [...files.values()], problems, uses, broughtBy };
}

/** A path may be any text at all; one that is no path names no file. */
function resolveIn(source: FileSource, from: string, path: string): string | undefined {
  try {
    return source.resolve(from, path) || undefined;
  } catch {
    return undefined;
  }
}

function readFrom(source: FileSource, uri: string): ReturnType<FileSource['read']> {
  try {
    return source.read(uri);
  } catch (error) {
    return { missing: error instanceof Error ? error.message : String(error) };
  }
}

export function fileName(uri: string): string {
  const last = uri.slice(uri.lastIndexOf('/') + 1);
  try {
    return decodeURIComponent(last);
  } catch {
    return last;
  }
}
