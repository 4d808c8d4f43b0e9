/**
 * A spec worked out section by section. What hangs together is worked out by itself and kept with its statements: after an
 * edit only the sections are worked out again that have another statement than before, and only what must be asked of the
 * spec as a whole is asked again.
 */
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import type { Answers } from '../answers/answers.ts';
import { groupBy } from '../answers/grouping.ts';
import { workOutGuarded } from '../answers/guarded.ts';
import type { Beyond } from '../model/beyond.ts';
import { buildModel } from '../model/build.ts';
import { type Declaration, declarationBy, writtenIn } from '../model/declarations.ts';
import { isIncomplete, type ReadFiles, type ReadStatements } from '../model/files.ts';
import { KeptModel } from '../model/kept.ts';
import { lazily } from '../model/lazily.ts';
import type { Model, SpecFile } from '../model/model.ts';
import { buildNetwork } from '../model/network-build.ts';
import { statementAt } from '../model/place.ts';
import type { Steps } from '../model/steps.ts';
import { limitSets } from '../physics/limits/sets.ts';
import { type SolvedBefore, usualNumbers } from '../physics/solved-before.ts';
import type { Finding } from '../rules/rule.ts';
import { found } from '../rules/run.ts';
import { sectionRules, wholeRules } from '../rules/scopes.ts';
import { mergedAnswers } from './merged-answers.ts';
import { mergedModel } from './merged-model.ts';
import { type Packing, Parting, type Partition } from './partition.ts';
import { Profiles } from './profile.ts';
import { type BuiltSection, type Ground, type Section, sameGround, sameStatements } from './section.ts';
import { Unchanged } from './unchanged.ts';

/** Shorter specs are worked out whole, which costs less than parting them. */
export const usualPacking: Packing = { least: 300, small: 30, most: 300 };

/** What is kept of what was worked out before, beside the sections as they are: how much of it at most. */
export interface Keeping {
  /** Numbers of circuits that were solved, and their answers. */
  readonly numbers: number;
  /** Wordings of a spec that is worked out whole. */
  readonly wordings: number;
}

export const usualKeeping: Keeping = { numbers: usualNumbers, wordings: 8 };

/** Names that were written once and are no more are let go of beyond this many. */
const mostNames = 200_000;

/** So many sections are kept as they were before they were edited: as many undos in a row; one takes some 0.7 MB. */
const mostEarlier = 16;

/** What was worked out, and what was found to be as before. */
export interface SectionCounts {
  readonly built: number;
  readonly workedOut: number;
  readonly kept: number;
}

/** The sections of one spec as they were last. */
export class Sections {
  /** For every piece that is built, and for the spec where it is built as a whole. */
  readonly kept = new KeptModel();
  readonly unchanged: Unchanged;
  private profiles = new Profiles();
  private parting: Parting;
  private last: readonly (BuiltSection | Section)[] = [];
  /** Sections as they were before, for an undo or a value that is put back: what was edited last comes first. */
  private earlier: readonly Section[] = [];
  private lastCommon:
    | { readonly built: BuiltSection; readonly named: readonly (ShapedPlaced | undefined)[] }
    | undefined;
  private counts = { built: 0, workedOut: 0, kept: 0 };

  /** So many wordings are kept of a spec that is worked out whole. */
  constructor(
    private readonly packing: Packing = usualPacking,
    wordings = usualKeeping.wordings,
  ) {
    this.unchanged = new Unchanged(wordings);
    this.parting = new Parting(this.profiles, packing);
  }

  get counted(): SectionCounts {
    return { ...this.counts };
  }

  /** Undefined where the spec is one section, and is worked out whole. */
  partition(read: ReadFiles): Partition | undefined {
    const statements = ([] as ShapedPlaced[]).concat(...read.files.map((file) => file.statements));
    if (statements.length < this.packing.least) return undefined;
    if (this.profiles.size > mostNames) {
      this.profiles = new Profiles();
      this.parting = new Parting(this.profiles, this.packing);
    }
    const partition = this.parting.of(statements);
    return partition === undefined || partition.packs.length < 2 ? undefined : partition;
  }

