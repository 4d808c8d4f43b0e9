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
 * The room of the young generation, in bytes, both halves, after each call in turn and much that stays for a while; and the settings that
 * code kept compiled would count for then.
 */
function settledAfter(...calls: readonly string[]): readonly { readonly young: number; readonly settings: number }[] {
  return run(
    `
const young = () => {
  // While it works V8 may let it take more than that for a moment.
  clearYoung();
  const space = getHeapSpaceStatistics().find(({ space_name }) => space_name === 'new_space')!;
  return 2 * (space.space_used_size + space.space_available_size);
};
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
  ) as { young: number; settings: number }[];
}

type Flags = Readonly<Record<string, number>>;

/** Those of some flags that stand otherwise after the calls: to be told what it was told already changes nothing. */
function otherAfter(calls: string, flags: Flags): readonly string[] {
  return run(`
const kept = Array.from({ length: 8 }, () => [] as object[]);
const fill = (count: number) => {
  for (let i = 0; i < count; i += 1) kept[i % 8]!.push({ i });
};
void asAtFirst;
${calls};
const changes = ([flag, value]: [string, number], more: number): boolean => {
  const before = cachedDataVersionTag();
  setFlagsFromString(\`--\${flag}=\${value + more}\`);
  return cachedDataVersionTag() !== before;
};
const flags = Object.entries<number>(${JSON.stringify(flags)});
const others = flags.filter((flag) => changes(flag, 0) || !changes(flag, 1));
console.log(JSON.stringify(others.map(([flag]) => flag)));
`) as readonly string[];
}

/** What a program that uses the settings prints, in a process of its own. */
function run(program: string): unknown {
  const script = join(folder, 'run.cjs');
  writeFileSync(
    join(folder, 'run.ts'),
    `
import { cachedDataVersionTag, getHeapSpaceStatistics, setFlagsFromString } from 'node:v8';
import { asAtFirst, clearYoung, findingsAreTold, readAtFirst } from ${JSON.stringify(resolve('server/session/engine-settings.ts'))};
${program}`,
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
  return JSON.parse(stdout);
}

const small = 3e6;
const most = 12e6;

describe('the young generation', () => {
  it('stays as small as it begins until findings are told, and then grows once', () => {
    const [before, then, later] = settledAfter(
      'asAtFirst()',
      'findingsAreTold(true, 150)',
      'findingsAreTold(false, 400)',
    );
    expect(before?.young).toBeLessThan(small);
    expect(then?.young).toBeGreaterThan(small);
    expect(then?.young).toBeLessThan(most);
    expect(later?.young).toBe(then?.young);
  });

  it('grows more where many runs hang together, whenever they come to do so', () => {
    const [, many] = settledAfter('asAtFirst()', 'findingsAreTold(true, 401)');
    const [few, later, fewAgain] = settledAfter(
      'findingsAreTold(true, 150)',
      'findingsAreTold(false, 2000)',
      'findingsAreTold(false, 150)',
    );
    expect(many?.young).toBeGreaterThan(2 * most);
    expect(few?.young).toBeLessThan(most);
    expect(later?.young).toBe(many?.young);
    expect(fewAgain?.young).toBe(many?.young);
  });

  it('is large while a long text is read, and not while a short one is', () => {
    const [short] = settledAfter('readAtFirst(10_000)');
    const [long] = settledAfter('readAtFirst(1_000_000)');
    expect(short?.young).toBeLessThan(small);
    expect(long?.young).toBeGreaterThan(small);
  });
});

describe('what is cleared away', () => {
  it('is all that is young and that nobody holds, and no setting is another after it', () => {
    const { before, after, held, settings } = run(`
const used = () => getHeapSpaceStatistics().find((space) => space.space_name === 'new_space')!.space_used_size;
const settings = cachedDataVersionTag();
clearYoung();
const held = Array.from({ length: 1000 }, (_, i) => ({ i }));
let garbage = 0;
while (used() < 600_000) garbage += [{ garbage }].length;
const before = used();
clearYoung();
const after = used();
console.log(JSON.stringify({ before, after, held: held.length, settings: cachedDataVersionTag() === settings && !('gc' in globalThis) }));
`) as { before: number; after: number; held: number; settings: boolean };
    expect(before).toBeGreaterThan(500_000);
    expect(after).toBeLessThan(before / 3);
    expect(held).toBe(1000);
    expect(settings).toBe(true);
  });
});

describe('code that is kept compiled', () => {
  it('counts for the settings of a start, which whoever keeps it must go back to', () => {
    const [start, read, told, again] = settledAfter(
      'undefined',
      'readAtFirst(1_000_000)',
      'findingsAreTold(true, 150)',
      'asAtFirst()',
    );
    expect(start?.settings).toBeGreaterThan(0);
    expect(read?.settings).not.toBe(start?.settings);
    expect(told?.settings).not.toBe(start?.settings);
    expect(again?.settings).toBe(start?.settings);
  });
});

describe('the engine is told', () => {
  const isOld = Number.parseInt(process.versions.v8, 10) < 12;
  const patience: Readonly<Record<'little' | 'usual', Flags>> = isOld
    ? { little: { 'ticks-before-optimization': 60 }, usual: { 'ticks-before-optimization': 3 } }
    : {
        little: { 'invocation-count-for-maglev': 2000, 'invocation-count-for-turbofan': 60_000 },
        usual: { 'invocation-count-for-maglev': 400, 'invocation-count-for-turbofan': 3000 },
      };
  const told = (young: number, growth: number, compiled: 'little' | 'usual') => ({
    'semi-space-growth-factor': young,
    'heap-growing-percent': growth,
    ...patience[compiled],
    'max-inlined-bytecode-size': 150,
    'max-inlined-bytecode-size-cumulative': 400,
  });

  it.each([
    ['at first to be small, and to compile little', '', told(1, 25, 'little')],
    ['the same again by whoever goes back to it', 'findingsAreTold(true, 150); asAtFirst()', told(1, 25, 'little')],
    ['nothing else for a short text', 'readAtFirst(10_000)', told(1, 25, 'little')],
    ['to let a long text have room', 'readAtFirst(1_000_000)', told(4, 100, 'little')],
    [
      'to compile as usual once findings are told, and to grow once',
      'findingsAreTold(true, 150)',
      told(4, 25, 'usual'),
    ],
    [
      'nothing about compiling by findings that are not the first',
      'findingsAreTold(false, 150)',
      told(4, 25, 'little'),
    ],
    ['to clear a large heap less often', 'fill(2_500_000); findingsAreTold(false, 150)', told(4, 100, 'little')],
    [
      'to clear more often again what was long and is not',
      'readAtFirst(1_000_000); findingsAreTold(true, 150)',
      told(4, 25, 'usual'),
    ],
  ])('%s', (_, calls, flags) => {
    expect(otherAfter(calls, flags)).toEqual([]);
  });
});
