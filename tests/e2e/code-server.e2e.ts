/** The packaged extension installed in a real editor whose extension host runs on Node. */
import { copyFileSync } from 'node:fs';
import { afterAll, describe } from 'vitest';
import { hosted } from './hosted.ts';
import { findingsInTheEditor } from './scenario.ts';
import { serveCodeServer } from './servers.ts';

describe('code-server', () => {
  findingsInTheEditor('code-server', hosted(serveCodeServer));

  // The README's picture is one of these screenshots, taken anew when asked for.
  afterAll(() => {
    if (process.env.PICTURE)
      copyFileSync('out/screenshots/code-server-cable-too-small.png', 'client/media/at-work.png');
  });
});
