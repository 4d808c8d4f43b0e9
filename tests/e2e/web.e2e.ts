/** VS Code for the Web as `npm start` serves it: the server is a web worker, the samples a virtual workspace. */
import { afterAll, beforeAll, describe } from 'vitest';
import { type Browser, openBrowser } from './browser.ts';
import { findingsInTheEditor } from './scenario.ts';
import { type Served, serveWeb } from './servers.ts';
import { Workbench } from './workbench.ts';

describe('VS Code for the Web', () => {
  let served: Served;
  let browser: Browser;
  let bench: Workbench;

  beforeAll(async () => {
    served = await serveWeb();
    browser = await openBrowser();
    bench = new Workbench(browser.page);
    await bench.load(served.address);
  });

  afterAll(async () => {
    await browser?.close();
    await served?.stop();
  });

  findingsInTheEditor('web', () => bench);
});
