/**
 * One pass, many readers: `analyse` turns a file's text into one immutable `Analysis`. The editor, the command, the
 * reports and the tests all read that.
 */
import { LineIndex } from '../grammar/lines.ts';
import { ParseCache, parseDocument, type ShapedTree } from '../grammar/parse.ts';
import type { Answers } from './answers/answers.ts';
import { noDirections } from './answers/directions.ts';
import { noFaults } from './answers/fault-answers.ts';
import { limitsOf } from './answers/limits-of.ts';
import { workOutInSteps } from './answers/work-out.ts';
import { vocabulary } from './kinds/vocabulary.ts';
import { buildModel } from './model/build.ts';
import { type FileSource, fileName, type ReadFiles, readFiles } from './model/files.ts';
import type { Model, SpecFile } from './model/model.ts';
import type { Network } from './model/network.ts';
import { buildNetwork } from './model/network-build.ts';
import { problem } from './model/place.ts';
import { atOnce, type Steps } from './model/steps.ts';
import { limitSets } from './physics/limits/sets.ts';
import { SolvedBefore } from './physics/solved-before.ts';
import { allRules } from './rules/all.ts';
import type { Finding } from './rules/rule.ts';
import { runRulesInSteps } from './rules/run.ts';
import { levelsFor, type SeveritySettings, withLevels } from './rules/severities.ts';

export { readSeverities, type SeveritySettings, usualSeverities } from './rules/severities.ts';
export type { FileSource };

export interface Analysis {
  readonly uri: string;
  readonly text: string;
  readonly lines: LineIndex;
  readonly tree: ShapedTree;
  readonly model: Model;
  readonly answers: Answers;
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
  readonly solvedBefore = new SolvedBefore();
  private readonly parses = new Map<string, ParseCache>();

  parseCache = (uri: string): ParseCache => {
    let cache = this.parses.get(uri);
    if (cache === undefined) {
      cache = new ParseCache();
      this.parses.set(uri, cache);
    }
    return cache;
  };

  /** Drops what belongs to a file that nothing reads any more. */
  forget(uri: string): void {
    this.parses.delete(uri);
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
  const built = buildModel(read, { limitSets: [...limitSets.keys()], piece });
  const network = buildNetwork(built);
  const named: Analysis = {
    uri,
    text: file.text,
    lines: new LineIndex(file.text),
    tree: file.tree,
    model: built,
    answers: noAnswers(built, network),
    isWorkedOut: false,
    findings: [],
    accepted: [],
  };
  yield named;
  const { model, answers } = yield* workOutGuarded(built, network, cache.solvedBefore);
  const { findings, accepted } = yield* runRulesInSteps({ model, answers });
  const here = (list: readonly Finding[]) =>
    list.filter(({ slug }) => !piece || languageSlugs.has(slug)).flatMap((finding) => toldHere(finding, read));
  return {
    ...named,
    model,
    answers,
    isWorkedOut: true,
    findings: inOrder(here(findings)),
    accepted: inOrder(here(accepted)),
  };
}

/** A file's text as its statements alone: for what needs names and no electrics. */
export function readStatements(uri: string, text: string, cache = new AnalysisCache()): ShapedTree {
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

/** What throws while the electrics are worked out must not hide what reading found. */
function* workOutGuarded(
  model: Model,
  network: Network,
  before: SolvedBefore,
): Steps<{ readonly model: Model; readonly answers: Answers }> {
  try {
    return { model, answers: yield* workOutInSteps(model, network, before) };
  } catch (error) {
    // For the report; the words of the program are no help to a fitter.
    const why = error instanceof Error ? error.message : String(error);
    const failed = problem(
      'answers-failed',
      { uri: model.files[0]?.uri ?? '', span: { start: 0, end: 0 } },
      'The currents and voltages of this spec could not be worked out, so nothing that rests on them was checked; the rest was. Undo the last change to see whether that brought it on, and please report it with the spec.',
      { figures: { error: why } },
    );
    return { model: { ...model, problems: [failed, ...model.problems] }, answers: noAnswers(model, network) };
  }
}

function noAnswers(model: Model, network: Network): Answers {
  const { system } = model;
  return {
    network,
    limits: limitsOf(model),
    limitsStated: system.limits !== undefined,
    cases: [],
    cores: new Map(),
    runs: new Map(),
    contacts: new Map(),
    loads: new Map(),
    unfused: [],
    loneDevices: [],
    unfusedStretches: [],
    inCase: ({ name }) => ({
      name,
      converged: false,
      trouble: undefined,
      overloads: [],
      residual: 0,
      volts: new Map(),
      cores: [],
      contacts: [],
      parts: new Map(),
    }),
    tailOf: () => undefined,
    waysTo: () => [],
    miswirings: { shorts: [], voltages: [], reversed: [], stranded: [], isUpset: () => false },
    chosen: [],
    systemVolts: system.nominalVolts ?? 12,
    strings: { strings: [], inputs: [] },
    banks: [],
    faults: noFaults,
    directions: noDirections,
    unfusedBanks: [],
  };
}
