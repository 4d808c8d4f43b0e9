/** Run while building: starts the server's bundle and keeps what was compiled for that, in a file that is not shipped. */
import '../session/small-heap.ts';
import { resolve } from 'node:path';
import { keep, loadQuickly } from './load-quickly.ts';

const file = resolve('dist/server.node.js');
const kept = resolve('out/server.node.compiled');
keep(file, loadQuickly(file, kept), kept);
process.exit(0);
