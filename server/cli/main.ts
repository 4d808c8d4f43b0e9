#!/usr/bin/env node
/** Entry point of the `ampscribe` command. An editor that starts the server does not wait for the rest of the command. */
import { join } from 'node:path';

const args = process.argv.slice(2);
if (args.length === 2 && args[0] === 'serve' && args[1] === '--stdio') require(join(__dirname, 'server.node.js'));
else void import('./command.ts');
