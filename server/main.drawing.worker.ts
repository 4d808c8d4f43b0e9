/** The drawing room as a web worker, which the client starts for a server that is itself one. */
import { drawingRoom, type PaperFiles, paperTools } from './session/drawing-room.ts';
import { type RoomMessage, type RoomSetting, serveRoom } from './session/remote-room.ts';

/** What a worker has of `DedicatedWorkerGlobalScope`, whose types would hide those of Node. */
const scope = globalThis as unknown as {
  onmessage: (event: { readonly data: RoomMessage | RoomSetting }) => void;
  postMessage(message: unknown): void;
  importScripts(address: string): void;
  readonly ampscribePaper: PaperFiles;
};

/** Folder of the bundles: the worker's own address may be one that the editor made for it. */
let files = '';

const paper = paperTools(
  () => {
    scope.importScripts(`${files}paper.js`);
    return scope.ampscribePaper;
  },
  async (file) => new Uint8Array(await (await fetch(files + file)).arrayBuffer()),
);

// Where there is no document, the layout library takes the worker for one of its own, and every message for its own too.
Object.defineProperty(globalThis, 'document', { value: {} });

const serve = serveRoom(drawingRoom(paper), (reply) => scope.postMessage(reply));
scope.onmessage = ({ data }) => {
  if ('files' in data) files = data.files;
  else serve(data);
};
