/** The `ampscribe` command connected to the process, and nothing else. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { version } from '../../package.json';
import { drawingTools } from './drawing-tools.ts';
import { revisionOf } from './revision.ts';
import { run } from './run.ts';

// A reader that stops early (`ampscribe check … | head`) is no fault of ours.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

run(process.argv.slice(2), {
  here: process.cwd(),
  colours: process.stdout.isTTY === true && process.env.NO_COLOR === undefined && process.env.TERM !== 'dumb',
  out: (text) => process.stdout.write(text),
  err: (text) => process.stderr.write(text),
  standardInput: async () => {
    const chunks: Buffer[] = [];
    for await (const chunk of process.stdin) chunks.push(chunk as Buffer);
    return Buffer.concat(chunks);
  },
  // Asked for in other words than usual; see `main.ts`.
  serve: () => {
    require(join(__dirname, 'server.node.js'));
  },
  version,
  now: () => new Date(),
  revision: revisionOf,
  // The layout engine and what makes PNG and PDF stand beside this bundle, and no other command waits for them.
  drawing: () =>
    drawingTools(
      async () => require(join(__dirname, 'paper.js')),
      (file) => readFile(join(__dirname, file)),
    ),
}).then((code) => {
  if (code !== undefined) process.exitCode = code;
});
