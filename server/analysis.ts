/**
 * One pass, many readers: `analyse` turns a file's text into one immutable `Analysis`. The editor, the command, the
 * reports and the tests all read that.
 */
import { LineIndex } from '../grammar/lines.ts';
import { ParseCache, type ShapedTree } from '../grammar/parse.ts';
import type { Answers } from './answers/answers.ts';
import { workOut } from './answers/work-out.ts';
import { buildModel } from './model/build.ts';
import { type FileSource, readFiles } from './model/files.ts';
import type { Model, SpecFile } from './model/model.ts';
import { buildNetwork } from './model/network-build.ts';
import { problem } from './model/place.ts';
import { limitSet, limitSets } from './physics/limits/sets.ts';
import type { Finding } from './rules/rule.ts';
import { runRules } from './rules/run.ts';

export type { FileSource };

export interface Analysis {
  readonly uri: string;
  readonly text: string;
  readonly lines: LineIndex;
  readonly tree: ShapedTree;
  readonly model: Model;
  readonly answers: Answers;
  /** Findings of this file after `allow`, in order of place. Those in used files are reported when that file is analysed. */
  readonly findings: readonly Finding[];
  /** Findings accepted by an `allow`, for hover and printed sheets. */
  readonly accepted: readonly Finding[];
}

/** What is kept between analyses of one spec: parsed statements by file. */
export class AnalysisCache {
  private readonly parses = new Map<string, ParseCache>();

  parseCache = (uri: string): ParseCache => {
    let cache = this.parses.get(uri);
    if (cache === undefined) {
      cache = new ParseCache();
      this.parses.set(uri, cache);
    }
    return cache;
  };
}

/** Reads a spec and works everything out. Never throws: whatever goes wrong is a finding, and the rest stays. */
export function analyse(uri: string, source: FileSource, cache = new AnalysisCache()): Analysis {
  const read = readFiles(uri, source, cache.parseCache);
  const file = read.files[0] as SpecFile;
  let model = buildModel(read, { limitSets: [...limitSets.keys()] });
  const network = buildNetwork(model);
  let answers: Answers;
  try {
    answers = workOut(model, network);
  } catch (error) {
    const trouble = problem(
      'answers-failed',
      { uri, span: { start: 0, end: 0 } },
      `The electrics of this spec could not be worked out (${error instanceof Error ? error.message : String(error)}); what needs no currents was checked all the same.`,
    );
    model = { ...model, problems: [...model.problems, trouble] };
    answers = noAnswers(network);
  }
  const { findings, accepted } = runRules({ model, answers });
  const own = ({ place }: Finding) => place.uri === uri;
  return {
    uri,
    text: file.text,
    lines: new LineIndex(file.text),
    tree: file.tree,
    model,
    answers,
    findings: findings.filter(own),
    accepted: accepted.filter(own),
  };
}

function noAnswers(network: Answers['network']): Answers {
  return {
    network,
    limits: limitSet(undefined, false),
    limitsStated: false,
    cases: [],
    cores: new Map(),
    runs: new Map(),
    contacts: new Map(),
    loads: new Map(),
    unfused: [],
    chosen: [],
    systemVolts: 12,
  };
}
