/** A second real client over standard input and output: Neovim's own, which is pushed what is found. */
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

interface Seen {
  readonly published: readonly {
    readonly code: string;
    readonly message: string;
    readonly source: string;
    readonly codeDescription?: { readonly href: string };
  }[];
  readonly shown: readonly { readonly line: number; readonly column: number; readonly code?: string }[];
  readonly hover: { readonly contents: { readonly value: string } };
}

function inNeovim(file: string, line: number, column: number): Seen {
  const result = resolve('out', 'neovim.json');
  execFileSync('nvim', ['--headless', '-u', 'NONE', '-i', 'NONE', '-c', `luafile ${resolve('tests/e2e/neovim.lua')}`], {
    stdio: ['ignore', 'ignore', 'inherit'],
    timeout: 60_000,
    env: {
      ...process.env,
      FILE: resolve(file),
      CLI: resolve('dist/cli.js'),
      LINE: String(line),
      COLUMN: String(column),
      RESULT: result,
    },
  });
  return JSON.parse(readFileSync(result, 'utf8')) as Seen;
}

describe('Neovim', () => {
  const file = 'samples/spokewagon-as-found.amps';
  const lines = readFileSync(file, 'utf8').split('\n');
  const at = lines.findIndex((line) => line.includes('# finds: cable-too-small'));
  const seen = inNeovim(file, at, (lines[at] ?? '').indexOf('W40') + 1);

  it('shows every finding the sample is marked with, at its line', () => {
    const marked = lines.flatMap((line, number) => {
      const slug = /# finds: (\S+)/.exec(line)?.[1];
      return slug === undefined ? [] : [`${number} ${slug}`];
    });
    expect(seen.shown.map(({ line }, i) => `${line} ${seen.published[i]?.code}`).sort()).toEqual(marked.sort());
  });

  it('is given a page that is there on the disk', () => {
    for (const { code, codeDescription } of seen.published) {
      const path = fileURLToPath(codeDescription?.href ?? '');
      expect(existsSync(path), path).toBe(true);
      expect(path).toContain(`${code}.md`);
    }
  });

  it('shows the figures of a run on hover', () => {
    for (const words of ['W40', '40.7 A', 'F8']) expect(seen.hover.contents.value).toContain(words);
  });
});
