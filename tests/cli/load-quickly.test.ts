import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { keep, loadQuickly } from '../../server/cli/load-quickly.ts';

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
    keep(bundle, loadQuickly(bundle, kept), kept);
    expect(loadQuickly(bundle, kept).cachedDataRejected).toBe(false);
    expect(said()).toBe(`one/${folder}`);
  });

  it('that is another of the same length is loaded as it is now', () => {
    keep(bundle, loadQuickly(bundle, kept), kept);
    writeFileSync(bundle, saying('two'));
    expect(loadQuickly(bundle, kept).cachedDataRejected).toBeUndefined();
    expect(said()).toBe(`two/${folder}`);
  });

  it('is loaded whatever stands beside it', () => {
    keep(bundle, loadQuickly(bundle, kept), kept);
    for (const broken of [Buffer.alloc(0), Buffer.alloc(5000, 7)]) {
      writeFileSync(kept, broken);
      loadQuickly(bundle, kept);
      expect(said()).toBe(`one/${folder}`);
    }
  });
});
