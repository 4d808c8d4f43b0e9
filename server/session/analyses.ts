/** Analyses of open documents: each worked out once for the texts it was made from, and again only when one of them changed. */
import { LineIndex } from '../../grammar/lines.ts';
import {
  type Analysis,
  AnalysisCache,
  type FileSource,
  readStatements,
  type SeveritySettings,
  usualSeverities,
  withSettings,
} from '../analysis.ts';
import type { ReadSpec } from '../editor/workspace-symbols.ts';
import { readFiles } from '../model/files.ts';
import type { Files } from './files.ts';
import { breathe } from './guard.ts';
import { resolveUse } from './uris.ts';

export type Analyse = (uri: string, source: FileSource, cache: AnalysisCache) => Analysis;

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
  private readonly running = new Map<string, Promise<Kept>>();
  /** One for all: a file that several specs use is parsed once. */
  private readonly cache = new AnalysisCache();
  private made = 0;
  /** How long the last one took, in milliseconds. */
  lastMilliseconds = 0;

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
      const kept = this.kept.get(uri);
      if (kept !== undefined && this.holds(uri, kept)) return kept;
      let task = this.running.get(uri);
      if (task === undefined) {
        task = this.workOut(uri).finally(() => this.running.delete(uri));
        this.running.set(uri, task);
      }
      // An edit may have come in the meantime: then the loop works it out anew, for the newest text.
      const made = await task;
      if (this.holds(uri, made)) return made;
    }
  }

  /** A file as its text is now, read and not worked out; undefined where there is none. */
  async read(uri: string): Promise<ReadSpec | undefined> {
    if (this.files.now(uri) === undefined) await this.files.load(uri);
    const now = this.files.now(uri);
    if (now === undefined || 'missing' in now) return undefined;
    return { uri, tree: readStatements(uri, now.text, this.cache), lines: new LineIndex(now.text) };
  }

  /** Reads a file as if it had another text, and all it uses as they are; nothing of that is kept. */
  async again(uri: string): Promise<(text: string) => Analysis> {
    const settings = await this.settings.of(uri);
    return (text) => {
      const source = this.source(new Map(), undefined);
      const other: FileSource = { ...source, read: (file) => (file === uri ? { text } : source.read(file)) };
      return withSettings(this.analyse(uri, other, new AnalysisCache()), settings);
    };
  }

  /** Those of `candidates` whose last analysis read `uri`. */
  dependants(uri: string, candidates: Iterable<string>): string[] {
    return [...candidates].filter((candidate) => candidate !== uri && this.kept.get(candidate)?.read.has(uri) === true);
  }

  forget(uri: string): void {
    const gone = this.kept.get(uri);
    this.kept.delete(uri);
    for (const file of gone?.read.keys() ?? []) {
      this.recheck(file);
      if (!this.kept.has(file) && !this.isUsed(file)) this.cache.forget(file);
    }
  }

  private holds(uri: string, { read, settings, used }: Kept): boolean {
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

  private async workOut(uri: string): Promise<Kept> {
    // Whatever waits in the queue, a newer edit above all, is let in before the work begins.
    await breathe();
    const { revision } = this.settings;
    const settings = await this.settings.of(uri);
    await this.loadUsed(uri);
    const read = new Map<string, number>();
    const used = this.isUsed(uri);
    const began = performance.now();
    const analysis = withSettings(this.analyse(uri, this.source(read, undefined), this.cache), settings);
    this.lastMilliseconds = performance.now() - began;
    this.made += 1;
    const kept = { analysis, read, settings: revision, used, id: String(this.made) };
    // What was closed while it was worked out, or was never open, is answered and not kept.
    if (!this.files.isOpen(uri)) return kept;
    const before = this.kept.get(uri)?.read;
    this.kept.set(uri, kept);
    for (const file of new Set([...(before?.keys() ?? []), ...read.keys()])) if (file !== uri) this.recheck(file);
    return kept;
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
