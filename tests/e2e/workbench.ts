/** What a person does in VS Code: open a file, go to a line, hover, take a fix, format, read the problems. */
import type { Locator, Page } from 'playwright-core';

type Severity = 'error' | 'warning' | 'info';

export class Workbench {
  constructor(readonly page: Page) {}

  async load(address: string): Promise<void> {
    await this.page.addInitScript({ path: 'tests/e2e/in-page.js' });
    await this.page.goto(address, { waitUntil: 'domcontentloaded' });
    await this.page.waitForSelector('.monaco-workbench .explorer-folders-view .monaco-list-row', { timeout: 120_000 });
  }

  async open(name: string): Promise<void> {
    const row = this.page.locator(`.explorer-folders-view .monaco-list-row[aria-label^="${name}"]`).first();
    const tab = this.page.locator(`.tab.active[data-resource-name="${name}"]`);
    // While the side bar moves into place a click may miss its row.
    for (let time = 0; time < 4 && !(await tab.isVisible()); time++) {
      await row.dblclick();
      await tab.waitFor({ timeout: 8000 }).catch(() => {});
    }
    await tab.waitFor({ timeout: 10_000 });
    await this.page.waitForSelector('.monaco-editor .view-line', { timeout: 30_000 });
    await this.focus();
  }

  async focus(): Promise<void> {
    await this.command('View: Focus Active Editor Group');
  }

  /** The list of commands is that of the moment when it opens: an extension that starts just then is in the next one. */
  async command(title: string): Promise<void> {
    const input = this.page.locator('.quick-input-widget:visible .quick-input-box input');
    const row = this.page
      .locator('.quick-input-list .monaco-list-row', { hasText: title.replace(/^.*: /, '') })
      .first();
    for (let attempt = 1; ; attempt += 1) {
      await this.page.keyboard.press('F1');
      await input.waitFor({ timeout: 20_000 });
      await input.fill(`>${title}`);
      try {
        await row.waitFor({ timeout: 8000 });
        break;
      } catch (error) {
        if (attempt === 4) throw error;
        await this.page.keyboard.press('Escape');
        await input.waitFor({ state: 'hidden', timeout: 20_000 });
      }
    }
    await this.page.keyboard.press('Enter');
    await input.waitFor({ state: 'hidden', timeout: 20_000 });
  }

  /** Places the cursor; line and column count from 1. */
  async goTo(line: number, column: number): Promise<void> {
    await this.page.keyboard.press('Control+g');
    const input = this.page.locator('.quick-input-widget:visible .quick-input-box input');
    await input.waitFor({ timeout: 20_000 });
    await input.fill(`:${line}:${column}`);
    await this.page.keyboard.press('Enter');
    await input.waitFor({ state: 'hidden', timeout: 20_000 });
  }

  line(text: string): Locator {
    return this.page.locator('.monaco-editor .view-lines .view-line', { hasText: spaced(text) }).first();
  }

  /** Waits for exactly these words of a line in sight to be underlined, and tells as what. */
  async underlined(lineText: string, words: string): Promise<Severity> {
    await this.line(lineText).waitFor({ timeout: 30_000 });
    const found = await this.page.waitForFunction<Severity | undefined>(
      `ampscribeUnderlinedAs(${JSON.stringify(lineText)}, ${JSON.stringify(words)})`,
      undefined,
      { timeout: 60_000, polling: 200 },
    );
    const severity = await found.jsonValue();
    if (severity === undefined) throw new Error('unreachable: the wait ends with a severity');
    return severity;
  }

  /** Text of the hover at the cursor. While it still loads an editor may close it again: then it is asked for once more. */
  async hover(): Promise<string> {
    const widget = this.page.locator('.monaco-hover:not(.hidden) .monaco-hover-content').first();
    let text = '';
    for (let i = 0; i < 20; i += 1) {
      if (i === 0 || (await widget.count()) === 0) {
        await this.page.keyboard.press('Control+k');
        await this.page.keyboard.press('Control+i');
        await widget.waitFor({ timeout: 20_000 });
      }
      // The parts of a hover come one after the other.
      await this.page.waitForTimeout(250);
      const [now = ''] = (await widget.allTextContents()).map(spacesOnly);
      if (now === text && text !== '' && !text.includes('Loading')) return text;
      text = now;
    }
    return text;
  }

  /** Chooses a quick fix by its title at the cursor. A key that an editor has no ear for while it shows something is pressed again. */
  async fix(title: string): Promise<void> {
    const list = this.page.locator('.action-widget').first();
    for (let left = 4; left > 0 && !(await list.isVisible()); left -= 1) {
      await this.page.keyboard.press('Control+.');
      // The last time it is waited for in earnest.
      const shown = list.waitFor({ timeout: left === 1 ? 20_000 : 5_000 });
      await (left === 1 ? shown : shown.catch(() => undefined));
    }
    // By keys: a layer over the page keeps the pointer from the list while it opens.
    const wanted = list.locator('.monaco-list-row.focused', { hasText: title });
    for (let i = 0; i < 10 && (await wanted.count()) === 0; i += 1) {
      await this.page.waitForTimeout(150);
      if ((await wanted.count()) === 0) await this.page.keyboard.press('ArrowDown');
    }
    if ((await wanted.count()) === 0) throw new Error(`no fix “${title}”: ${await list.textContent()}`);
    await this.page.keyboard.press('Enter');
    await list.waitFor({ state: 'hidden', timeout: 20_000 });
  }

  async lineText(containing: string): Promise<string> {
    return spacesOnly((await this.line(containing).textContent()) ?? '');
  }

  /** The status entry, once it says so. */
  async status(text: RegExp): Promise<string> {
    const entry = this.page.locator('.statusbar-item[id*="ampscribe.findings"]', { hasText: text }).first();
    await entry.waitFor({ timeout: 60_000 });
    return spacesOnly((await entry.textContent()) ?? '');
  }

  /** How many errors the status entry counts. */
  async errors(): Promise<number> {
    return Number(/(\d+) errors?/.exec(await this.status(/error/))?.[1]);
  }

  async screenshot(name: string): Promise<void> {
    await this.page.screenshot({ path: `out/screenshots/${name}.png` });
  }
}

function spacesOnly(text: string): string {
  return text.replaceAll('\u00a0', ' ').trim();
}

/** The editor shows spaces as no-break spaces, and a swatch beside a colour as one more. */
function spaced(text: string): RegExp {
  return new RegExp(text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&').replaceAll(' ', '[ \u00a0]+'));
}
