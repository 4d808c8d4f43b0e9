/**
 * One pass, many readers: `analyse` turns a file's text into one immutable `Analysis`. The editor, the command, the
 * reports and the tests all read that.
 */
import { LineIndex } from '../grammar/lines.ts';
import { ParseCache, parseDocument, type ShapedTree } from '../grammar/parse.ts';
import type { ShapedPlaced } from '../grammar/shaped.ts';
import type { TextInBlocks } from '../grammar/text-in-blocks.ts';
import type { Answers } from './answers/answers.ts';
import { workOutGuarded } from './answers/guarded.ts';
import { noAnswers } from './answers/no-answers.ts';
import { vocabulary } from './kinds/vocabulary.ts';
import { buildModel } from './model/build.ts';
import { type FileSource, fileName, type ReadFiles, readFiles } from './model/files.ts';
import type { Model, SpecFile } from './model/model.ts';
import { buildNetwork } from './model/network-build.ts';
import { atOnce, type Steps } from './model/steps.ts';
import { limitSets } from './physics/limits/sets.ts';
import { SolvedBefore } from './physics/solved-before.ts';
import { allRules } from './rules/all.ts';
import type { Finding } from './rules/rule.ts';
import { judge, runRulesInSteps } from './rules/run.ts';
import { levelsFor, type SeveritySettings, withLevels } from './rules/severities.ts';
import type { Packing } from './sections/partition.ts';
import { type Keeping, Sections, usualKeeping, usualPacking } from './sections/sections.ts';
import type { WorkedOut } from './sections/unchanged.ts';

export { readSeverities, type SeveritySettings, usualSeverities } from './rules/severities.ts';
export type { FileSource };

/** What is worked out by itself: the spec as a whole, or one of its sections. */
export interface Piece {
  /** Those that belong to it alone, in order within their file. */
  readonly statements: readonly ShapedPlaced[];
  readonly model: Model;
  readonly answers: Answers;
}

export interface Analysis {
  readonly uri: string;
  readonly text: TextInBlocks;
  readonly lines: LineIndex;
  readonly tree: ShapedTree;
  /** Itself first, then those it uses in order of first use. */
  readonly files: readonly SpecFile[];
  readonly model: Model;
  readonly answers: Answers;
  /**
   * At least one, and none before the electrics are worked out. The answers of those that an edit leaves as they are are the
   * same objects as before, and so are sections.
   */
  readonly pieces: readonly Piece[];
  /** What is said for all pieces and belongs to none. */
  readonly common: readonly ShapedPlaced[];
  /** False before the electrics are worked out: until then answers are those of a spec of which nothing is known. */
  readonly isWorkedOut: boolean;
  /**
   * Findings of this file after `allow`, in order of place. What is wrong with the language of a used file is reported when
   * that file is analysed; what the electrics of this spec make of a part or run there is reported here, at its `use`.
   */
  readonly findings: readonly Finding[];
  /** Findings accepted by an `allow`, for hover and printed sheets. */
  readonly accepted: readonly Finding[];
}

/**
 * What is kept between analyses: parsed statements by file, and the answers of islands that were solved before. One cache may
 * serve any number of specs.
 */
export class AnalysisCache {
  readonly solvedBefore: SolvedBefore;
  private readonly parses = new Map<string, ParseCache>();
  private readonly sections = new Map<string, Sections>();

  constructor(
    private readonly packing: Packing = usualPacking,
    private readonly keeping: Keeping = usualKeeping,
  ) {
    this.solvedBefore = new SolvedBefore(keeping.numbers);
  }

  parseCache = (uri: string): ParseCache => {
    let cache = this.parses.get(uri);
    if (cache === undefined) {
      cache = new ParseCache();
      this.parses.set(uri, cache);
    }
    return cache;
  };

  /** The sections of a spec as they were last. */
  sectionsOf(uri: string): Sections {
    let sections = this.sections.get(uri);
    if (sections === undefined) {
      sections = new Sections(this.packing, this.keeping.wordings);
      this.sections.set(uri, sections);
    }
    return sections;
  }

  /** Drops what belongs to a file that nothing reads any more. */
  forget(uri: string): void {
    this.parses.delete(uri);
    this.sections.delete(uri);
  }
}

/** Reads a spec and works everything out. Never throws: whatever goes wrong is a finding, and the rest stays. */
export function analyse(uri: string, source: FileSource, cache = new AnalysisCache()): Analysis {
  return atOnce(analyseInSteps(uri, source, cache));
}

