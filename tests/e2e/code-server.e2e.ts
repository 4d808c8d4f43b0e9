/** The packaged extension installed in a real editor whose extension host runs on Node. */
import { copyFileSync, existsSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { hosted } from './hosted.ts';
import { findingsInTheEditor } from './scenario.ts';
import { serveCodeServer } from './servers.ts';

describe('code-server', () => {
  const workbench = hosted(serveCodeServer);
  findingsInTheEditor('code-server', workbench);

  it.runIf(process.platform === 'linux')('starts the server with one pool of memory and one thread beside it', () => {
    const servers = running('server.quick.js');
    expect(servers.length).toBeGreaterThan(0);
    for (const { command, surroundings } of servers) {
      expect(command).toContain('--v8-pool-size=1');
      expect(surroundings).toContain('MALLOC_ARENA_MAX=1');
    }
  });

  it.runIf(process.platform === 'linux')('a server that ends keeps what was compiled of it for the next', async () => {
    const compiled = () => running('server.quick.js').map(({ command }) => command[command.indexOf('--compiled') + 1]);
    const [kept = ''] = compiled();
    await workbench().open('spokewagon-as-found.amps');
    const told = await workbench().status(/error/);
    rmSync(kept, { force: true });
    await workbench().command('Ampscribe: Restart the Server');
    await expect.poll(() => existsSync(kept), { timeout: 20_000 }).toBe(true);
    expect(statSync(kept).size).toBeGreaterThan(1e6);
    await expect.poll(compiled, { timeout: 20_000 }).toEqual([kept]);
    await expect.poll(() => workbench().status(/error/), { timeout: 20_000 }).toBe(told);
  });

  // The README's picture is one of these screenshots, taken anew when asked for.
  afterAll(() => {
    if (process.env.PICTURE)
      copyFileSync('out/screenshots/code-server-cable-too-small.png', 'client/media/at-work.png');
  });
});

/** The running programs with such a file in their command: its words, and what they were given as surroundings. */
function running(file: string) {
  const read = (path: string): readonly string[] => {
    try {
      return readFileSync(path, 'utf8').split('\0');
    } catch {
      // It has ended, or is somebody else's.
      return [];
    }
  };
  return readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name))
    .map((name) => ({ command: read(`/proc/${name}/cmdline`), surroundings: read(`/proc/${name}/environ`) }))
    .filter(({ command }) => command.some((word) => word.endsWith(file)));
}
