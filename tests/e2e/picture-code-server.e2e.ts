/** The picture where the server is a process of Node: drawn in its thread, found both ways, saved to the disk. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { hosted } from './hosted.ts';
import { PictureView } from './picture-view.ts';
import { serveCodeServer } from './servers.ts';

const file = 'spokewagon.amps';
const lines = readFileSync(`samples/${file}`, 'utf8').split('\n');
const lineOf = (start: string) => lines.findIndex((line) => line.startsWith(start)) + 1;

describe('the picture in code-server', () => {
  let folder = '';
  const workbench = hosted(async () => {
    const served = await serveCodeServer();
    folder = served.folder;
    return served;
  });
  let view: PictureView;

  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail')
      await workbench().screenshot(`failed-picture-code-server-${task.name.replace(/\W+/g, '-')}`);
  });

  it('is drawn beside its text, and both find each other', async () => {
    const bench = workbench();
    await bench.open(file);
    await bench.command('Ampscribe: Show the Wiring Picture');
    view = await PictureView.inFront(bench.page, file);
    expect(await view.frame.locator('.diagram .part').count()).toBeGreaterThan(35);
    await view.press('part:F1');
    const line = bench.page.locator('.editor-group-container .monaco-editor .line-numbers.active-line-number').first();
    await expect.poll(async () => Number(await line.textContent()), { timeout: 20_000 }).toBe(lineOf('fuse F1 '));
    await bench.command('View: Focus First Editor Group');
    await bench.goTo(lineOf('load FRIDGE'), 8);
    await expect.poll(() => view.shown(), { timeout: 20_000 }).toEqual(['part:FRIDGE']);
  });

  it('is saved as a PDF', async () => {
    const bench = workbench();
    await view.frame.selectOption('#case', 'working');
    await view.frame.locator('.key li').first().waitFor();
    await bench.screenshot('picture-code-server');
    await view.frame.selectOption('#save', 'pdf');
    await bench.page.locator('.quick-input-widget:visible .quick-input-box input').waitFor({ timeout: 60_000 });
    await bench.page.keyboard.press('Enter');
    const saved = join(folder, 'spokewagon.pdf');
    // A file is there before it is written.
    const begins = () => (existsSync(saved) ? readFileSync(saved, 'latin1').slice(0, 5) : 'no file');
    await expect.poll(begins, { timeout: 30_000 }).toBe('%PDF-');
  });
});
