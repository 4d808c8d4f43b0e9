/** What must hold in every editor: the same spec, the same findings, hover, fix, formatting. */
import { readFileSync } from 'node:fs';
import { afterEach, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';
import type { Workbench } from './workbench.ts';

const file = 'spokewagon-as-found.amps';
const lines = readFileSync(`samples/${file}`, 'utf8').split('\n');

interface Place {
  readonly line: number;
  readonly column: number;
  readonly text: string;
  readonly words: string;
}

/** The words that the sample's own mark names. */
function marked(slug: string): Place {
  const at = lines.findIndex((line) => line.includes(`# finds: ${slug} `));
  const text = lines[at] ?? '';
  const words = /# finds: \S+ "([^"]+)"/.exec(text)?.[1] ?? '';
  return { line: at + 1, column: text.indexOf(words) + 1, text: text.slice(0, text.indexOf('#')).trimEnd(), words };
}

const named = [
  { slug: 'cable-too-small', severity: 'error', figures: ['50 A', '40.7 A', '61.4 A'] },
  { slug: 'switch-below-fuse', severity: 'error', figures: ['40 A', '60 A'] },
  { slug: 'entry-without-gland', severity: 'error', figures: ['M16', '6.3 mm'] },
] as const;

/** Describes the tests of one editor; `workbench` gives it once it is up. */
export function findingsInTheEditor(host: string, workbench: () => Workbench): void {
  afterEach(async ({ task }) => {
    if (task.result?.state === 'fail') await workbench().screenshot(`failed-${host}-${task.name.replace(/\W+/g, '-')}`);
  });

  it('opens the spec and counts its findings', async () => {
    const bench = workbench();
    await bench.open(file);
    const { findings } = analyseText(lines.join('\n'), { 'stock.amps': readFileSync('samples/stock.amps', 'utf8') });
    const errors = findings.filter((one) => one.severity === 'error').length;
    const warnings = findings.filter((one) => one.severity === 'warning').length;
    expect(Math.min(errors, warnings)).toBeGreaterThan(10);
    expect(await bench.status(/error/)).toContain(`${errors} errors, ${warnings} warnings`);
  });

  it.each(named)('$slug is underlined at its words, with its figures on hover', async ({ slug, severity, figures }) => {
    const bench = workbench();
    const place = marked(slug);
    await bench.goTo(place.line, place.column);
    expect(await bench.underlined(place.text, place.words)).toBe(severity);
    await bench.goTo(place.line, place.column + 1);
    const hover = await bench.hover();
    for (const figure of figures) expect(hover).toContain(figure);
    expect(hover).toContain(slug);
    await bench.screenshot(`${host}-${slug}`);
    await bench.page.keyboard.press('Escape');
  });

  it('a run’s hover shows what it carries', async () => {
    const bench = workbench();
    const place = marked('cable-too-small');
    await bench.goTo(place.line, place.text.indexOf('W40') + 2);
    const hover = await bench.hover();
    for (const words of ['40.7 A', '47 A', '× 0.87 for 40 °C', 'Protected by F8 (50 A)'])
      expect(hover).toContain(words);
    await bench.screenshot(`${host}-run`);
    await bench.page.keyboard.press('Escape');
  });

  it('a quick fix mends, and the finding goes', async () => {
    const bench = workbench();
    const errors = await bench.errors();
    const place = marked('switch-below-fuse');
    await bench.goTo(place.line, place.column + 1);
    await bench.fix('Use one rated 63 A');
    await expect.poll(() => bench.lineText('isolator Q3'), { timeout: 20_000 }).toContain('1 pole, 63 A dc');
    await expect.poll(() => bench.errors(), { timeout: 20_000 }).toBe(errors - 1);
    await bench.screenshot(`${host}-mended`);
  });

  it('mended by hand, a problem vanishes while typing', async () => {
    const bench = workbench();
    const errors = await bench.errors();
    const place = marked('entry-without-gland');
    await bench.goTo(place.line, place.column);
    for (let i = 0; i < place.words.length; i += 1) await bench.page.keyboard.press('Delete');
    await bench.page.keyboard.type('by gland M16', { delay: 20 });
    await bench.page.keyboard.press('Escape');
    await expect.poll(() => bench.errors(), { timeout: 20_000 }).toBe(errors - 1);
  });

  it('formats the document', async () => {
    const bench = workbench();
    const place = marked('bar-on-one-side');
    await bench.goTo(place.line, 5);
    await bench.page.keyboard.type('   ');
    await expect.poll(() => bench.lineText('link '), { timeout: 10_000 }).toContain('link    S2  1-3');
    await bench.command('Format Document');
    await expect.poll(() => bench.lineText('link S2'), { timeout: 20_000 }).toContain('link S2  1-3');
  });

  it('completes what may come', async () => {
    const bench = workbench();
    const place = marked('bar-on-one-side');
    await bench.goTo(place.line, 1);
    await bench.page.keyboard.press('Home');
    await bench.page.keyboard.type('\n');
    await bench.page.keyboard.press('ArrowUp');
    await bench.page.keyboard.type('fuse F77 10 A, bla', { delay: 30 });
    const widget = bench.page.locator('.suggest-widget.visible .monaco-list-row');
    if ((await widget.count()) === 0) await bench.page.keyboard.press('Control+Space');
    await widget.first().waitFor({ timeout: 20_000 });
    expect(await widget.first().textContent()).toContain('blade');
    await bench.screenshot(`${host}-completion`);
    await bench.page.keyboard.press('Enter');
    await expect.poll(() => bench.lineText('fuse F77'), { timeout: 20_000 }).toMatch(/fuse F77\s+10\sA, blade/u);
  });

  it('opens the page of a finding from its code, without a network', async () => {
    const bench = workbench();
    const place = marked('cable-too-small');
    await bench.goTo(place.line, place.column + 1);
    await bench.hover();
    await bench.page.locator('.monaco-hover:not(.hidden) a', { hasText: 'cable-too-small' }).first().click();
    await bench.page.waitForSelector('.tab.active[data-resource-name="cable-too-small.md"]', { timeout: 30_000 });
    const view = bench.page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
    await view.locator('h1').first().waitFor({ timeout: 30_000 });
    expect(await view.locator('body').textContent()).toMatch(/The fuse must be the first thing to go/);
    await bench.screenshot(`${host}-page`);
  });
}
