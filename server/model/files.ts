/** The files of a spec: itself and those it uses, each read once; circles and missing files become problems. */
import { type ParseCache, parseDocument } from '../../grammar/parse.ts';
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import type { TextInBlocks } from '../../grammar/text-in-blocks.ts';
import type { Atom } from '../../grammar/tree.ts';
import { vocabulary } from '../kinds/vocabulary.ts';
import { oneVersion } from './merge-marks.ts';
import type { NameUse, Place, PlacedProblem, SaidInFile, SpecFile } from './model.ts';
import { placeIn, problem } from './place.ts';

/** How `use` gets the text of other files; pure analysis asks, the caller answers from memory. */
export interface FileSource {
  /** Text of the file, or why there is none, in plain words (`not found`, `not UTF-8 text`). */
  read(uri: string): { readonly text: string | TextInBlocks } | { readonly missing: string };
  /** URI of `path` as written in the file `from`. */
  resolve(from: string, path: string): string;
  /**
   * True when another file that is open or checked uses this one. Where such a file has no `system` of its own it is a
   * piece of another spec, and is checked for language alone.
   */
  isUsed?(uri: string): boolean;
}

/** What all files of a spec say. */
export interface ReadStatements {
  /** The spec's own file first, then those it uses in order of first use. */
  readonly files: readonly SaidInFile[];
  readonly problems: readonly PlacedProblem[];
  readonly uses: readonly NameUse[];
  /** The `use` in the spec's own file that brings another file in, by that file's URI. */
  readonly broughtBy: ReadonlyMap<string, Place>;
}

export interface ReadFiles extends ReadStatements {
  readonly files: readonly SpecFile[];
}

/** `cacheFor` hands out the parse cache of a file, so that unchanged statements keep their objects. */
export function readFiles(uri: string, source: FileSource, cacheFor: (uri: string) => ParseCache): ReadFiles {
  const files = new Map<string, SpecFile>();
  const problems: PlacedProblem[] = [];
  const uses: NameUse[] = [];
  const broughtBy = new Map<string, Place>();

  // Files being read, each used by the one before it: a stack of our own, since a chain of uses may be longer than calls go deep.
  const trail: OpenFile[] = [];
  const depth = new Map<string, number>();

  const open = (at: string, text: string | TextInBlocks, root: Place | undefined): void => {
    const tree = parseDocument(text, vocabulary, cacheFor(at));
    const version = oneVersion({ uri: at, text: tree.text }, tree.statements);
    problems.push(...version.problems);
    const file: SpecFile = { uri: at, text: tree.text, tree, statements: version.statements };
    files.set(at, file);
    if (root !== undefined) broughtBy.set(at, root);
    depth.set(at, trail.length);
    trail.push({ file, root, pending: usesIn(file), next: 0 });
  };

  const use = ({ file: from, root }: OpenFile, { place, path, closed }: Use): void => {
    const target = path.trim() === '' ? undefined : resolveIn(source, from.uri, path);
    // Closing the text comes first; what it names is known only then.
    if (target === undefined && !closed) return;
    if (target === undefined) {
      problems.push(problem('use-missing', place, 'This use names no file: put its path between the quotes.'));
      return;
    }
    uses.push({ place, name: target, target: 'file', declaration: false });
    const start = depth.get(target);
    if (start !== undefined) {
      const names = [...trail.slice(start).map(({ file }) => file.uri), target].map(fileName);
      const shown = (names.length <= 8 ? names : [...names.slice(0, 4), '…', ...names.slice(-3)]).join(' → ');
      const circle =
        names.length === 2
          ? `This file uses itself (${shown}): take this use out.`
          : `These files use each other in a circle (${shown}): take this use out, or move what is shared to a file that uses neither.`;
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
    if ('missing' in read && !closed) return;
    if ('missing' in read && from.uri.startsWith('untitled:'))
      problems.push(
        problem(
          'use-missing',
          place,
          `“${path}” cannot be looked for yet, since this file has no place of its own: save it first.`,
          { figures: { why: 'not saved' } },
        ),
      );
    else if ('missing' in read)
      problems.push(
        problem('use-missing', place, whyNotUsed(path, read.missing), {
          figures: { why: read.missing },
        }),
      );
    else open(target, read.text, root ?? place);
  };

  const own = readFrom(source, uri);
  open(uri, 'text' in own ? own.text : '', undefined);
  for (let last = trail.at(-1); last !== undefined; last = trail.at(-1)) {
    const next = last.pending[last.next++];
    if (next !== undefined) use(last, next);
    else {
      trail.pop();
      depth.delete(last.file.uri);
    }
  }
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

/** A file that the spec uses is not there, or a `use` that cannot be read names none: what they bring is not known. */
export function isIncomplete({ files, problems }: ReadStatements): boolean {
  const isOpen = (atom: Atom) => atom.kind === 'text' && !atom.closed;
  const inVain = ({ shaped, node }: ShapedPlaced) => shaped.problems.length > 0 || node.atoms.some(isOpen);
  return problems.some(({ slug }) => slug === 'use-missing') || files.some((file) => useStatements(file).some(inVain));
}

const known = new WeakMap<SaidInFile['statements'], readonly ShapedPlaced[]>();

/** The few among many statements that bring in other files, or would if their first word could be read: `include "stock.amps"`. */
function useStatements({ statements }: SaidInFile): readonly ShapedPlaced[] {
  let uses = known.get(statements);
  if (uses === undefined) {
    uses = statements.filter(({ shaped, node }) =>
      shaped.spec === undefined ? node.atoms.some(namesSpec) : shaped.spec.word === 'use',
    );
    known.set(statements, uses);
  }
  return uses;
}

const namesSpec = (atom: Atom) => atom.kind === 'text' && atom.value.endsWith('.amps');

interface Use {
  readonly place: Place;
  readonly path: string;
  readonly closed: boolean;
}

/** A file whose uses are being followed. */
interface OpenFile {
  readonly file: SpecFile;
  /** The use in the spec's own file that led here. */
  readonly root: Place | undefined;
  readonly pending: readonly Use[];
  next: number;
}

function usesIn(file: SpecFile): Use[] {
  const uses: Use[] = [];
  for (const statement of useStatements(file)) {
    const { wrapper, clauses } = statement.shaped;
    if (wrapper !== undefined) continue;
    for (const { values } of clauses) {
      const path = values[0]?.atom;
      if (path?.kind === 'text')
        uses.push({ place: placeIn({ file, statement }, path.span), path: path.value, closed: path.closed });
    }
  }
  return uses;
}

/** A reason that says what to do says so itself; else it is most likely the path. */
function whyNotUsed(path: string, missing: string): string {
  const why = missing.replace(/\.$/, '');
  return why.includes(': ')
    ? `“${path}” cannot be used, since ${why}.`
    : `“${path}” cannot be used (${why}): check its path, which counts from this file.`;
}

/** A path may be any text at all; one that is no path names no file. */
export function resolveIn(source: Pick<FileSource, 'resolve'>, from: string, path: string): string | undefined {
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
