/** Analyses of open documents: each worked out once for the texts it was made from, and again only when one of them changed. */
import { LineIndex } from '../../grammar/lines.ts';
import {
  type Analysis,
  AnalysisCache,
  analyse,
  type FileSource,
  readStatements,
  type SeveritySettings,
  usualSeverities,
  withSettings,
} from '../analysis.ts';
import type { ReadSpec } from '../editor/workspace-symbols.ts';
import { readFiles } from '../model/files.ts';
import type { Files } from './files.ts';
import { pause } from './guard.ts';
import { resolveUse } from './uris.ts';
import { type AnalysisSteps, Working } from './working.ts';

export type Analyse = (uri: string, source: FileSource, cache: AnalysisCache) => AnalysisSteps;

export interface Kept {
  readonly analysis: Analysis;
  /** Revision of every file it read, those that were missing included. */
  readonly read: ReadonlyMap<string, number>;
  /** Revision of the settings it was made with. */
  readonly settings: number;
  /** Whether another kept spec used it: a piece of a spec is checked for its language alone. */
  readonly used: boolean;
  /** Names this very analysis, for clients that ask whether anything is new. */
  readonly id: string;
}

/** The settings of a file, and a number that tells whether they are still the same. */
export interface SettingsSource {
  readonly revision: number;
  of(uri: string): Promise<SeveritySettings>;
}

const usualSettings: SettingsSource = { revision: 0, of: async () => usualSeverities };

/** Files that use each other in new ways at every reading end here, never in a loop. */
const mostRounds = 64;

export class Analyses {
  private readonly kept = new Map<string, Kept>();
  private readonly running = new Map<string, Working<Kept>>();
  private readonly milliseconds = new Map<string, number>();
  /** One for all: a file that several specs use is parsed once. */
  private readonly cache = new AnalysisCache();
  private made = 0;

  constructor(
    private readonly files: Files,
    private readonly analyse: Analyse,
    /** Told of a kept file that others began or ceased to use: its own findings are others now. */
    private readonly usersChanged: (uri: string) => void = () => {},
    private readonly settings: SettingsSource = usualSettings,
  ) {}

  /** The analysis of a file as its texts are now. */
  async of(uri: string): Promise<Analysis> {
    return (await this.current(uri)).analysis;
  }

  async current(uri: string): Promise<Kept> {
    for (;;) {
      const made = await this.currentUnlessEdited(uri);
      // After an edit the loop works it out anew, for the newest text.
      if (made !== undefined) return made;
    }
  }

  /** The same, and undefined when an edit comes before all is worked out. */
  async currentUnlessEdited(uri: string): Promise<Kept | undefined> {
    const made = this.keptNow(uri) ?? (await this.working(uri).whole);
    return made !== undefined && this.holds(uri, made) ? made : undefined;
  }

  /** The same as soon as the names are known, for what needs no electrics. */
  async named(uri: string): Promise<Analysis> {
    for (;;) {
      const kept = this.keptNow(uri);
      if (kept !== undefined) return kept.analysis;
      const working = this.working(uri);
      const known = await working.named;
      if (known !== undefined && working.isNewest()) return known;
    }
  }

  /** The same of a file that may well be closed: nobody waits for its electrics, so they are not worked out. In one go: it is kept by nobody. */
  async onlyNamed(uri: string): Promise<Analysis> {
    if (this.files.isOpen(uri) || this.running.has(uri)) return this.named(uri);
    await this.loadUsed(uri);
    const steps = this.analyse(uri, this.source(new Map(), undefined), this.cache);
    for (;;) {
      const step = steps.next();
      if (step.done !== true && step.value === undefined) continue;
      if (step.done !== true) steps.return?.();
      return step.value as Analysis;
    }
  }

  /** The whole analysis if it comes within so many milliseconds after the names, else as much as is known by then. */
  async soonest(uri: string, patience: number): Promise<Analysis> {
    const named = await this.named(uri);
    if (named.isWorkedOut) return named;
    return Promise.race([this.of(uri), pause(patience).then(() => this.named(uri))]);
  }

  /** How long the last working out of a file took, in milliseconds; 0 where there was none. */
  cost(uri: string): number {
    return this.milliseconds.get(uri) ?? 0;
  }

  /** Whether somebody waits for what is being worked out. */
  isWorking(): boolean {
    return this.running.size > 0;
  }

  /** A file as its text is now, read and not worked out; undefined where there is none. */
  async read(uri: string): Promise<ReadSpec | undefined> {
    if (this.files.now(uri) === undefined) await this.files.load(uri);
    const now = this.files.now(uri);
    if (now === undefined || 'missing' in now) return undefined;
    return { uri, tree: readStatements(uri, now.text, this.cache), lines: new LineIndex(now.text) };
  }

