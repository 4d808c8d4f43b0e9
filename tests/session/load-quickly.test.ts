import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { loadQuickly } from '../../server/session/load-quickly.ts';

/** What a bundle says when it is loaded. */
const saying = (word: string) =>
  `const { sep } = require('node:path'); globalThis.said = '${word}' + sep + __dirname;\n`;
const said = () => (globalThis as { said?: string }).said;

let folder: string;
let bundle: string;
let kept: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'ampscribe-bundle-'));
  bundle = join(folder, 'bundle.js');
  kept = join(folder, 'bundle.compiled');
  writeFileSync(bundle, saying('one'));
});

afterEach(() => rmSync(folder, { recursive: true }));

describe('a bundle', () => {
  it('is loaded as by require', () => {
    loadQuickly(bundle, kept);
    expect(said()).toBe(`one/${folder}`);
  });

  it('is loaded with what was compiled of it', () => {
    loadQuickly(bundle, kept).keep();
    expect(loadQuickly(bundle, kept).keptBytes).toBeGreaterThan(100);
    expect(said()).toBe(`one/${folder}`);
  });

  it('is kept again only where much more was compiled of it', () => {
    writeFileSync(
      bundle,
      `${saying('one')}globalThis.more = () => [${'() => [1, 2, 3], '.repeat(200)}].map((one) => one());\n`,
    );
    loadQuickly(bundle, kept).keep();
    const first = readFileSync(kept);
    const again = loadQuickly(bundle, kept);
    again.keep();
    expect(readFileSync(kept).equals(first)).toBe(true);
    (globalThis as { more?: () => void }).more?.();
    again.keep();
    expect(readFileSync(kept).length).toBeGreaterThan(first.length * 1.25);
  });

  it('that is another of the same length is loaded as it is now', () => {
    loadQuickly(bundle, kept).keep();
    writeFileSync(bundle, saying('two'));
    expect(loadQuickly(bundle, kept).keptBytes).toBe(0);
    expect(said()).toBe(`two/${folder}`);
  });

  it('is loaded whatever stands beside it', () => {
    loadQuickly(bundle, kept).keep();
    const damaged = readFileSync(kept);
    damaged.fill(0, damaged.length / 2, damaged.length / 2 + 40);
    for (const broken of [Buffer.alloc(0), Buffer.alloc(5000, 7), damaged]) {
      writeFileSync(kept, broken);
      expect(loadQuickly(bundle, kept).keptBytes).toBe(0);
      expect(said()).toBe(`one/${folder}`);
    }
  });
});
