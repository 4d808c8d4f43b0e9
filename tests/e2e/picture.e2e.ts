/** The picture in VS Code for the Web: drawn beside its text, found from it and back, looked into, and fit for everyone. */
import { readFileSync } from 'node:fs';
import { afterEach, describe, expect, it } from 'vitest';
import { hosted } from './hosted.ts';
import { kept } from './kept.ts';
import { PictureView } from './picture-view.ts';
import { serveWeb } from './servers.ts';
import type { Workbench } from './workbench.ts';

const file = 'spokewagon.amps';
const lines = readFileSync(`samples/${file}`, 'utf8').split('\n');
const lineOf = (start: string) => lines.findIndex((line) => line.startsWith(start)) + 1;

/** The line of the cursor in the text, as the number beside it says: while the picture has the focus the status bar says none. */
async function cursorLine({ page }: Workbench): Promise<number> {
  const shown = page.locator('.editor-group-container .monaco-editor .line-numbers.active-line-number').first();
  return Number(await shown.textContent());
}

async function theme(bench: Workbench, name: string): Promise<void> {
  await bench.focus();
  await bench.page.keyboard.press('Control+k');
  await bench.page.keyboard.press('Control+t');
  const input = bench.page.locator('.quick-input-widget:visible .quick-input-box input');
  await input.waitFor({ timeout: 20_000 });
  await input.fill(name);
  await bench.page.locator('.quick-input-list .monaco-list-row.focused', { hasText: name }).first().waitFor();
  await bench.page.keyboard.press('Enter');
  await input.waitFor({ state: 'hidden', timeout: 20_000 });
}

