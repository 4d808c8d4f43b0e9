/** Before all end-to-end tests: the extension as it is shipped, and the editor it is installed in. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, rmSync } from 'node:fs';
import { installCodeServer } from './install-code-server.ts';

export default function setup(): void {
  rmSync('out/screenshots', { recursive: true, force: true });
  mkdirSync('out/screenshots', { recursive: true });
  execFileSync('npm', ['run', '--silent', 'package'], { stdio: ['ignore', 'ignore', 'inherit'] });
  installCodeServer();
}
