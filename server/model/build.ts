/** From the files of a spec to its model. Total: whatever is wrong becomes a problem, and everything else stays. */
import { buildBars } from './bars.ts';
import { type Beyond, nothingBeyond } from './beyond.ts';
import type { Builder } from './builder.ts';
import { buildCases, buildReadings } from './cases.ts';
import { withoutConsequences } from './consequences.ts';
import { declare } from './declarations.ts';
import { buildAllowances, buildExpectations } from './expectations.ts';
import { fileName, isIncomplete, type ReadStatements } from './files.ts';
import { KeptModel } from './kept.ts';
import { checkBases } from './limits.ts';
import { Lookups } from './lookups.ts';
import type { Model, NameUse, Place, PlacedProblem, SaidInFile } from './model.ts';
import { Names } from './names.ts';
import { tellNamesUntaken } from './names-untaken.ts';
import { buildLocations, buildParts } from './parts.ts';
import { placeIn, problem, statementAt } from './place.ts';
import { buildRuns } from './runs.ts';
import { requireInStatements } from './statements.ts';
import { buildStocks } from './stock.ts';
import { buildSystem } from './system.ts';
import { unconnectedTerminals } from './unconnected.ts';
import { unitsIn } from './units-written.ts';
import { indexOf } from './use-index.ts';
import { useNames } from './uses.ts';

export interface BuildOptions {
  /** Ids of the sets of limits that `limits` may name. */
  readonly limitSets: readonly string[];
  /** The file is a piece of another spec: what it does not connect may be connected there. */
  readonly piece?: boolean;
  /** Given where this is a piece of one spec that is built by itself; its problems are then told as they are, by no file. */
  readonly beyond?: Beyond;
  /** What was kept of the same spec when it was last built. */
  readonly kept?: KeptModel;
}

export function buildModel(read: ReadStatements, options: BuildOptions): Model {
  const { limitSets, piece = false, beyond = nothingBeyond, kept = new KeptModel() } = options;
  const { toldElsewhere } = beyond;
  const isPart = beyond !== nothingBeyond;
  const problems: PlacedProblem[] = [...read.problems];
  const uses: NameUse[] = [...read.uses];
  for (const file of read.files) problems.push(...readingProblems(file));
  const lookups = new Lookups(problems);
  const declarations = declare(read, kept, lookups, problems, uses, isPart ? () => beyond.written() : undefined);
  tellNamesUntaken(problems, (name) => declarations.byName.get(name) ?? beyond.declared(name));
  const builder: Builder = {
    read,
    declarations,
    names: new Names(declarations, lookups, problems, uses, beyond.isIncomplete || isIncomplete(read), beyond),
    problems,
    uses,
    beyond,
    kept,
    lookups,
    stocks: lookups.of('stock'),
    parts: lookups.of('part'),
    locations: lookups.of('place'),
    runs: new Map(),
    terminals: lookups.of('terminal'),
    unsureStock: new Set(),
    unsureParts: new Set(),
    said: new Map(),
  };
  buildStocks(builder);
  buildLocations(builder);
  buildParts(builder);
  buildRuns(builder);
  useNames(builder);
  requireInStatements(builder);
  const bars = buildBars(builder);
  checkBases(builder, limitSets);
  const system = buildSystem(builder, limitSets);
  if (!piece)
    problems.push(...unconnectedTerminals(builder, bars).filter(({ place }) => place.uri === read.files[0]?.uri));
  const isTold = ({ place }: { readonly place: Place }) => {
    const statement = toldElsewhere.size === 0 ? undefined : statementAt(place);
    return statement !== undefined && toldElsewhere.has(statement);
  };
  const own = <T extends { readonly place: Place }>(all: readonly T[]) =>
    isPart ? all.filter((one) => !isTold(one)) : all;
  const ownUses = own(uses);
  return {
    files: read.files.map(({ uri, statements }) => ({ uri, statements })),
    system,
    isLaid: beyond.isLaid || builder.runs.size > 0,
    sizes: statedSizes(builder),
    unitsWritten: unitsIn(read.files[0]?.statements ?? [], toldElsewhere),
    parts: builder.parts,
    runs: builder.runs,
    stocks: builder.stocks,
    locations: builder.locations,
    cases: buildCases(builder),
    expectations: buildExpectations(builder),
    readings: buildReadings(builder),
    allowances: buildAllowances(builder),
    bars,
    terminals: builder.terminals,
    uses: ownUses,
    ...indexOf(ownUses),
    problems: isPart
      ? own(problems)
      : toldInOwnFile(
          read,
          withoutConsequences(read, () => builder.runs, problems),
        ),
  };
}

function statedSizes({ runs }: Builder): Model['sizes'] {
  let [stated, gauges] = [0, 0];
  for (const { size } of runs.values()) {
    if (size === undefined) continue;
    stated += 1;
    if (size.system === 'awg') gauges += 1;
  }
  return { stated, gauges };
}

/** Problems of reading, which grammar gives relative to their statement, at their absolute places. */
function readingProblems(file: SaidInFile): PlacedProblem[] {
  return file.statements.flatMap((statement) => {
    if (statement.shaped.problems.length === 0) return [];
    const origin = { file, statement };
    return statement.shaped.problems.map((found) =>
      problem(found.slug, placeIn(origin, found.span), found.message, {
        subject: statement.node.names[0]?.value,
        figures: found.figures ?? {},
        fixes: (found.fixes ?? []).map(({ title, safe, edits }) => ({
          title,
          safe,
          edits: edits.map(({ span, newText }) => ({ place: placeIn(origin, span), newText })),
        })),
        related: (found.related ?? []).map(({ message, uri, absolute }) => ({
          message,
          place: { uri: uri ?? file.uri, span: absolute },
        })),
      }),
    );
  });
}

/**
 * Problems of the spec's own file, in order of place. What is wrong in a used file is told in full when that file is
 * checked; here one problem at the `use` says so, since this spec rests on what could not be read there.
 */
export function toldInOwnFile(read: ReadStatements, problems: readonly PlacedProblem[]): PlacedProblem[] {
  const ownUri = read.files[0]?.uri;
  const own = problems.filter(({ place }) => place.uri === ownUri);
  const elsewhere = new Map<string, PlacedProblem[]>();
  for (const one of problems) {
    if (one.place.uri === ownUri) continue;
    const list = elsewhere.get(one.place.uri);
    if (list) list.push(one);
    else elsewhere.set(one.place.uri, [one]);
  }
  for (const [uri, list] of elsewhere) {
    const place = read.broughtBy.get(uri);
    const [first] = inOrder(list);
    if (place === undefined || first === undefined) continue;
    const many = list.length === 1 ? 'a problem of its own' : `${list.length} problems of its own`;
    own.push(
      problem(
        'used-file-has-problems',
        place,
        `${fileName(uri)} has ${many}, so not all it says is read here: open it and mend ${list.length === 1 ? 'it' : 'them'}.`,
        {
          figures: { file: fileName(uri), problems: list.length },
          related: [{ message: first.message, place: first.place }],
        },
      ),
    );
  }
  return inOrder(own);
}

function inOrder(problems: readonly PlacedProblem[]): PlacedProblem[] {
  return [...problems].sort((a, b) => a.place.span.start - b.place.span.start || a.place.span.end - b.place.span.end);
}
