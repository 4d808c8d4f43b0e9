/** The drawing room as a thread of the server's process. */
import { parentPort } from 'node:worker_threads';
import { drawingRoom } from './session/drawing-room.ts';
import { serveRoom } from './session/remote-room.ts';

const port = parentPort;
if (port !== null)
  port.on(
    'message',
    serveRoom(drawingRoom(), (reply) => port.postMessage(reply)),
  );
