/** A folder that is not trusted: findings are shown there too, since nothing of a folder is ever run. */
import { describe, expect, it } from 'vitest';
import { hosted } from './hosted.ts';
import { serveCodeServer } from './servers.ts';

describe('a folder that is not trusted', () => {
  const workbench = hosted(() => serveCodeServer({ trusted: false }));

  it('is checked all the same', async () => {
    const bench = workbench();
    const restricted = bench.page.locator('.statusbar-item', { hasText: 'Restricted Mode' });
    await restricted.first().waitFor({ timeout: 60_000 });
    await bench.open('spokewagon-as-found.amps');
    expect(await bench.errors()).toBeGreaterThan(5);
    await bench.screenshot('untrusted');
  });
});