/** The same in steps. As soon as its names are known, the analysis as far as it goes is handed out for what needs no more. */
export function* analyseInSteps(
  uri: string,
  source: FileSource,
  cache = new AnalysisCache(),
): Steps<Analysis, Analysis> {
  const read = readFiles(uri, source, cache.parseCache);
  yield;
  const file = read.files[0] as SpecFile;
  const piece = isPiece(file, source);
  const { model: built, workOut } = yield* reading(read, piece, cache);
  const named: Analysis = {
    uri,
    text: file.text,
    lines: new LineIndex(file.text),
    tree: file.tree,
    files: read.files,
    model: built,
    answers: noAnswers(built),
    pieces: [],
    common: [],
    isWorkedOut: false,
    findings: [],
    accepted: [],
  };
  yield named;
  const { model, answers, pieces, common, findings, accepted } = yield* workOut();
  const here = (list: readonly Finding[]) =>
    list.filter(({ slug }) => !piece || languageSlugs.has(slug)).flatMap((finding) => toldHere(finding, read));
  return {
    ...named,
    model,
    answers,
    pieces,
    common,
    isWorkedOut: true,
    findings: inOrder(here(findings)),
    accepted: inOrder(here(accepted)),
  };
}

type WorkedOutInPieces = WorkedOut & Pick<Analysis, 'pieces' | 'common'>;

/** The model of a spec, and how all else of it is worked out: in sections where it has several, else whole. */
function* reading(
  read: ReadFiles,
  piece: boolean,
  cache: AnalysisCache,
): Steps<{ readonly model: Model; readonly workOut: () => Steps<WorkedOutInPieces> }> {
  const { solvedBefore } = cache;
  const sections = cache.sectionsOf(read.files[0]?.uri ?? '');
  const partition = sections.partition(read);
  const built = partition && (yield* sections.build(read, partition, piece));
  if (built !== undefined)
    return {
      model: built.model,
      *workOut() {
        const { model, answers, pieces, found } = yield* sections.workOut(built, solvedBefore);
        return { model, answers, pieces, common: partition?.common ?? [], ...judge(model, found) };
      },
    };
  const { kept, unchanged } = sections;
  const same = unchanged.of(read, piece);
  const whole =
    same === undefined
      ? buildModel(read, { limitSets: [...limitSets.keys()], piece, kept })
      : { ...same.model, files: read.files };
  const asOne = (worked: WorkedOut): WorkedOutInPieces => {
    const statements = read.files.flatMap((file) => file.statements);
    return { ...worked, pieces: [{ statements, model: worked.model, answers: worked.answers }], common: [] };
  };
  return {
    model: whole,
    *workOut() {
      if (same !== undefined) return asOne({ ...same, model: whole });
      const answered = yield* workOutGuarded(whole, buildNetwork(whole, kept), solvedBefore);
      const worked = { ...answered, ...(yield* runRulesInSteps(answered)) };
      unchanged.keep(read, piece, worked);
      return asOne(worked);
    },
  };
}

/** A file's text as its statements alone: for what needs names and no electrics. */
export function readStatements(uri: string, text: string | TextInBlocks, cache = new AnalysisCache()): ShapedTree {
  return parseDocument(text, vocabulary, cache.parseCache(uri));
}

/** The same with the severities that settings ask for. */
export function withSettings(analysis: Analysis, settings: SeveritySettings): Analysis {
  const findings = withLevels(analysis.findings, levelsFor(settings, analysis.uri));
  return findings === analysis.findings ? analysis : { ...analysis, findings };
}

const languageSlugs: ReadonlySet<string> = new Set([
  ...allRules.filter(({ group }) => group === 'language').map(({ slug }) => slug),
  'allow-unknown',
  'rule-failed',
]);

/** A file that others use and that has no system of its own is a piece of their specs: its language alone is checked. */
function isPiece(file: SpecFile, source: FileSource): boolean {
  return source.isUsed?.(file.uri) === true && !file.statements.some(({ shaped }) => shaped.spec?.word === 'system');
}

/** A finding in a used file stands at the `use` that brings the file in, with its own place beside it. */
function toldHere(finding: Finding, { files, broughtBy }: ReadFiles): Finding[] {
  if (finding.place.uri === files[0]?.uri) return [finding];
  const place = broughtBy.get(finding.place.uri);
  if (place === undefined) return [];
  const related = [
    { message: `It is in ${fileName(finding.place.uri)}, here`, place: finding.place },
    ...finding.related,
  ];
  return [{ ...finding, place, related }];
}

/** By place alone: where several stand at one place, the order the rules gave them stays. */
function inOrder(findings: readonly Finding[]): Finding[] {
  return [...findings].sort((a, b) => a.place.span.start - b.place.span.start);
}