describe('the picture', () => {
  const workbench = hosted(serveWeb);

  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail') await workbench().screenshot(`failed-picture-${task.name.replace(/\W+/g, '-')}`);
  });

  let view: PictureView;

  it('opens beside its text from the button over it', async () => {
    const bench = workbench();
    await bench.page.setViewportSize({ width: 1600, height: 950 });
    await bench.open(file);
    await bench.command('View: Toggle Primary Side Bar Visibility');
    await bench.page.locator('.editor-actions a[aria-label^="Show the Wiring Picture"]').first().click();
    view = await PictureView.inFront(bench.page, file);
    expect(await view.frame.locator('.diagram .part').count()).toBeGreaterThan(35);
    expect(await view.frame.locator('.diagram .core').count()).toBeGreaterThan(55);
    await bench.screenshot('picture-light');
  });

  it('shows the words of what is pressed', async () => {
    const bench = workbench();
    for (const [id, start] of [
      ['part:F1', 'fuse F1 '],
      ['core:W11/0', 'run W11 '],
      ['enclosure:POWER-BOX', 'enclosure POWER-BOX'],
    ] as const) {
      await view.press(id);
      await expect.poll(() => cursorLine(bench), { timeout: 20_000 }).toBe(lineOf(start));
      expect(await view.element(id).getAttribute('aria-current')).toBe('true');
    }
  });

  it('shows what the cursor in the text is at, until it is told not to', async () => {
    const bench = workbench();
    await bench.command('View: Focus First Editor Group');
    await bench.goTo(lineOf('load FRIDGE'), 8);
    await expect.poll(() => view.shown(), { timeout: 20_000 }).toEqual(['part:FRIDGE']);
    await bench.goTo(lineOf('run W48') + 1, 3);
    await expect.poll(() => view.shown(), { timeout: 20_000 }).toEqual(['core:W48/0']);
    await view.frame.locator('#follow').uncheck();
    await bench.command('View: Focus First Editor Group');
    await bench.goTo(lineOf('fuse F1 '), 2);
    await bench.page.waitForTimeout(600);
    expect(await view.shown()).toEqual([]);
    await view.frame.locator('#follow').check();
  });

  it('shows the currents, volts and shades of a case, with a key', async () => {
    const bench = workbench();
    await view.frame.selectOption('#case', 'working');
    await view.frame.locator('.key li').first().waitFor();
    expect(await view.element('core:W11/0').textContent()).toMatch(/\d+(?:\.\d+)? A/);
    expect(await view.element('part:F1').locator('.volts').allTextContents()).toEqual([
      expect.stringMatching(/^1\d\.\d+ V$/),
      expect.stringMatching(/^1\d\.\d+ V$/),
    ]);
    expect(await view.element('core:W11/0').locator('.shade').count()).toBe(1);
    expect(await view.element('core:W11/0').getAttribute('aria-label')).toMatch(/% of its capacity/);
    await bench.screenshot('picture-case');
    await view.frame.selectOption('#shade', 'drop');
    await expect.poll(() => view.frame.locator('.key').textContent()).toContain('Voltage lost');
    await view.frame.selectOption('#shade', 'capacity');
  });

  it('traces a load from its source and back, and names every step with its volts', async () => {
    const bench = workbench();
    await view.frame.selectOption('#trace', 'FRIDGE');
    await view.frame.locator('.staircase').first().waitFor();
    const traced = await view.ids('.traced');
    for (const id of ['part:B1', 'part:F1', 'core:W48/0', 'core:W48/1', 'part:FRIDGE']) expect(traced).toContain(id);
    expect(traced).not.toContain('part:PUMP');
    const steps = await view.frame.locator('.stair').all();
    expect(steps.length).toBeGreaterThan(8);
    for (const step of steps) expect(await step.textContent()).toMatch(/-?\d+(?:\.\d+)? V/);
    await bench.screenshot('picture-trace');
  });

  it('is walked by keys, and Escape lets go', async () => {
    const bench = workbench();
    await view.press('part:FRIDGE');
    const focused = () =>
      view.frame.evaluate(() => document.activeElement?.getAttribute('data-id') ?? document.activeElement?.id ?? '');
    await view.frame.locator('.diagram [tabindex="0"]').focus();
    await bench.page.keyboard.press('Home');
    const first = await focused();
    await bench.page.keyboard.press('PageDown');
    expect(await focused()).not.toBe(first);
    await bench.page.keyboard.press('/');
    expect(await focused()).toBe('find');
    await bench.page.keyboard.type('FRIDGE');
    await bench.page.keyboard.press('Enter');
    expect(await focused()).toBe('part:FRIDGE');
    await bench.page.keyboard.press('ArrowLeft');
    expect(await focused()).toMatch(/^core:W48/);
    await bench.page.keyboard.press('ArrowRight');
    expect(await focused()).toBe('part:FRIDGE');
    await bench.page.keyboard.press('?');
    await view.frame.locator('dialog[open]').waitFor();
    await bench.page.keyboard.press('Escape');
    await bench.page.keyboard.press('Escape');
    await expect.poll(() => view.frame.locator('.diagram.tracing').count()).toBe(0);
    await bench.page.keyboard.press('Enter');
    await expect.poll(() => cursorLine(bench), { timeout: 20_000 }).toBe(lineOf('load FRIDGE'));
    // The cursor itself went there, which takes the workbench a moment.
    const column = (lines[lineOf('load FRIDGE') - 1]?.length ?? 0) + 1;
    await expect
      .poll(
        async () => {
          await bench.page.keyboard.press('End');
          return bench.page.locator('#status\\.editor\\.selection').textContent();
        },
        { timeout: 20_000 },
      )
      .toContain(`Col ${column}`);
  });

  it('shows the terminal card of what is chosen', async () => {
    await view.press('part:Q1');
    await view.frame.locator('.side .card svg').waitFor();
    expect(await view.frame.locator('.side .card svg').getAttribute('aria-label')).toMatch(/^isolator Q1/);
  });

  it('has nothing that the rules for screen readers find wrong', async () => {
    expect(await view.violations()).toEqual([]);
    await view.frame.selectOption('#trace', 'FRIDGE');
    await view.frame.locator('.staircase').first().waitFor();
    expect(await view.violations()).toEqual([]);
  });

  it('fits dark and high-contrast themes', async () => {
    const bench = workbench();
    for (const [name, picture] of [
      ['Dark High Contrast', 'contrast'],
      ['Light High Contrast', 'contrast-light'],
      ['Dark Modern', 'dark'],
    ] as const) {
      await theme(bench, name);
      await bench.page.waitForTimeout(700);
      await bench.screenshot(`picture-${picture}`);
      expect(await view.violations(), name).toEqual([]);
    }
  });

  it('follows the typing, and what did not change stays the same object', async () => {
    const bench = workbench();
    await view.frame.selectOption('#trace', '');
    await view.frame.evaluate(() => {
      for (const node of document.querySelectorAll('.diagram [data-layer] > [data-id]'))
        Object.assign(node, { isFirst: true });
    });
    await bench.command('View: Focus First Editor Group');
    await bench.goTo(lineOf('load FRIDGE'), 1);
    await bench.page.keyboard.press('End');
    await bench.page.keyboard.type('\nload CHILLER "<img src=x onerror=alert(1)>" 12 W', { delay: 15 });
    await bench.page.keyboard.press('Escape');
    await view.element('part:CHILLER').waitFor({ timeout: 20_000 });
    const changed = await view.frame.evaluate(() =>
      [...document.querySelectorAll('.diagram [data-layer="part"] > [data-id]')]
        .filter((node) => !('isFirst' in node))
        .map((node) => node.getAttribute('data-id')),
    );
    expect(changed).toEqual(['part:CHILLER']);
  });

  it('keeps a hostile name as text everywhere', async () => {
    const name = '<img src=x onerror=alert(1)>';
    await view.press('part:CHILLER');
    await expect.poll(() => view.frame.locator('.side').textContent(), { timeout: 20_000 }).toContain(name);
    expect(await view.element('part:CHILLER').getAttribute('aria-label')).toContain(name);
    expect(await view.frame.locator('img').count()).toBe(0);
  });

  it('stays as it was while something is written half way, and says so', async () => {
    const bench = workbench();
    await bench.command('View: Focus First Editor Group');
    await bench.goTo(lineOf('fuse F1 '), 'fuse F'.length + 1);
    await bench.page.keyboard.press('Delete');
    await view.frame.locator('.quiet', { hasText: 'cannot be drawn' }).waitFor({ timeout: 20_000 });
    expect(await view.element('part:F1').count()).toBe(1);
    await bench.screenshot('picture-half-way');
    await bench.page.keyboard.type('1');
    await bench.page.keyboard.press('Escape');
    await expect.poll(() => view.frame.locator('.quiet').textContent(), { timeout: 20_000 }).toBe('');
  });

  it('marks findings, with their messages, and leads to their words', async () => {
    const bench = workbench();
    const finding = view.frame.locator('.side .finding', { hasText: 'CHILLER' }).first();
    await finding.waitFor({ timeout: 20_000 });
    expect(await view.frame.locator('.mark[data-about="part:CHILLER"] title').first().textContent()).toContain(
      'CHILLER',
    );
    await finding.click();
    await expect.poll(() => cursorLine(bench), { timeout: 20_000 }).toBe(lineOf('load FRIDGE') + 1);
  });

  it.each(['SVG', 'PNG', 'PDF'])('is saved as %s', async (format) => {
    const bench = workbench();
    await view.frame.selectOption('#save', format.toLowerCase());
    const input = bench.page.locator('.quick-input-widget:visible .quick-input-box input');
    await input.waitFor({ timeout: 60_000 });
    expect(await input.inputValue()).toContain(`spokewagon.${format.toLowerCase()}`);
    await bench.page.keyboard.press('Enter');
    const told = `spokewagon.${format.toLowerCase()} is saved.`;
    await bench.page.locator('.notification-toast', { hasText: told }).first().waitFor({ timeout: 20_000 });
  });

  it('shows several files at once', async () => {
    const bench = workbench();
    await bench.command('View: Toggle Primary Side Bar Visibility');
    await bench.open('first-lamp.amps');
    await bench.command('Ampscribe: Show the Wiring Picture');
    const other = await PictureView.inFront(bench.page, 'first-lamp.amps');
    expect(await other.frame.locator('.diagram .part').count()).toBe(4);
    await bench.screenshot('picture-two');
  });

  it('is as it was after a reload', async () => {
    const bench = workbench();
    await bench.page.locator(`.tab[aria-label*="Picture of ${file}"]`).first().click();
    view = await PictureView.inFront(bench.page, file);
    expect(await view.frame.locator('#case').inputValue()).toBe('working');
    // A picture in front has the focus in its own frame.
    await bench.page.locator('.tab[aria-label^="first-lamp.amps"]').first().click();
    await kept(bench.page, [`Picture of ${file}`, 'working', 'first-lamp.amps']);
    bench.page.on('dialog', (dialog) => void dialog.accept());
    await bench.page.reload({ waitUntil: 'domcontentloaded' });
    await bench.page.locator(`.tab[aria-label*="Picture of ${file}"]`).first().click({ timeout: 60_000 });
    view = await PictureView.inFront(bench.page, file);
    await expect.poll(() => view.frame.locator('#case').inputValue(), { timeout: 20_000 }).toBe('working');
    expect(await view.frame.locator('.diagram .part').count()).toBeGreaterThan(35);
  });
});
