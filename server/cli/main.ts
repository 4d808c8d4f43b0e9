#!/usr/bin/env node
/** Entry point of the `ampscribe` command. An editor that starts the server does not wait for the rest of the command. */
import { join } from 'node:path';
import { loadQuickly } from './load-quickly.ts';

const args = process.argv.slice(2);
if (args.length === 2 && args[0] === 'serve' && args[1] === '--stdio')
  loadQuickly(join(__dirname, 'server.node.js'), join(__dirname, '..', 'out', 'server.node.compiled'));
else void import('./command.ts');