  /** Addresses of a spec and of all that it uses, as their texts are now: read and not worked out. */
  async filesOf(uri: string): Promise<string[]> {
    await this.loadUsed(uri);
    return readFiles(uri, this.source(new Map(), undefined), this.cache.parseCache).files.map((file) => file.uri);
  }

  /** The last that was worked out, whatever its text is now. */
  before(uri: string): Analysis | undefined {
    return this.kept.get(uri)?.analysis;
  }

  /** Reads a file as if it had another text, and all it uses as they are; nothing of that is kept. */
  async again(uri: string): Promise<(text: string) => Analysis> {
    const settings = await this.settings.of(uri);
    return (text) => {
      const source = this.source(new Map(), undefined);
      const other: FileSource = { ...source, read: (file) => (file === uri ? { text } : source.read(file)) };
      return withSettings(analyse(uri, other), settings);
    };
  }

  /** Those of `candidates` whose last analysis read `uri`. */
  dependants(uri: string, candidates: Iterable<string>): string[] {
    return [...candidates].filter((candidate) => candidate !== uri && this.kept.get(candidate)?.read.has(uri) === true);
  }

  forget(uri: string): void {
    const gone = this.kept.get(uri);
    this.kept.delete(uri);
    this.milliseconds.delete(uri);
    for (const file of gone?.read.keys() ?? []) {
      this.recheck(file);
      if (!this.kept.has(file) && !this.isUsed(file)) this.cache.forget(file);
    }
  }

  private holds(uri: string, { read, settings, used }: Pick<Kept, 'read' | 'settings' | 'used'>): boolean {
    if (settings !== this.settings.revision) return false;
    for (const [file, revision] of read) if (this.files.revision(file) !== revision) return false;
    return used === this.isUsed(uri);
  }

  private isUsed(uri: string): boolean {
    for (const [user, { read }] of this.kept) if (user !== uri && read.has(uri)) return true;
    return false;
  }

  private recheck(uri: string): void {
    const kept = this.kept.get(uri);
    if (kept !== undefined && kept.used !== this.isUsed(uri)) this.usersChanged(uri);
  }

  private keptNow(uri: string): Kept | undefined {
    const kept = this.kept.get(uri);
    return kept !== undefined && this.holds(uri, kept) ? kept : undefined;
  }

  /** The working out of the newest text: one that goes on already, or a new one in place of one that is overtaken. */
  private working(uri: string): Working<Kept> {
    const running = this.running.get(uri);
    if (running?.isNewest() === true) return running;
    const started = this.start(uri);
    this.running.set(uri, started);
    const ended = () => {
      if (this.running.get(uri) === started) this.running.delete(uri);
    };
    started.whole.then(ended, ended);
    return started;
  }

  private start(uri: string): Working<Kept> {
    const { revision } = this.settings;
    const read = new Map([[uri, this.files.revision(uri)]]);
    let severities = usualSeverities;
    let used = this.isUsed(uri);
    const working = new Working<Kept>(
      async () => {
        severities = await this.settings.of(uri);
        await this.loadUsed(uri);
        used = this.isUsed(uri);
        return this.analyse(uri, this.source(read, undefined), this.cache);
      },
      () => this.holds(uri, { read, settings: revision, used }),
      (analysis) => {
        this.made += 1;
        const id = String(this.made);
        const kept = { analysis: withSettings(analysis, severities), read, settings: revision, used, id };
        this.keep(uri, kept, working.milliseconds);
        return kept;
      },
    );
    return working;
  }

  /** What was closed while it was worked out, or was never open, is answered and not kept. */
  private keep(uri: string, kept: Kept, milliseconds: number): void {
    if (!this.files.isOpen(uri)) return;
    const before = this.kept.get(uri)?.read;
    this.kept.set(uri, kept);
    this.milliseconds.set(uri, milliseconds);
    for (const file of new Set([...(before?.keys() ?? []), ...kept.read.keys()])) if (file !== uri) this.recheck(file);
  }

  /** Reads every file that the spec uses, and those that these use. */
  private async loadUsed(uri: string): Promise<void> {
    for (let round = 0; round < mostRounds; round += 1) {
      const unread = new Set<string>();
      readFiles(uri, this.source(new Map(), unread), this.cache.parseCache);
      if (unread.size === 0) return;
      await Promise.all([...unread].map((file) => this.files.load(file)));
    }
  }

  private source(read: Map<string, number>, unread: Set<string> | undefined): FileSource {
    return {
      read: (uri) => {
        read.set(uri, this.files.revision(uri));
        const known = this.files.now(uri);
        if (known === undefined) unread?.add(uri);
        return known ?? { missing: 'it has not been read yet' };
      },
      resolve: resolveUse,
      isUsed: (uri) => this.isUsed(uri),
    };
  }
}
