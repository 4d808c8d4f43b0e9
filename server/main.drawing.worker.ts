/** The drawing room as a web worker, which the client starts for a server that is itself one. */
import { drawingRoom } from './session/drawing-room.ts';
import { type RoomMessage, serveRoom } from './session/remote-room.ts';

/** What a worker has of `DedicatedWorkerGlobalScope`, whose types would hide those of Node. */
const scope = globalThis as unknown as {
  onmessage: (event: { readonly data: RoomMessage }) => void;
  postMessage(message: unknown): void;
};

// Where there is no document, the layout library takes the worker for one of its own, and every message for its own too.
Object.defineProperty(globalThis, 'document', { value: {} });

const serve = serveRoom(drawingRoom(), (reply) => scope.postMessage(reply));
scope.onmessage = ({ data }) => serve(data);
