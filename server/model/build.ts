/** From the files of a spec to its model. Total: whatever is wrong becomes a problem, and everything else stays. */
import { declare } from './declarations.ts';
import type { ReadFiles } from './files.ts';
import type { Model, NameUse, PlacedProblem, Run } from './model.ts';
import { type Builder, buildLocations, buildParts, buildStocks } from './parts.ts';
import { placeIn, problem } from './place.ts';
import { Resolver } from './resolve.ts';
import { buildRuns } from './runs.ts';
import { buildAllowances, buildBars, buildCases, buildExpectations, buildSystem } from './statements.ts';
import { unconnectedTerminals } from './unconnected.ts';

/** `knownSets` are the ids of the sets of limits that `limits` may name. */
export function buildModel(read: ReadFiles, knownSets: readonly string[]): Model {
  const { files } = read;
  const problems: PlacedProblem[] = [...read.problems];
  const uses: NameUse[] = [];
  languageProblems(files, problems);
  const declarations = declare(files, problems, uses);
  const builder: Builder = {
    declarations,
    resolver: new Resolver(declarations, problems, uses),
    problems,
    stocks: new Map(),
    parts: new Map(),
    locations: new Map(),
    terminals: new Map(),
  };
  const runs = new Map<string, Run>();
  buildStocks(builder);
  buildLocations(builder);
  buildParts(builder);
  buildRuns(builder, runs, uses);
  const bars = buildBars(builder, files, uses);
  const system = buildSystem(builder, files, knownSets);
  const cases = buildCases(builder, files);
  const expectations = buildExpectations(builder, files, uses);
  const allowances = buildAllowances(builder, files);
  problems.push(...unconnectedTerminals(builder.parts.values(), runs.values(), bars));
  return {
    files,
    system,
    parts: builder.parts,
    runs,
    stocks: builder.stocks,
    locations: builder.locations,
    cases,
    expectations,
    allowances,
    bars,
    terminals: builder.terminals,
    uses,
    problems,
  };
}

/** Problems of reading, which grammar gives relative to their statement, at their absolute places. */
function languageProblems(files: ReadFiles['files'], problems: PlacedProblem[]): void {
  for (const file of files) {
    for (const statement of file.statements) {
      const origin = { file, statement };
      for (const found of statement.shaped.problems) {
        problems.push(
          problem(found.slug, placeIn(origin, found.span), found.message, {
            subject: statement.node.names[0]?.value,
            figures: found.figures ?? {},
            fixes: (found.fixes ?? []).map(({ title, safe, edits }) => ({
              title,
              safe,
              edits: edits.map(({ span, newText }) => ({ place: placeIn(origin, span), newText })),
            })),
            related: (found.related ?? []).map(({ message, uri, absolute }) => ({ message, place: { uri: uri ?? file.uri, span: absolute } })),
          }),
        );
      }
    }
  }
}
