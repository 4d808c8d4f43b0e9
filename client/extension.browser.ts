/** Entry of the extension in a browser: the server is a web worker. */
import { type ExtensionContext, Uri } from 'vscode';
import {
  type BaseLanguageClient,
  BrowserMessageReader,
  BrowserMessageWriter,
  LanguageClient,
} from 'vscode-languageclient/browser';
import { start } from './extension.ts';

let client: BaseLanguageClient | undefined;

export async function activate(context: ExtensionContext): Promise<void> {
  const address = Uri.joinPath(context.extensionUri, 'dist', 'server.worker.js').toString(true);
  // A function, so that a restart has a new worker. The host's workers are not instances of `Worker`, by which the library
  // would know one, so it is given both ends.
  const server = async () => {
    const worker = new Worker(address);
    return { reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) };
  };
  client = await start(context, (id, name, options) => new LanguageClient(id, name, server, options));
}

export function deactivate(): Promise<void> | undefined {
  return client?.dispose();
}
