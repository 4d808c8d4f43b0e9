/** The editors under test, started as a person would start them and ended with the tests. */
import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { codeServer } from './install-code-server.ts';

export interface Served {
  readonly address: string;
  stop(): Promise<void>;
}

/** `npm start`, as the README says it. */
export async function serveWeb(): Promise<Served> {
  const port = await freePort();
  const child = spawn('npm', ['start'], {
    env: { ...process.env, PORT: String(port), BROWSER: 'none' },
    stdio: ['ignore', 'pipe', 'inherit'],
    detached: true,
  });
  const address = await said(child, /open at (http:\S+)/);
  return { address, stop: () => ended(child) };
}

/** The packaged extension in code-server, over a copy of the samples. */
export async function serveCodeServer({ trusted = true } = {}): Promise<Served & { readonly folder: string }> {
  const scratch = mkdtempSync(join(tmpdir(), 'ampscribe-host-'));
  const folder = join(scratch, 'spokewagon');
  cpSync('samples', folder, { recursive: true });
  // As a person's own spec: without the marks that tell what the sample finds.
  const asFound = join(folder, 'spokewagon-as-found.amps');
  writeFileSync(asFound, readFileSync(asFound, 'utf8').replace(/ +# finds: .*$/gm, ''));
  const user = join(scratch, 'data', 'User');
  mkdirSync(user, { recursive: true });
  writeFileSync(
    join(user, 'settings.json'),
    JSON.stringify({
      'workbench.startupEditor': 'none',
      'security.workspace.trust.startupPrompt': 'never',
      'workbench.secondarySideBar.defaultVisibility': 'hidden',
    }),
  );
  const own = ['--user-data-dir', join(scratch, 'data'), '--extensions-dir', join(scratch, 'extensions')];
  execFileSync(
    codeServer.node,
    [codeServer.entry, ...own, '--install-extension', resolve('ampscribe.vsix'), '--force'],
    {
      stdio: ['ignore', 'ignore', 'ignore'],
    },
  );
  const port = await freePort();
  const flags = ['--auth', 'none', '--disable-telemetry', '--disable-update-check'];
  if (trusted) flags.push('--disable-workspace-trust');
  const config = join(scratch, 'config.yaml');
  const bind = ['--bind-addr', `127.0.0.1:${port}`, '--config', config, '--disable-getting-started-override'];
  const child = spawn(codeServer.node, [codeServer.entry, ...flags, ...bind, ...own], {
    // It complains at length of native modules that only its own logging wants.
    stdio: ['ignore', 'pipe', 'ignore'],
    detached: true,
  });
  await said(child, /HTTP server listening on (\S+)/);
  const address = `http://127.0.0.1:${port}/?folder=${encodeURIComponent(folder)}`;
  return { address, folder, stop: () => ended(child) };
}

export function freePort(): Promise<number> {
  return new Promise((found, failed) => {
    const probe = createServer();
    probe.once('error', failed);
    probe.listen(0, 'localhost', () => {
      const address = probe.address();
      const port = typeof address === 'object' && address !== null ? address.port : 0;
      probe.close(() => found(port));
    });
  });
}

/** Waits for a line that the process prints. */
function said(child: ChildProcess, what: RegExp): Promise<string> {
  return new Promise((found, failed) => {
    let text = '';
    child.stdout?.on('data', (piece: Buffer) => {
      text += String(piece);
      const match = what.exec(text);
      if (match !== null) found(match[1] ?? '');
    });
    child.once('exit', (code) => failed(new Error(`ended with ${code} before it was up: ${text.slice(-500)}`)));
  });
}

function ended(child: ChildProcess): Promise<void> {
  return new Promise((done) => {
    child.once('exit', () => done());
    // The whole group: npm and code-server start processes of their own.
    if (child.pid !== undefined) process.kill(-child.pid, 'SIGTERM');
  });
}
