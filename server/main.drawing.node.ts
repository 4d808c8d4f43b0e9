/** The drawing room as a thread of the server's process. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { parentPort } from 'node:worker_threads';
import { drawingRoom, paperTools } from './session/drawing-room.ts';
import { serveRoom } from './session/remote-room.ts';

const beside = (file: string) => join(__dirname, file);
const paper = paperTools(
  () => require(beside('paper.js')),
  (file) => readFile(beside(file)),
);

const port = parentPort;
if (port !== null)
  port.on(
    'message',
    serveRoom(drawingRoom(paper), (reply) => port.postMessage(reply)),
  );
