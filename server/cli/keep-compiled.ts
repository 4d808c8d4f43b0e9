/**
 * Run while building, as the server and as somebody at an editor: keeps what was compiled from the start to the first answers,
 * in a file that is not shipped.
 */
import '../session/engine-settings.ts';
import { resolve } from 'node:path';
import { asAtFirst } from '../session/engine-settings.ts';
import { keep, loadQuickly } from './load-quickly.ts';

const file = resolve('dist/server.node.js');
const kept = resolve('out/server.node.compiled');
const script = loadQuickly(file, kept);
process.on('exit', () => {
  // It counts for the settings that a server starts with.
  asAtFirst();
  keep(file, script, kept);
});
