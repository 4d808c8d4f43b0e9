/** Over standard output go messages and nothing else, large ones whole, whatever a library has to say. */
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import {
  createProtocolConnection,
  type DocumentSymbol,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';

it('words for the console go to standard error, and an answer of thousands of symbols comes whole', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'ampscribe-loud-'));
  const loud = join(folder, 'loud.cjs');
  writeFileSync(
    loud,
    "setInterval(() => { for (const as of ['log', 'info', 'debug', 'warn', 'dir', 'table']) console[as]('loud by ' + as); }, 5);",
  );
  const server = spawn(process.execPath, ['--require', loud, 'dist/cli.js', 'serve', '--stdio']);
  const ended = new Promise<number | null>((done) => server.once('exit', done));
  let words = '';
  server.stderr.on('data', (data: Buffer) => {
    words += data.toString();
  });
  const errors: unknown[] = [];
  const connection = createProtocolConnection(
    new StreamMessageReader(server.stdout),
    new StreamMessageWriter(server.stdin),
  );
  connection.onError((error) => errors.push(error));
  connection.listen();
  const textDocument = { uri: 'file:///loud/loud.amps', languageId: 'ampscribe', version: 1 };
  const text = Array.from({ length: 4000 }, (_, n) => `load L${n} "Lamp Ω ${n}"  5 W\n`).join('');
  await connection.sendRequest('initialize', {
    processId: process.pid,
    rootUri: null,
    capabilities: { textDocument: { documentSymbol: { hierarchicalDocumentSymbolSupport: true } } },
  });
  await connection.sendNotification('initialized', {});
  words = '';
  await connection.sendNotification('textDocument/didOpen', { textDocument: { ...textDocument, text } });
  const outline = await connection.sendRequest<DocumentSymbol[]>('textDocument/documentSymbol', { textDocument });
  expect(outline.map(({ name }) => name)).toEqual(Array.from({ length: 4000 }, (_, n) => `L${n}`));
  for (const [n, { detail }] of outline.entries()) expect(detail).toContain(`Lamp Ω ${n}”`);
  for (const as of ['log', 'info', 'debug', 'warn', 'dir', 'table']) expect(words).toContain(`loud by ${as}`);
  await connection.sendRequest('shutdown');
  await connection.sendNotification('exit');
  expect(await ended).toBe(0);
  expect(errors).toEqual([]);
  rmSync(folder, { recursive: true, force: true });
}, 60_000);