  /** The models of all sections; undefined where something said for the whole is to be worked out from all of it. */
  *build(read: ReadFiles, partition: Partition, piece: boolean): Steps<BuiltSpec | undefined> {
    const view = new SpecView(read, partition, this.profiles);
    const isLaid = view.isLaid();
    const files = read.files.map(({ uri }) => uri).join('\n');
    const ground: Ground = { common: partition.common, files, piece, isLaid, isIncomplete: isIncomplete(read) };
    const common = this.buildCommon(read, ground, view);
    // Without a stated voltage that of the first battery of all would count.
    if (common.model.system.facts?.number('voltage') === undefined) return undefined;
    const before = groupBy([...this.last, ...this.earlier], firstOf);
    const sections: (BuiltSection | Section)[] = [];
    for (const { statements } of partition.packs) {
      const same = before
        .get(statements[0])
        ?.find((one) => !one.asksAll && sameStatements(one.statements, statements) && sameGround(one.ground, ground));
      if (same === undefined) yield;
      sections.push(same ?? this.buildSection(read, statements, ground, view));
    }
    this.lay(sections);
    return {
      read,
      common: common.model,
      sections,
      model: mergedModel(
        read,
        common.model,
        sections.map(({ model }) => model),
      ),
    };
  }

  /** From now on these are the sections; those that they take the place of are kept for a while. */
  private lay(sections: readonly (BuiltSection | Section)[]): void {
    const now = new Set(sections);
    const replaced = this.last.filter((one): one is Section => 'answers' in one && !one.asksAll);
    this.earlier = [...replaced, ...this.earlier].filter((one) => !now.has(one)).slice(0, mostEarlier);
    this.last = sections;
  }

  /** What is found in a spec that was built, section by section. */
  *workOut(built: BuiltSpec, before: SolvedBefore): Steps<WorkedOutSpec> {
    const { read, common, sections } = built;
    const { stated, gauges } = built.model.sizes;
    const mostlyGauges = gauges * 2 > stated;
    const done: Section[] = [];
    for (const section of sections) {
      if ('answers' in section && section.mostlyGauges === mostlyGauges) {
        this.counts.kept += 1;
        done.push(section);
        continue;
      }
      const worked = yield* this.workOutOne(section, mostlyGauges, before);
      this.last = this.last.map((one) => (one === section ? worked : one));
      done.push(worked);
    }
    const model = mergedModel(
      read,
      common,
      done.map((section) => section.model),
    );
    const answers = mergedAnswers(done as [Section, ...Section[]]);
    const whole = yield* found({ model, answers }, wholeRules);
    return { model, answers, pieces: done, found: [...whole, ...told(sections[0]?.ground.common ?? [], done)] };
  }

  private *workOutOne(section: BuiltSection, mostlyGauges: boolean, before: SolvedBefore): Steps<Section> {
    this.counts.workedOut += 1;
    const sizes = { stated: 1, gauges: mostlyGauges ? 1 : 0 };
    const built: Model = { ...section.model, sizes };
    const { model, answers } = yield* workOutGuarded(built, buildNetwork(built, this.kept), before);
    return {
      ...section,
      // Its own sizes count when the units of the whole are looked at.
      model: { ...model, sizes: section.model.sizes },
      mostlyGauges,
      answers,
      found: yield* found({ model, answers }, sectionRules),
    };
  }

  private buildCommon(read: ReadFiles, ground: Ground, view: SpecView): BuiltSection {
    const named = view.namedInCommon();
    const last = this.lastCommon;
    if (
      last !== undefined &&
      !last.built.asksAll &&
      sameGround(last.built.ground, ground) &&
      named.length === last.named.length &&
      named.every((one, i) => one === last.named[i]) &&
      read.problems.length === 0
    )
      return last.built;
    const built = this.buildOne(view.piece(read, []), [], ground, view, true);
    this.lastCommon = { built, named };
    return built;
  }

  private buildSection(
    read: ReadFiles,
    statements: readonly ShapedPlaced[],
    ground: Ground,
    view: SpecView,
  ): BuiltSection {
    return this.buildOne({ ...view.piece(read, statements), problems: [], uses: [] }, statements, ground, view, false);
  }

