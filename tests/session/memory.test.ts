/** What a server of its own takes while somebody works: a process that is there all day should not grow to twice what it needs. */
import { execFileSync, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, expect, it } from 'vitest';
import { createProtocolConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';
import { until } from './client.ts';

/** In megabytes; V8 left to itself takes 150 after as many edits. */
const most = 120;

const folder = mkdtempSync(join(tmpdir(), 'ampscribe-memory-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A server of its own with the van open; `edit` makes some edits, the next after the last, each answered. */
async function withTheVan(...flags: readonly string[]) {
  const command = [...flags, 'dist/cli.js', 'serve', '--stdio'];
  const server = spawn(process.execPath, command, { stdio: ['pipe', 'pipe', 'inherit'] });
  const connection = createProtocolConnection(
    new StreamMessageReader(server.stdout),
    new StreamMessageWriter(server.stdin),
  );
  connection.listen();
  await connection.sendRequest('initialize', {
    processId: process.pid,
    rootUri: null,
    capabilities: { textDocument: { diagnostic: {} } },
  });
  await connection.sendNotification('initialized', {});
  const file = resolve('samples/spokewagon.amps');
  const textDocument = { uri: pathToFileURL(file).toString(), languageId: 'ampscribe' };
  const text = readFileSync(file, 'utf8');
  await connection.sendNotification('textDocument/didOpen', { textDocument: { ...textDocument, version: 1, text } });
  let version = 1;
  const edit = async (times: number) => {
    for (const last = version + times; version < last; ) {
      version += 1;
      const edited = text.replace('2.1 m', `${version % 2 === 0 ? 21 : 2.1} m`);
      const changed = { textDocument: { ...textDocument, version }, contentChanges: [{ text: edited }] };
      await connection.sendNotification('textDocument/didChange', changed);
      await connection.sendRequest('textDocument/diagnostic', { textDocument });
    }
  };
  const end = async () => {
    const ended = new Promise((done) => server.once('exit', done));
    await connection.sendRequest('shutdown');
    await connection.sendNotification('exit');
    await ended;
  };
  return { server, edit, end };
}

it('after sixty edits of a van the server takes little more than it began with', async () => {
  const { server, edit, end } = await withTheVan();
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
  const { edit, end } = await withTheVan('--require', watch);
  await edit(1);
  await until('it cleared', () => cleared() === 1);
  await edit(1);
  await until('it cleared again', () => cleared() === 2);
  await end();
});
