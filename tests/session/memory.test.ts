/** What a server of its own takes while somebody works: a process that is there all day should not grow to twice what it needs. */
import { execFileSync, spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, it } from 'vitest';
import { createProtocolConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';

/** In megabytes; V8 left to itself takes 150 after as many edits. */
const most = 120;

it('after sixty edits of a van the server takes little more than it began with', async () => {
  const server = spawn(process.execPath, ['dist/cli.js', 'serve', '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
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
  for (let version = 2; version <= 60; version += 1) {
    const edited = text.replace('2.1 m', `${version % 2 === 0 ? 21 : 2.1} m`);
    const changed = { textDocument: { ...textDocument, version }, contentChanges: [{ text: edited }] };
    await connection.sendNotification('textDocument/didChange', changed);
    await connection.sendRequest('textDocument/diagnostic', { textDocument });
  }
  const taken = Number(execFileSync('ps', ['-o', 'rss=', '-p', String(server.pid)], { encoding: 'utf8' })) / 1024;
  const ended = new Promise((done) => server.once('exit', done));
  await connection.sendRequest('shutdown');
  await connection.sendNotification('exit');
  await ended;
  expect(taken).toBeGreaterThan(30);
  expect(taken).toBeLessThan(most);
});
