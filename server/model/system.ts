/** The installation as a whole: what its `system` statement says, and what follows from its batteries where it is silent. */
import type { Builder } from './builder.ts';
import { fileName } from './files.ts';
import { isSet } from './limits.ts';
import type { Origin, SaidInFile, SystemFacts } from './model.ts';
import { headPlace, problem } from './place.ts';
import { factsOf } from './stock.ts';

/** `knownSets` are the ids of the published sets of limits there are. */
export function buildSystem(builder: Builder, knownSets: readonly string[]): SystemFacts {
  const [own, ...used] = builder.read.files;
  const first = own === undefined ? undefined : onlySystem(builder, own);
  for (const file of used) foreignSystem(builder, file);
  const facts = first === undefined ? undefined : factsOf(builder, first);
  const limits = facts?.word('limits', 'set');
  const known = facts !== undefined && limits !== undefined && isSet(builder, limits, facts, knownSets);
  return {
    origin: first,
    facts,
    title: first?.statement.node.title?.value,
    nominalVolts: facts?.number('voltage') ?? batteryVolts(builder),
    ambientCelsius: facts?.number('ambient'),
    coldestCelsius: facts?.number('coldest'),
    hottestCelsius: facts?.number('hottest'),
    limits: known ? limits : undefined,
  };
}

/** Nominal voltage of the battery first by name that says one. */
function batteryVolts(builder: Builder): number | undefined {
  let [volts, first]: [number | undefined, string] = [undefined, ''];
  for (const { name, kind, facts } of builder.parts.values()) {
    if (kind.word !== 'battery' || (volts !== undefined && name >= first)) continue;
    const here = facts.number('voltage');
    if (here !== undefined && here > 0) [volts, first] = [here, name];
  }
  return volts;
}

function systemsIn({ kept }: Builder, file: SaidInFile): Origin[] {
  return file.statements
    .filter(({ shaped }) => shaped.spec?.word === 'system')
    .map((statement) => kept.origin(file, statement));
}

function onlySystem(builder: Builder, file: SaidInFile): Origin | undefined {
  const [first, ...more] = systemsIn(builder, file);
  if (first === undefined) return undefined;
  for (const origin of more)
    builder.problems.push(
      problem('second-system', headPlace(origin), 'This spec has a system statement already: put all it says in one.', {
        related: [{ message: 'The first one stands here', place: headPlace(first) }],
      }),
    );
  return first;
}

/** A file with a system is a whole spec, and cannot be a piece of another. */
function foreignSystem(builder: Builder, file: SaidInFile): void {
  const place = builder.read.broughtBy.get(file.uri);
  const [first] = systemsIn(builder, file);
  if (first === undefined || place === undefined) return;
  const name = fileName(file.uri);
  builder.problems.push(
    problem(
      'second-system',
      place,
      `${name} has a system statement, so it is a whole spec of its own: use only files of stock and parts, or take its system out.`,
      {
        figures: { file: name },
        related: [{ message: 'Its system stands here', place: headPlace(first) }],
      },
    ),
  );
}
