/** A folder that is not trusted: findings are shown there too, since nothing of a folder is ever run. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Browser, openBrowser } from './browser.ts';
import { type Served, serveCodeServer } from './servers.ts';
import { Workbench } from './workbench.ts';

describe('a folder that is not trusted', () => {
  let served: Served;
  let browser: Browser;
  let bench: Workbench;

  beforeAll(async () => {
    served = await serveCodeServer({ trusted: false });
    browser = await openBrowser();
    bench = new Workbench(browser.page);
    await bench.load(served.address);
  });

  afterAll(async () => {
    await browser?.close();
    await served?.stop();
  });

  it('is checked all the same', async () => {
    await browser.page.locator('.statusbar-item', { hasText: 'Restricted Mode' }).first().waitFor({ timeout: 60_000 });
    await bench.open('spokewagon-as-found.amps');
    expect(await bench.errors()).toBeGreaterThan(5);
    await bench.screenshot('untrusted');
  });
});
