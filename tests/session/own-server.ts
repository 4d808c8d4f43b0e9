/** A server in a process of its own, over standard input and output. */
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { createProtocolConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';

/** Node told that much is a server with the van open; `edit` makes some edits, the next after the last, each answered: with so many findings the last. */
export async function withTheVan(command: readonly string[]) {
  const server = spawn(process.execPath, [...command], { stdio: ['pipe', 'pipe', 'inherit'] });
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
    let findings = 0;
    for (const last = version + times; version < last; ) {
      version += 1;
      const edited = text.replace('30 A, bolt-in', `${version % 2 === 0 ? 60 : 30} A, bolt-in`);
      const changed = { textDocument: { ...textDocument, version }, contentChanges: [{ text: edited }] };
      await connection.sendNotification('textDocument/didChange', changed);
      const { items } = await connection.sendRequest<{ items: readonly unknown[] }>('textDocument/diagnostic', {
        textDocument,
      });
      findings = items.length;
    }
    return findings;
  };
  const end = async () => {
    const ended = new Promise<number | null>((done) => server.once('exit', done));
    await connection.sendRequest('shutdown');
    await connection.sendNotification('exit');
    return await ended;
  };
  return { server, edit, end };
}
