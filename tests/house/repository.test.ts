/** The repository itself: its layout, what may not stand in it, and that its lists are whole. */
import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseDocument } from '../../grammar/parse.ts';
import { vocabulary } from '../../server/kinds/vocabulary.ts';
import { allRules } from '../../server/rules/all.ts';
import { listPage } from '../../server/rules/generate-list.ts';

const files = execFileSync('git', ['ls-files', '-co', '--exclude-standard'], { encoding: 'utf8' })
  .split('\n')
  .filter((file) => file !== '' && existsSync(file));
const texts = files.filter((file) => !/\.png$/.test(file));
const read = (file: string) => readFileSync(file, 'utf8');
const json = (file: string) => JSON.parse(read(file)) as Record<string, never>;

/** Files in which a pattern stands, with the words found. */
function holding(pattern: RegExp, among: readonly string[] = texts): string[] {
  return among.flatMap((file) => {
    const match = pattern.exec(read(file));
    return match === null ? [] : [`${file}: ${match[0]}`];
  });
}

describe('the repository', () => {
  it('has the fixed top level and nothing else', () => {
    const top = new Set(files.map((file) => file.split('/')[0] ?? ''));
    const fixed = [
      ...['package.json', 'tsconfig.json', 'esbuild.mjs', 'README.md', 'DEVELOPERS.md', 'client', 'server', 'grammar'],
      ...['tests', 'samples', 'LICENSE', 'NOTICE', 'CHANGELOG.md', 'package-lock.json', 'package.nls.json'],
      ...['biome.json', 'vitest.config.mjs', '.ci', '.npmrc', '.gitignore'],
    ];
    expect([...top].sort()).toEqual(fixed.sort());
  });

  it('names no path of a machine and no registry', () => {
    const home = basename(resolve('..')) === '' ? [] : [resolve('..')];
    const here = home.filter((path) => path.length > 4);
    for (const path of here) expect(holding(new RegExp(`${path}/`))).toEqual([]);
    // Spelt apart, so that this file does not find itself.
    expect(holding(new RegExp(`/${'home'}/\\w+/|/${'Users'}/\\w+/|[A-Z]:\\\\\\\\Users|registry\\.npm${'js'}`))).toEqual(
      [],
    );
  });

  it('records no address in its lock file', () => {
    expect(read('package-lock.json')).not.toContain('"resolved": "http');
    expect(read('.npmrc')).toContain('omit-lockfile-registry-resolved=true');
  });

  it('pins every library to one version', () => {
    const manifest = JSON.parse(read('package.json')) as { devDependencies: Record<string, string> };
    for (const [name, version] of Object.entries(manifest.devDependencies))
      expect(version, name).toMatch(/^\d+\.\d+\.\d+$/);
  });

  it('tells of every library why it is there', () => {
    const manifest = JSON.parse(read('package.json')) as { devDependencies: Record<string, string> };
    const told = read('DEVELOPERS.md');
    const grouped = (name: string) => name.replace(/^@types\/.*/, '@types/');
    for (const name of Object.keys(manifest.devDependencies)) {
      const last =
        name.startsWith('vscode-languageserver') || name === 'vscode-languageclient' ? 'vscode-languageserver' : name;
      expect(told, name).toContain(grouped(last));
    }
  });

  it('lists in NOTICE every library that is bundled', () => {
    const bundled = [...read('dist/LICENSES.txt').matchAll(/^(\S+) \d+\.\d+\.\d+ \(.+\)$/gm)].map((match) => match[1]);
    const listed = [...read('NOTICE').matchAll(/^(\S+) {2,}\S+ {2,}/gm)].map((match) => match[1]);
    expect(bundled.length).toBeGreaterThan(10);
    expect(listed).toEqual(bundled);
  });

  it('has no test that asserts nothing, is left out or stands alone', () => {
    const tests = files.filter((file) => /\.(?:test|e2e)\.ts$/.test(file));
    expect(tests.length).toBeGreaterThan(40);
    const scenario = 'findingsInTheEditor';
    for (const file of tests)
      expect(/\bexpect\b|\bassert\b/.test(read(file)) || read(file).includes(scenario), file).toBe(true);
    expect(holding(/\.(?:skip|only|todo|fails)\(|\bxit\(|\bskipIf\(/, tests)).toEqual([]);
  });

  it('has no mark of unfinished work', () => {
    const unfinished = new RegExp(`\\b(?:TO${'DO'}|FIX${'ME'}|XX${'X'}|not ${'implemented'}|for ${'now'})\\b`);
    expect(
      holding(
        unfinished,
        texts.filter((file) => /\.(?:ts|mjs|js|json|md|amps|lua|run)$/.test(file)),
      ),
    ).toEqual([]);
  });

  it('keeps a source file to one idea', () => {
    const long = files
      .filter((file) => /^(?:client|server|grammar)\/.*\.ts$/.test(file))
      .map((file) => ({ file, lines: read(file).split('\n').length }))
      .filter(({ lines }) => lines > 420);
    expect(long).toEqual([]);
  });

  it('links only to files that are there', () => {
    for (const page of ['README.md', 'DEVELOPERS.md', 'CHANGELOG.md', 'grammar/NOTATION.md'])
      for (const [, target = ''] of read(page).matchAll(/\]\(([^)#\s]+)(?:#[^)]*)?\)/g))
        if (!/^[a-z]+:/.test(target)) expect(existsSync(resolve(page, '..', target)), `${page}: ${target}`).toBe(true);
  });

  it('shows in the README the first lamp as it is in the samples', () => {
    const statements = (text: string) => text.split('\n').filter((line) => line.trim() !== '' && !line.startsWith('#'));
    const shown = /```amps\n([\s\S]*?)```/.exec(read('README.md'))?.[1] ?? '';
    expect(statements(shown)).toEqual(statements(read('samples/first-lamp.amps')));
  });
});

describe('the manifest', () => {
  const manifest = JSON.parse(read('package.json')) as {
    readonly contributes: {
      readonly commands: readonly { readonly command: string; readonly title: string }[];
      readonly languages: readonly { readonly configuration: string; readonly extensions: readonly string[] }[];
      readonly grammars: readonly { readonly path: string }[];
      readonly snippets: readonly { readonly path: string }[];
    };
    readonly capabilities: Record<string, { readonly supported: boolean }>;
    readonly main: string;
    readonly browser: string;
    readonly bin: Record<string, string>;
  };
  const { contributes } = manifest;

  it('names files that are there', () => {
    const paths = [
      ...[manifest.main, manifest.browser, ...Object.values(manifest.bin)],
      ...[...contributes.languages.map((one) => one.configuration), ...contributes.grammars.map((one) => one.path)],
      ...contributes.snippets.map((one) => one.path),
    ];
    for (const path of paths) expect(existsSync(path), path).toBe(true);
  });

  it('has every command and no other in the client, with words for each', () => {
    const registered = files
      .filter((file) => file.startsWith('client/') && file.endsWith('.ts'))
      .flatMap((file) => [...read(file).matchAll(/registerCommand\('([^']+)'/g)].map((match) => match[1]));
    expect(registered.sort()).toEqual(contributes.commands.map(({ command }) => command).sort());
    const words = json('package.nls.json');
    for (const [, key = ''] of read('package.json').matchAll(/"%([^%]+)%"/g)) expect(words[key], key).toBeTruthy();
  });

  it('works in untrusted and virtual workspaces', () => {
    expect(manifest.capabilities).toEqual({
      untrustedWorkspaces: { supported: true },
      virtualWorkspaces: { supported: true },
    });
    // Nothing in a workspace is ever run: the client starts its own server and nothing else.
    expect(
      holding(
        /child_process|createTerminal|executeTask/,
        files.filter((file) => /^client\/.*\.ts$/.test(file)),
      ),
    ).toEqual([]);
  });

  it('has snippets that read without a problem', () => {
    const snippets = JSON.parse(read('client/snippets.json')) as Record<string, { readonly body: readonly string[] }>;
    for (const [name, { body }] of Object.entries(snippets)) {
      const first = new Map<string, string>();
      const text = body
        .join('\n')
        .replace(/\$\{(\d+)\|([^,|]*)[^}]*\|\}/g, (_all, number: string, choice: string) => {
          first.set(number, choice);
          return choice;
        })
        .replace(/\$\{(\d+):([^}]*)\}/g, (_all, number: string, value: string) => {
          first.set(number, value);
          return value;
        })
        .replace(/\$\{(\d+)\}/g, (_all, number: string) => first.get(number) ?? '')
        .replace('$0', '');
      expect(
        parseDocument(`${text}\n`, vocabulary).statements.flatMap(({ node, shaped }) => [
          ...node.problems,
          ...shaped.problems,
        ]),
        name,
      ).toEqual([]);
    }
  });
});

describe('the pages', () => {
  it('are built for every rule, and for no other', () => {
    const built = readdirSync('dist/pages').sort();
    expect(built).toEqual([...allRules.map(({ slug }) => `${slug}.md`), 'README.md'].sort());
    expect(read('dist/pages/README.md')).toBe(listPage());
  });
});
