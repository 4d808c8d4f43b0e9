/** The language server in a web worker of the browser: it has no disk, so the client reads files for it and shows the pages. */
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { startServer } from './session/server.ts';
import { Stages } from './session/stages.ts';

/** What a worker has of `DedicatedWorkerGlobalScope`, whose types would hide those of Node. */
const scope = globalThis as unknown as ConstructorParameters<typeof BrowserMessageReader>[0];

const [reader, writer] = [new BrowserMessageReader(scope), new BrowserMessageWriter(scope)];

startServer(createConnection(reader, writer, { messageStrategy: new Stages() }), {
  pageUri: () => undefined,
});
