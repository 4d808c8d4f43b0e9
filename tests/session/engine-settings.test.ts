/** What the engine is told, in a process of its own: how the young generation grows. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { buildSync } from 'esbuild';
import { afterAll, describe, expect, it } from 'vitest';

const folder = mkdtempSync(join(tmpdir(), 'ampscribe-engine-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Sizes of the young generation, in bytes, after each call in turn and much that stays for a while. */
function youngAfter(...calls: readonly string[]): readonly number[] {
  const script = join(folder, 'run.cjs');
  writeFileSync(
    join(folder, 'run.ts'),
    `
import { getHeapSpaceStatistics } from 'node:v8';
import { compileLittle, findingsAreTold, readAtFirst } from ${JSON.stringify(resolve('server/session/engine-settings.ts'))};
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
const sizes: number[] = [];
(async () => {
  for (const call of calls) {
    call();
    await work();
    sizes.push(young());
  }
  console.log(JSON.stringify(sizes));
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
  return JSON.parse(stdout) as number[];
}

const small = 3e6;
const most = 12e6;

describe('the young generation', () => {
  it('stays as small as it begins until findings are told, and then grows once', () => {
    const [before = 0, after = 0, later = 0] = youngAfter(
      'compileLittle()',
      'findingsAreTold(true)',
      'findingsAreTold(false)',
    );
    expect(before).toBeLessThan(small);
    expect(after).toBeGreaterThan(small);
    expect(after).toBeLessThan(most);
    expect(later).toBe(after);
  });

  it('is large while a long text is read, and not while a short one is', () => {
    const [short = 0] = youngAfter('readAtFirst(10_000)');
    const [long = 0] = youngAfter('readAtFirst(1_000_000)');
    expect(short).toBeLessThan(small);
    expect(long).toBeGreaterThan(small);
  });
});
