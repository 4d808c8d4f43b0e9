/** The picture as a person sees it in an editor: its frame, what stands in it, and what it says. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Frame, Locator, Page } from 'playwright-core';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

export interface Violation {
  readonly id: string;
  readonly help: string;
  readonly nodes: readonly string[];
}

export class PictureView {
  private constructor(readonly frame: Frame) {}

  /** The picture that is in front, once it is drawn. */
  static async inFront(page: Page, file: string): Promise<PictureView> {
    await page.locator(`.tab.active[aria-label*="Picture of ${file}"]`).first().waitFor({ timeout: 60_000 });
    const end = Date.now() + 90_000;
    while (Date.now() < end) {
      for (const frame of page.frames()) {
        // Frames come and go while an editor opens.
        const drawn = await frame
          .evaluate((name) => {
            const label = document.querySelector('svg.diagram[role="application"]')?.getAttribute('aria-label') ?? '';
            const seen = document.body.clientWidth > 0 && document.visibilityState === 'visible';
            return label !== '' && seen && document.title.includes(name);
          }, file)
          .catch(() => false);
        if (drawn) return new PictureView(frame);
      }
      await page.waitForTimeout(200);
    }
    throw new Error(`no picture of ${file}`);
  }

  element(id: string): Locator {
    return this.frame.locator(`.diagram [data-layer] > [data-id="${id}"]`);
  }

  async press(id: string): Promise<void> {
    // Its name, where one would press.
    await this.element(id).locator('text').first().click();
  }

  /** Ids that are set off as what the cursor is at. */
  shown(): Promise<string[]> {
    return this.ids('.shown');
  }

  async ids(among: string): Promise<string[]> {
    const found = await this.frame.locator(`.diagram ${among}[data-id]`).all();
    return Promise.all(found.map(async (one) => (await one.getAttribute('data-id')) ?? ''));
  }

  /** What the rules for screen readers find wrong. */
  async violations(): Promise<Violation[]> {
    await this.frame.evaluate(axeSource);
    return this.frame.evaluate(async () => {
      interface Axe {
        run(): Promise<{
          violations: { id: string; help: string; nodes: { html: string; failureSummary?: string }[] }[];
        }>;
      }
      const { axe } = globalThis as unknown as { axe: Axe };
      const { violations } = await axe.run();
      return violations.map(({ id, help, nodes }) => ({
        id,
        help,
        nodes: nodes.slice(0, 4).map(({ html, failureSummary = '' }) => `${html.slice(0, 200)} ${failureSummary}`),
      }));
    });
  }
}
