/** One server measured on one document by `lspbench.mjs`, a program of its own, so that the server's work and its waits do not mix. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { Server } from './peers.ts';
import type { Edited } from './specs.ts';

/** Times in milliseconds; undefined where the server does not answer such a request. */
export interface Times {
  readonly n: number;
  readonly p50?: number;
  readonly p95?: number;
}

/** What `lspbench.mjs` tells, as far as it is read here. */
export interface Measures {
  readonly edit: Times & {
    readonly verified: boolean;
    readonly cpuPerEditMs: number;
    readonly cold: readonly number[];
  };
  /** Edits to texts that never were before. */
  readonly fresh?: Times;
  readonly burst?: Times;
  readonly hover?: Times;
  readonly completion?: Times;
  readonly completionAfterEdit?: Times;
  readonly documentSymbol?: Times;
  readonly formatting?: Times;
  readonly spawnToFirstDiagMs: number;
  readonly rssPeakMB: number;
  readonly othersCpuPercent?: number;
}

export interface Effort {
  /** Edits that are counted. */
  readonly edits: number;
  /** Phases left out, as `lspbench.mjs` names them. */
  readonly skip?: readonly string[];
}

const folder = resolve('out/bench-editor');

/** Throws, with what the server said, when an edit was not answered truly. */
export function measured(name: string, server: Server, { text, edits }: Edited, effort: Effort): Measures {
  const place = join(folder, name);
  mkdirSync(place, { recursive: true });
  const file = join(place, `measured.${server.ending}`);
  const told = join(place, 'told.json');
  writeFileSync(file, text);
  writeFileSync(join(place, 'edits.json'), JSON.stringify(edits));
  writeFileSync(join(place, 'settings.json'), JSON.stringify(server.settings ?? {}));
  writeFileSync(join(place, 'stock.amps'), readFileSync('samples/stock.amps'));
  const [program = '', ...rest] = server.command;
  const options: Readonly<Record<string, string>> = {
    file,
    lang: server.language,
    edits: join(place, 'edits.json'),
    name: server.name,
    diag: server.findings,
    n: String(effort.edits),
    min: String(effort.edits),
    json: told,
    ...(server.settings === undefined ? {} : { settings: join(place, 'settings.json') }),
    ...(effort.skip === undefined ? {} : { skip: effort.skip.join(',') }),
  };
  const { status, stderr } = spawnSync(
    process.execPath,
    [
      'tests/bench/editor/lspbench.mjs',
      ...Object.entries(options).flatMap(([option, value]) => [`--${option}`, value]),
      '--',
      process.execPath,
      ...(server.engine ?? []),
      resolve(program),
      ...rest,
    ],
    { encoding: 'utf8', env: { ...process.env, ...server.environment } },
  );
  if (status !== 0) throw new Error(`${server.name}: ${stderr}`);
  const measures = JSON.parse(readFileSync(told, 'utf8')) as Measures;
  if (!measures.edit.verified) throw new Error(`${server.name} did not answer every edit truly: ${stderr}`);
  return measures;
}
