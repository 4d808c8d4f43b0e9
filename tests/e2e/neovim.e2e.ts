/**
 * A second real client over standard input and output: Neovim's own, which is pushed what is found. It opens the as-found
 * sample, where every electrical rule is marked, and `findings/`, which has a small spec for each of the others: without its
 * file a rule's mark stays unanswered here.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { marksIn } from '../rules/markers.ts';

interface Seen {
  readonly published: readonly {
    readonly code: string;
    readonly message: string;
    readonly source: string;
    readonly codeDescription?: { readonly href: string };
  }[];
  readonly shown: readonly { readonly line: number; readonly column: number; readonly code: string }[];
  readonly hover?: { readonly contents: { readonly value: string } };
}

function inNeovim(files: readonly string[], line: number, column: number): Readonly<Record<string, Seen>> {
  const result = resolve('out', 'neovim.json');
  execFileSync('nvim', ['--headless', '-u', 'NONE', '-i', 'NONE', '-c', `luafile ${resolve('tests/e2e/neovim.lua')}`], {
    stdio: ['ignore', 'ignore', 'inherit'],
    timeout: 120_000,
    env: {
      ...process.env,
      FILES: files.map((file) => resolve(file)).join('\n'),
      CLI: resolve('dist/cli.js'),
      LINE: String(line),
      COLUMN: String(column),
      RESULT: result,
    },
  });
  return JSON.parse(readFileSync(result, 'utf8')) as Readonly<Record<string, Seen>>;
}

describe('Neovim', () => {
  const sample = 'samples/spokewagon-as-found.amps';
  const small = readdirSync('tests/e2e/findings')
    .sort()
    .map((name) => join('tests/e2e/findings', name, 'spec.amps'));
  const lines = readFileSync(sample, 'utf8').split('\n');
  const at = lines.findIndex((line) => line.includes('# finds: cable-too-small'));
  const all = inNeovim([sample, ...small], at, (lines[at] ?? '').indexOf('W40') + 1);
  const seen = (file: string) => all[resolve(file)] ?? { published: [], shown: [] };

  it.each([sample, ...small])('shows every finding that %s is marked with, at its line', (file) => {
    const marked = marksIn(readFileSync(file, 'utf8')).map(({ line, slug }) => `${line} ${slug}`);
    expect(marked.length).toBeGreaterThan(0);
    expect(
      seen(file)
        .shown.map(({ line, code }) => `${line + 1} ${code}`)
        .sort(),
    ).toEqual(marked.sort());
  });

  it('is shown every rule there is', () => {
    // The two that tell of a fault in the program itself are made to happen in tests/rules/run.test.ts.
    const own = ['answers-failed', 'rule-failed'];
    const pages = readdirSync('dist/pages').filter((name) => name !== 'README.md');
    const slugs = pages.map((name) => name.replace(/\.md$/, ''));
    const shown = new Set(Object.values(all).flatMap(({ shown: list }) => list.map(({ code }) => code)));
    expect(slugs.filter((slug) => !shown.has(slug))).toEqual(own);
  });

  it('is given pages that are there on the disk', () => {
    for (const { code, codeDescription } of Object.values(all).flatMap(({ published }) => published)) {
      const path = fileURLToPath(codeDescription?.href ?? '');
      expect(existsSync(path), path).toBe(true);
      expect(path).toContain(`${code}.md`);
    }
  });

  it('shows the figures of a run on hover', () => {
    for (const words of ['W40', '40.7 A', 'F8']) expect(seen(sample).hover?.contents.value).toContain(words);
  });
});
