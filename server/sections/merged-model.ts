/** The model of a whole spec, put together of its sections' models. What nobody asks for is not put together. */

import { toldInOwnFile } from '../model/build.ts';
import { withoutConsequences } from '../model/consequences.ts';
import type { ReadFiles } from '../model/files.ts';
import { lazily } from '../model/lazily.ts';
import type { Model, Named, Origin, PlacedProblem } from '../model/model.ts';
import { joinedUnits } from '../model/units-written.ts';
import { joinedIndex } from '../model/use-index.ts';
import { JoinedMap } from './joined-map.ts';

/** `common` has what is said for the whole spec, and tells of it; the sections have all else. */
export function mergedModel(read: ReadFiles, common: Model, sections: readonly Model[]): Model {
  const files = new Map(read.files.map(({ uri }, index) => [uri, index]));
  const byPlace = (a: Origin, b: Origin) =>
    (files.get(a.file.uri) ?? 0) - (files.get(b.file.uri) ?? 0) || a.statement.offset - b.statement.offset;
  const flat = <T>(of: (model: Model) => readonly T[]) => sections.flatMap(of);
  const originated = <T extends { readonly origin: Origin }>(of: (model: Model) => readonly T[]) =>
    lazily(() => flat(of).sort((a, b) => byPlace(a.origin, b.origin)));
  const named = <T extends Named>(of: (model: Model) => ReadonlyMap<string, T>) =>
    lazily(
      () =>
        new JoinedMap(
          sections.map(of),
          () =>
            new Map(
              flat((model) => [...of(model).values()])
                .sort((a, b) => byPlace(a.origin, b.origin))
                .map((one) => [one.name, one]),
            ),
        ),
    );
  const parts = named(({ parts }) => parts);
  const runs = named(({ runs }) => runs);
  const expectations = originated(({ expectations }) => expectations);
  const readings = originated(({ readings }) => readings);
  const allowances = lazily(() => {
    const told = new Map(
      [common, ...sections].flatMap((model) => model.allowances).map((one) => [one.origin.statement, one]),
    );
    return [...told.values()].sort((a, b) => byPlace(a.origin, b.origin));
  });
  const bars = originated(({ bars }) => bars);
  const stocks = lazily(() => new Map([...common.stocks, ...flat(({ stocks }) => [...stocks])]));
  const terminals = lazily(
    () =>
      new JoinedMap(
        sections.map((model) => model.terminals),
        () => new Map([...parts().values()].flatMap((part) => part.terminals.map((one) => [one.id, one] as const))),
      ),
  );
  const uses = lazily(() => [common, ...sections].flatMap((model) => model.uses));
  const problems = lazily(() =>
    toldInOwnFile(
      read,
      withoutConsequences(read, runs, differing([common, ...sections].flatMap((model) => model.problems))),
    ),
  );
  return {
    ...joinedIndex([common, ...sections]),
    files: read.files,
    system: common.system,
    isLaid: sections.some(({ isLaid }) => isLaid),
    sizes: {
      stated: sections.reduce((sum, { sizes }) => sum + sizes.stated, 0),
      gauges: sections.reduce((sum, { sizes }) => sum + sizes.gauges, 0),
    },
    unitsWritten: lazily(() => joinedUnits([common, ...sections].map((model) => model.unitsWritten()))),
    locations: common.locations,
    cases: common.cases,
    get parts() {
      return parts();
    },
    get runs() {
      return runs();
    },
    get stocks() {
      return stocks();
    },
    get expectations() {
      return expectations();
    },
    get readings() {
      return readings();
    },
    get allowances() {
      return allowances();
    },
    get bars() {
      return bars();
    },
    get terminals() {
      return terminals();
    },
    get uses() {
      return uses();
    },
    get problems() {
      return problems();
    },
  };
}

/** What fails for the whole spec fails in each section, and is told once. */
function differing(problems: readonly PlacedProblem[]): PlacedProblem[] {
  const failed = problems.find(({ slug }) => slug === 'answers-failed');
  return problems.filter((one) => one.slug !== 'answers-failed' || one === failed);
}
