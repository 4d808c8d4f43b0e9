/** How serious each finding is told to be, where settings say otherwise than its rule: by rule, and by rule in some files. */
import { allRules } from './all.ts';
import type { Finding, Severity } from './rule.ts';

export type Level = Severity | 'off';

export const levels: readonly Level[] = ['off', 'advice', 'warning', 'error'];

/** Levels by slug. */
export type Levels = Readonly<Record<string, Level>>;

export interface SeveritySettings {
  readonly everywhere: Levels;
  /** In files that a pattern fits, over the others; the last that fits counts. */
  readonly inFiles: readonly { readonly fits: (uri: string) => boolean; readonly levels: Levels }[];
}

export const usualSeverities: SeveritySettings = { everywhere: {}, inFiles: [] };

/** That something could not be checked at all is never hidden, and never told as less than it is. */
const alwaysTold: ReadonlySet<string> = new Set(['rule-failed', 'answers-failed']);

const own: ReadonlyMap<string, Severity> = new Map(allRules.map(({ slug, severity }) => [slug, severity]));

export function isLevel(value: unknown): value is Level {
  return levels.some((level) => level === value);
}

/** Reads `{ severity, severityByFile }` as people write it in settings; what is no level or no finding is passed over. */
export function readSeverities(settings: unknown): SeveritySettings {
  const { severity, severityByFile } = record(settings);
  return {
    everywhere: levelsIn(severity),
    inFiles: Object.entries(record(severityByFile)).map(([pattern, value]) => ({
      fits: fitting(pattern),
      levels: levelsIn(value),
    })),
  };
}

function levelsIn(value: unknown): Levels {
  const stated = Object.entries(record(value)).flatMap(([slug, level]) =>
    isLevel(level) && own.has(slug) ? [[slug, level] as const] : [],
  );
  return Object.fromEntries(stated);
}

function record(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null ? { ...value } : {};
}

/** `*` is any letters within a name, `**` any folders too, `?` one letter; a pattern fits the end of a file's path. */
function fitting(pattern: string): (uri: string) => boolean {
  const source = pattern
    .replace(/^\/+/, '')
    .replaceAll(/\*\*\/?|[*?]|[^*?]+/g, (piece) =>
      piece === '**/'
        ? '(?:.*/)?'
        : piece === '**'
          ? '.*'
          : piece === '*'
            ? '[^/]*'
            : piece === '?'
              ? '[^/]'
              : piece.replaceAll(/[\\^$.*+?()[\]{}|/]/g, '\\$&'),
    );
  const whole = new RegExp(`(?:^|/)${source}$`, 'u');
  return (uri) => {
    try {
      return whole.test(decodeURIComponent(uri));
    } catch {
      return whole.test(uri);
    }
  };
}

/** The levels that hold in a file. */
export function levelsFor({ everywhere, inFiles }: SeveritySettings, uri: string): Levels {
  return Object.assign({}, everywhere, ...inFiles.flatMap(({ fits, levels: here }) => (fits(uri) ? [here] : [])));
}

const rank: Readonly<Record<Level, number>> = { off: 0, advice: 1, warning: 2, error: 3 };

/**
 * Findings with the severities that are asked for. What a rule itself tells as less than usual, because the circumstances are
 * mild, stays at most that.
 */
export function withLevels(findings: readonly Finding[], stated: Levels): readonly Finding[] {
  if (Object.keys(stated).length === 0) return findings;
  return findings.flatMap((finding) => {
    const level = alwaysTold.has(finding.slug) ? undefined : stated[finding.slug];
    if (level === undefined) return [finding];
    if (level === 'off') return [];
    const mild = rank[finding.severity] < rank[own.get(finding.slug) ?? finding.severity];
    return [mild && rank[finding.severity] < rank[level] ? finding : { ...finding, severity: level }];
  });
}
