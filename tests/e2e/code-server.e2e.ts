/** The packaged extension installed in a real editor whose extension host runs on Node. */
import { copyFileSync } from 'node:fs';
import { afterAll, beforeAll, describe } from 'vitest';
import { type Browser, openBrowser } from './browser.ts';
import { findingsInTheEditor } from './scenario.ts';
import { type Served, serveCodeServer } from './servers.ts';
import { Workbench } from './workbench.ts';

describe('code-server', () => {
  let served: Served;
  let browser: Browser;
  let bench: Workbench;

  beforeAll(async () => {
    served = await serveCodeServer();
    browser = await openBrowser();
    bench = new Workbench(browser.page);
    await bench.load(served.address);
  });

  afterAll(async () => {
    await browser?.close();
    await served?.stop();
    // The README's picture is one of these screenshots, taken anew when asked for.
    if (process.env.PICTURE)
      copyFileSync('out/screenshots/code-server-cable-too-small.png', 'client/media/at-work.png');
  });

  findingsInTheEditor('code-server', () => bench);
});
