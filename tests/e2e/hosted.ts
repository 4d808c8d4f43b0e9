/** An editor that is served and opened for the tests of one file. */
import { afterAll, beforeAll } from 'vitest';
import { type Browser, openBrowser } from './browser.ts';
import type { Served } from './servers.ts';
import { Workbench } from './workbench.ts';

/** Called inside a `describe`; gives the workbench once it is up. */
export function hosted(serve: () => Promise<Served>): () => Workbench {
  let served: Served | undefined;
  let browser: Browser | undefined;
  let bench: Workbench | undefined;

  beforeAll(async () => {
    served = await serve();
    browser = await openBrowser();
    bench = new Workbench(browser.page);
    await bench.load(served.address);
  });

  afterAll(async () => {
    await browser?.close();
    await served?.stop();
  });

  return () => {
    if (bench === undefined) throw new Error('the editor is not up yet');
    return bench;
  };
}