  private buildOne(
    read: ReadStatements,
    statements: readonly ShapedPlaced[],
    ground: Ground,
    view: SpecView,
    seesAll: boolean,
  ): BuiltSection {
    this.counts.built += 1;
    let asksAll = false;
    const asked = <T>(of: () => T) => {
      asksAll = true;
      return of();
    };
    const beyond: Beyond = {
      toldElsewhere: seesAll ? new Set() : view.common,
      isLaid: ground.isLaid,
      isIncomplete: ground.isIncomplete,
      seesAll,
      declared: (name) => view.declared(name),
      declarations: () => asked(() => view.declarations()),
      written: () => asked(() => view.written()),
    };
    const model = buildModel(read, { limitSets: [...limitSets.keys()], piece: ground.piece, beyond, kept: this.kept });
    return { statements, ground, model, asksAll };
  }
}

function firstOf({ statements }: BuiltSection): ShapedPlaced | undefined {
  return statements[0];
}

/** A spec whose sections are built. */
export interface BuiltSpec {
  readonly read: ReadFiles;
  readonly common: Model;
  readonly sections: readonly (BuiltSection | Section)[];
  readonly model: Model;
}

export interface WorkedOutSpec {
  readonly model: Model;
  readonly answers: Answers;
  readonly pieces: readonly Section[];
  readonly found: readonly Finding[];
}

/** What is found of a common statement by itself is found in every section, and told once. */
function told(common: readonly ShapedPlaced[], sections: readonly Section[]): Finding[] {
  const everywhere = new Set<ShapedPlaced | undefined>([undefined, ...common]);
  const seen = new Set<string>();
  return sections.flatMap(({ found }) =>
    found.filter(({ slug, subject, message, place }) => {
      if (!everywhere.has(statementAt(place))) return true;
      const key = `${slug} ${subject} ${place.uri} ${place.span.start} ${message}`;
      if (seen.has(key)) return false;
      seen.add(key);
      return true;
    }),
  );
}

/** Looks into the whole spec that sections may need. */
class SpecView {
  readonly common: ReadonlySet<ShapedPlaced>;
  private readonly fileOf: (statement: ShapedPlaced) => SpecFile;
  private readonly owners = lazily(() => new Map(this.partition.declared().map((one) => [one.name, one.statement])));
  readonly declarations = lazily(() =>
    this.partition.declared().flatMap(({ name, statement }) => this.declarationBy(name, statement) ?? []),
  );
  readonly written = lazily(() => writtenIn(this.read.files));

  constructor(
    private readonly read: ReadFiles,
    private readonly partition: Partition,
    private readonly profiles: Profiles,
  ) {
    this.common = new Set(partition.common);
    const [own, ...used] = read.files;
    const others = new Map(used.flatMap((file) => file.statements.map((statement) => [statement, file] as const)));
    this.fileOf = (statement) => others.get(statement) ?? (own as SpecFile);
  }

  isLaid(): boolean {
    return this.read.files.some(({ statements }) => statements.some((one) => this.profiles.of(one).isRun));
  }

  declared(name: string): Declaration | 'seemingly' | undefined {
    const statement = this.owners().get(name);
    return statement === undefined ? undefined : (this.declarationBy(name, statement) ?? 'seemingly');
  }

  /** The statements that declare what common statements mention, one for every name in their order. */
  namedInCommon(): (ShapedPlaced | undefined)[] {
    return this.partition.common.flatMap((statement) =>
      this.profiles.of(statement).mentions.map((name) => this.partition.owner(name)),
    );
  }

  /** The files with nothing but what is common and some statements more. */
  piece(read: ReadFiles, statements: readonly ShapedPlaced[]): ReadStatements {
    const here = new Map<SpecFile, ShapedPlaced[]>(read.files.map((file) => [file, []]));
    for (const statement of [...this.partition.common, ...statements])
      here.get(this.fileOf(statement))?.push(statement);
    return {
      ...read,
      files: read.files.map((file) => ({
        uri: file.uri,
        statements: (here.get(file) ?? []).sort((a, b) => a.offset - b.offset),
      })),
    };
  }

  private declarationBy(name: string, statement: ShapedPlaced): Declaration | undefined {
    return declarationBy({ file: this.fileOf(statement), statement }, name);
  }
}
