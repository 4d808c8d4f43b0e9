#!/usr/bin/env node
/** Entry point of the `ampscribe` command. An editor that starts the server does not wait for the rest of the command. */
import { join } from 'node:path';
import { loadQuickly } from '../session/load-quickly.ts';

const args = process.argv.slice(2);
if (args.length === 2 && args[0] === 'serve' && args[1] === '--stdio') void serve();
else void import('./command.ts');

async function serve(): Promise<void> {
  // What was kept when building counts for the same settings of V8 only.
  await import('../session/engine-settings.ts');
  loadQuickly(join(__dirname, 'server.node.js'), join(__dirname, '..', 'out', 'server.node.compiled'));
}
