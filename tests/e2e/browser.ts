/** Debian's chromium, set so that VS Code's views work in it and nothing of it asks the network. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Page } from 'playwright-core';

export interface Browser {
  readonly page: Page;
  close(): Promise<void>;
}

export async function openBrowser(): Promise<Browser> {
  const profile = mkdtempSync(join(tmpdir(), 'ampscribe-profile-'));
  mkdirSync(join(profile, 'Default'));
  // Views live on <hash>.localhost: to chromium their workers and storage are another site's.
  writeFileSync(
    join(profile, 'Default', 'Preferences'),
    JSON.stringify({ profile: { block_third_party_cookies: false, cookie_controls_mode: 0 } }),
  );
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    headless: true,
    viewport: { width: 1280, height: 800 },
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
    ],
  });
  return {
    page: context.pages()[0] ?? (await context.newPage()),
    async close() {
      await context.close();
      rmSync(profile, { recursive: true, force: true });
    },
  };
}
