/** The packaged extension installed in a real editor whose extension host runs on Node. */
import { copyFileSync, readdirSync, readFileSync } from 'node:fs';
import { afterAll, describe, expect, it } from 'vitest';
import { hosted } from './hosted.ts';
import { findingsInTheEditor } from './scenario.ts';
import { serveCodeServer } from './servers.ts';

describe('code-server', () => {
  findingsInTheEditor('code-server', hosted(serveCodeServer));

  it.runIf(process.platform === 'linux')('starts the server with one pool of memory and one thread beside it', () => {
    const servers = running('server.quick.js');
    expect(servers.length).toBeGreaterThan(0);
    for (const { command, surroundings } of servers) {
      expect(command).toContain('--v8-pool-size=1');
      expect(surroundings).toContain('MALLOC_ARENA_MAX=1');
    }
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
