/** Entry of the extension in a browser: the server is a web worker. */
import { type ExtensionContext, Uri } from 'vscode';
import {
  type BaseLanguageClient,
  BrowserMessageReader,
  BrowserMessageWriter,
  LanguageClient,
} from 'vscode-languageclient/browser';
import type { DraftTask } from '../server/session/drafting.ts';
import { draftRequest } from '../server/session/picture-protocol.ts';
import { RemoteRoom, type RoomReply, type RoomSetting } from '../server/session/remote-room.ts';
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
  // Layout would keep the server's own worker from answering, and a worker of a worker is not to be had everywhere.
  const room = new RemoteRoom(({ replied, ended }) => {
    const files = `${Uri.joinPath(context.extensionUri, 'dist').toString(true)}/`;
    const drawing = new Worker(`${files}drawing.worker.js`);
    const setting: RoomSetting = { files };
    drawing.postMessage(setting);
    drawing.onmessage = ({ data }: { readonly data: RoomReply }) => replied(data);
    drawing.onerror = ({ message }) => ended(message);
    return { post: (message) => drawing.postMessage(message), end: () => drawing.terminate() };
  });
  context.subscriptions.push({ dispose: () => room.end() });
  client = await start(context, (id, name, options) => {
    const made = new LanguageClient(id, name, server, options);
    made.onRequest(draftRequest, (task: DraftTask) => room.run(task));
    return made;
  });
}

export function deactivate(): Promise<void> | undefined {
  return client?.dispose();
}
