/** The language server as a process of its own, over standard input and output or the channel of the editor that starts it. */
import './session/engine-settings.ts';
import { Console } from 'node:console';
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { Worker } from 'node:worker_threads';
import { type Connection, createConnection, ProposedFeatures, StreamMessageWriter } from 'vscode-languageserver/node';
import { clearYoung, findingsAreTold, readAtFirst } from './session/engine-settings.ts';
import { decodeSpec, mostSpecs, whyMissing } from './session/protocol.ts';
import { RemoteRoom } from './session/remote-room.ts';
import { startServer } from './session/server.ts';
import { Stages } from './session/stages.ts';
import { reusingMemory } from './session/writing.ts';

startServer(connection(), {
  readFile: async (uri) => {
    if (!uri.startsWith('file:')) return undefined;
    try {
      return decodeSpec(await readFile(fileURLToPath(uri)));
    } catch (error) {
      return whyMissing(error);
    }
  },
  specsIn: async (folder) => (folder.startsWith('file:') ? specsBelow(fileURLToPath(folder)) : undefined),
  specsBeside: async (folder) =>
    folder.startsWith('file:') ? (await lookInto(fileURLToPath(folder))).specs : undefined,
  drawingRoom: new RemoteRoom(({ replied, ended }) => {
    const thread = new Worker(join(__dirname, 'drawing.node.js'));
    thread.on('message', replied);
    thread.on('error', ({ message }) => ended(message));
    // A server that is done need not wait for it.
    thread.unref();
    return { post: (message) => thread.postMessage(message), end: () => void thread.terminate() };
  }),
  textOpened: readAtFirst,
  findingsTold: findingsAreTold,
  clearYoung,
  pageUri: (slug) => pathToFileURL(join(__dirname, 'pages', `${slug}.md`)).toString(),
});

/** Over standard input and output as the library does it, but for how messages become bytes. */
function connection(): Connection {
  const options = { messageStrategy: new Stages() };
  if (!process.argv.includes('--stdio')) return createConnection(ProposedFeatures.all, options);
  // Whatever else is written there would be taken for a message.
  globalThis.console = new Console(process.stderr);
  const output = new StreamMessageWriter(process.stdout, { contentTypeEncoder: reusingMemory() });
  // The library ends the process when a stream of input ends, and takes a writer beside it, which its types do not say.
  return createConnection(ProposedFeatures.all, process.stdin, output as unknown as NodeJS.WritableStream, options);
}

async function specsBelow(root: string): Promise<readonly string[]> {
  const found: string[] = [];
  const folders = [root];
  for (let folder = folders.shift(); folder !== undefined && found.length < mostSpecs; folder = folders.shift()) {
    const { specs, below } = await lookInto(folder);
    found.push(...specs);
    folders.push(...below);
  }
  return found.slice(0, mostSpecs);
}

/** Specs in a folder, and the folders in it. One that may not be read has nothing for us. */
async function lookInto(folder: string): Promise<{ readonly specs: string[]; readonly below: string[] }> {
  const entries = await readdir(folder, { withFileTypes: true }).catch(() => []);
  const shown = entries.filter(({ name }) => !name.startsWith('.') && name !== 'node_modules');
  return {
    specs: shown
      .filter((entry) => entry.isFile() && entry.name.endsWith('.amps'))
      .map(({ name }) => pathToFileURL(join(folder, name)).toString()),
    below: shown.filter((entry) => entry.isDirectory()).map(({ name }) => join(folder, name)),
  };
}
