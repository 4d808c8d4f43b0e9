/** What the engine is told, in a process of its own: how the young generation grows, and what code kept compiled counts for. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { buildSync } from 'esbuild';
import { afterAll, describe, expect, it } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'ampscribe-engine-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/**
 * The size of the young generation, in bytes, after each call in turn and much that stays for a while; and the settings that
 * code kept compiled would count for then.
 */
function settledAfter(...calls: readonly string[]): readonly { readonly young: number; readonly settings: number }[] {
  const script = join(folder, 'run.cjs');
  writeFileSync(
    join(folder, 'run.ts'),
    `
import { cachedDataVersionTag, getHeapSpaceStatistics } from 'node:v8';
import { asAtFirst, findingsAreTold, readAtFirst } from ${JSON.stringify(resolve('server/session/engine-settings.ts'))};
const young = () => getHeapSpaceStatistics().find((space) => space.space_name === 'new_space')!.space_size;
const turn = () => new Promise((done) => setImmediate(done));
async function work() {
  let kept: object[] = [];
  for (let round = 0; round < 60; round += 1) {
    for (let i = 0; i < 20_000; i += 1) kept.push({ round, i });
    if (round % 6 === 5) kept = [];
    await turn();
  }
}
const calls: (() => void)[] = [${calls.map((call) => `() => ${call}`).join(', ')}];
const told: object[] = [];
(async () => {
  for (const call of calls) {
    call();
    await work();
    told.push({ young: young(), settings: cachedDataVersionTag() });
  }
  console.log(JSON.stringify(told));
})();
`,
  );
  buildSync({
    entryPoints: [join(folder, 'run.ts')],
    bundle: true,
    platform: 'node',
    format: 'cjs',
    outfile: script,
    logLevel: 'error',
  });
  const { stdout, stderr } = spawnSync(process.execPath, [script], { encoding: 'utf8' });
  expect(stderr).toBe('');
  return JSON.parse(stdout) as { young: number; settings: number }[];
}

const small = 3e6;
const most = 12e6;

describe('the young generation', () => {
  it('stays as small as it begins until findings are told, and then grows once', () => {
    const [before, then, later] = settledAfter('asAtFirst()', 'findingsAreTold(true)', 'findingsAreTold(false)');
    expect(before?.young).toBeLessThan(small);
    expect(then?.young).toBeGreaterThan(small);
    expect(then?.young).toBeLessThan(most);
    expect(later?.young).toBe(then?.young);
  });

  it('is large while a long text is read, and not while a short one is', () => {
    const [short] = settledAfter('readAtFirst(10_000)');
    const [long] = settledAfter('readAtFirst(1_000_000)');
    expect(short?.young).toBeLessThan(small);
    expect(long?.young).toBeGreaterThan(small);
  });
});

describe('code that is kept compiled', () => {
  it('counts for the settings of a start, which whoever keeps it must go back to', () => {
    const [start, read, told, again] = settledAfter(
      'undefined',
      'readAtFirst(1_000_000)',
      'findingsAreTold(true)',
      'asAtFirst()',
    );
    expect(start?.settings).toBeGreaterThan(0);
    expect(read?.settings).not.toBe(start?.settings);
    expect(told?.settings).not.toBe(start?.settings);
    expect(again?.settings).toBe(start?.settings);
  });
});
