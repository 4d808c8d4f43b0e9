/** What is shown beside the text and what follows names, in VS Code for the Web with its server in a worker. */
import { readFileSync } from 'node:fs';
import { afterEach, describe, expect, it } from 'vitest';
import { hosted } from './hosted.ts';
import { serveWeb } from './servers.ts';

const file = 'first-lamp.amps';
const lines = readFileSync(`samples/${file}`, 'utf8').split('\n');
/** Counted from 1, as the sample has it. */
const lineOf = (text: string) => lines.findIndex((line) => line.startsWith(text)) + 1;

describe('VS Code for the Web', () => {
  const workbench = hosted(serveWeb);

  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail')
      await workbench().screenshot(`failed-features-${task.name.replace(/\W+/g, '-')}`);
  });

  it('shows figures at the end of runs and above parts', async () => {
    const bench = workbench();
    await bench.open(file);
    await expect
      .poll(() => bench.lineText('run W1'), { timeout: 60_000 })
      .toMatch(/[\d.]+ A of [\d.]+ A, [\d.]+ V lost/);
    const lens = bench.page.locator('.codelens-decoration', { hasText: 'design current' }).first();
    await lens.waitFor({ timeout: 30_000 });
    await bench.screenshot('features-beside');
  });

  it('renames a lamp everywhere from within its name', async () => {
    const bench = workbench();
    await bench.goTo(lineOf('load LAMP'), 8);
    await bench.page.keyboard.press('F2');
    const input = bench.page.locator('.rename-box input.rename-input');
    await input.waitFor({ timeout: 20_000 });
    await input.fill('TORCH');
    await bench.page.keyboard.press('Enter');
    await expect.poll(() => bench.lineText('load TORCH'), { timeout: 20_000 }).toContain('load TORCH');
    await expect.poll(() => bench.lineText('run W3'), { timeout: 20_000 }).toContain('TORCH:+');
    await bench.screenshot('features-renamed');
  });

  it('follows what feeds a lamp', async () => {
    const bench = workbench();
    await bench.goTo(lineOf('load LAMP'), 7);
    await bench.command('Peek Call Hierarchy');
    const row = bench.page.locator('.call-hierarchy .monaco-list-row', { hasText: 'by W' }).first();
    await row.waitFor({ timeout: 30_000 });
    expect(await row.textContent()).toMatch(/by W\d+ red, [\d.]+ A, protected by F1/);
    await bench.screenshot('features-supply');
    await bench.page.keyboard.press('Escape');
  });

  it('adds an isolator to a run, its edit worked out in the worker when it is chosen', async () => {
    const bench = workbench();
    await bench.goTo(lineOf('run W2'), 6);
    await bench.fix('Add isolator Q1 in the middle of W2');
    await expect.poll(() => bench.lineText('isolator Q1'), { timeout: 20_000 }).toMatch(/1 pole, \d+ A dc, 60 V/);
    await expect.poll(() => bench.lineText('run W2'), { timeout: 20_000 }).toContain('to Q1:1');
    await bench.screenshot('features-isolator');
  });

  it('draws the card of a part with many terminals on hover', async () => {
    const bench = workbench();
    await bench.open('spokewagon.amps');
    const van = readFileSync('samples/spokewagon.amps', 'utf8').split('\n');
    await bench.goTo(van.findIndex((line) => line.startsWith('isolator Q1')) + 1, 10);
    await bench.hover();
    const card = bench.page.locator('.monaco-hover:not(.hidden) img[src^="data:image/svg+xml;base64,"]').first();
    await card.waitFor({ timeout: 20_000 });
    expect(await card.getAttribute('alt')).toContain('Terminal 1: W1 red 6 mm² to P1:+.');
    await expect
      .poll(() => card.evaluate((image) => (image as unknown as { naturalWidth: number }).naturalWidth))
      .toBeGreaterThan(200);
    await bench.screenshot('features-card');
    await bench.page.keyboard.press('Escape');
  });

  it('tidies a line as its end is typed', async () => {
    const bench = workbench();
    await bench.open(file);
    await bench.goTo(lines.length, 1);
    // Behind the last line there is, once the editor has the keys again.
    const position = bench.page.locator('#status\\.editor\\.selection');
    await expect
      .poll(
        async () => {
          await bench.page.keyboard.press('Control+End');
          return Number(/Ln (\d+)/u.exec((await position.textContent()) ?? '')?.[1]);
        },
        { timeout: 20_000 },
      )
      .toBeGreaterThan(lines.length);
    await bench.page.keyboard.type('\nfuse F77   5A');
    await expect.poll(() => bench.lineText('fuse F77'), { timeout: 20_000 }).toMatch(/F77\s+5A/);
    // What is offered meanwhile would take the key.
    await bench.page.waitForTimeout(1000);
    await bench.page.keyboard.press('Escape');
    await bench.page.keyboard.press('Enter');
    await expect.poll(() => bench.lineText('fuse F77'), { timeout: 20_000 }).toMatch(/F77\s+5\sA/);
    await bench.screenshot('features-typed');
  });

  it('keeps both halves of a statement that is parted, the pointer before the second', async () => {
    const bench = workbench();
    await bench.open(file);
    // The server is there once it has figures.
    await expect.poll(() => bench.lineText('run W1'), { timeout: 60_000 }).toContain(' lost');
    const line = lineOf('battery B1');
    const column = (lines[line - 1] ?? '').indexOf(', ') + 1;
    expect(column).toBeGreaterThan(1);
    await bench.goTo(line, column);
    await bench.page.keyboard.press('Enter');
    const position = bench.page.locator('#status\\.editor\\.selection');
    await expect.poll(() => position.textContent(), { timeout: 20_000 }).toContain(`Ln ${line + 1}, Col 5`);
    await bench.screenshot('features-parted');
    await bench.page.keyboard.press('Control+z');
  });

  it('follows a file that is renamed in the specs that use it', async () => {
    const bench = workbench();
    await bench.open('spokewagon.amps');
    await expect.poll(() => bench.lineText('use "stock'), { timeout: 20_000 }).toContain('"stock.amps"');
    await bench.open('stock.amps');
    await bench.command('File: Reveal Active File in Explorer View');
    await bench.page.keyboard.press('F2');
    const input = bench.page.locator('.explorer-folders-view input');
    await input.waitFor({ timeout: 20_000 });
    await input.fill('store.amps');
    await bench.page.keyboard.press('Enter');
    // The editor asks whether an extension may change files with this move.
    await bench.page.locator('.monaco-dialog-box a', { hasText: 'OK' }).click({ timeout: 20_000 });
    await bench.open('spokewagon.amps');
    await expect.poll(() => bench.lineText('use "sto'), { timeout: 20_000 }).toContain('"store.amps"');
    await bench.screenshot('features-moved');
  });

  it('is read as well in the dark and in high contrast', async () => {
    const bench = workbench();
    const theme = () => bench.page.locator('.monaco-workbench').first().getAttribute('class');
    const light = await theme();
    await bench.command('Preferences: Toggle between Light/Dark Themes');
    await expect.poll(theme, { timeout: 20_000 }).not.toBe(light);
    expect(await theme()).toMatch(/vs-dark|hc-/);
    await bench.screenshot('features-dark');
  });

  it('opens the picture from the lens over a case', async () => {
    const bench = workbench();
    const name = 'orchard-cabin.amps';
    await bench.open(name);
    const cabin = readFileSync(`samples/${name}`, 'utf8').split('\n');
    await bench.goTo(cabin.findIndex((line) => line.startsWith('case dusk')) + 1, 6);
    const lens = bench.page.locator('.codelens-decoration a', { hasText: 'Show this case in the picture' }).last();
    await lens.click({ timeout: 60_000 });
    await bench.page.locator('.tab', { hasText: `Picture of ${name}` }).waitFor({ timeout: 30_000 });
    const shown = async () => {
      for (const frame of bench.page.frames())
        if ((await frame.locator('.diagram .part').count()) > 10) return frame.locator('#case').inputValue();
      return undefined;
    };
    await expect.poll(shown, { timeout: 30_000 }).toBe('dusk');
    await bench.screenshot('features-case');
  });
});
