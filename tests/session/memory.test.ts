/** What a server of its own takes while somebody works: a process that is there all day should not grow to twice what it needs. */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { until } from './client.ts';
import { withTheVan } from './own-server.ts';

/** In megabytes; V8 left to itself takes 150 after as many edits. */
const most = 120;

const served = ['dist/cli.js', 'serve', '--stdio'];

const folder = mkdtempSync(join(tmpdir(), 'ampscribe-memory-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('after sixty edits of a van the server takes little more than it began with', async () => {
  const { server, edit, end } = await withTheVan(served);
  await edit(59);
  const taken = Number(execFileSync('ps', ['-o', 'rss=', '-p', String(server.pid)], { encoding: 'utf8' })) / 1024;
  await end();
  expect(taken).toBeGreaterThan(30);
  expect(taken).toBeLessThan(most);
});

it('between two edits the server clears away what the first left behind', async () => {
  const [watch, seen] = [join(folder, 'watch.cjs'), join(folder, 'cleared')];
  writeFileSync(
    watch,
    `const { PerformanceObserver, constants: is } = require('node:perf_hooks');
const asked = ({ detail: { kind, flags } }) => kind === is.NODE_PERFORMANCE_GC_MINOR && flags & is.NODE_PERFORMANCE_GC_FLAGS_FORCED;
new PerformanceObserver((list) => {
  for (const one of list.getEntries()) if (asked(one)) require('node:fs').appendFileSync(${JSON.stringify(seen)}, 'x');
}).observe({ entryTypes: ['gc'] });`,
  );
  const cleared = () => (existsSync(seen) ? readFileSync(seen, 'utf8').length : 0);
  const { edit, end } = await withTheVan(['--require', watch, ...served]);
  await edit(1);
  await until('it cleared', () => cleared() === 1);
  await edit(1);
  await until('it cleared again', () => cleared() === 2);
  await end();
});
