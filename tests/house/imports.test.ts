/** The direction of imports: what is below knows nothing of what is above. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, posix, relative, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = resolve('.');

function sources(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => posix.join(folder, name.replaceAll('\\', '/')));
}

/** What each layer may import besides itself. `session` is the server's, and the client shares its words. */
const allowed: Readonly<Record<string, readonly string[]>> = {
  grammar: [],
  tables: ['grammar'],
  physics: ['tables'],
  kinds: ['grammar', 'tables'],
  model: ['grammar', 'kinds', 'tables', 'physics'],
  answers: ['grammar', 'kinds', 'model', 'physics', 'tables'],
  rules: ['grammar', 'kinds', 'model', 'answers', 'physics', 'tables', 'analysis'],
  sections: ['grammar', 'kinds', 'model', 'answers', 'physics', 'rules'],
  analysis: ['grammar', 'kinds', 'model', 'answers', 'physics', 'rules', 'sections'],
  reports: ['grammar', 'kinds', 'model', 'answers', 'physics', 'rules', 'tables', 'analysis'],
  editor: ['grammar', 'kinds', 'model', 'answers', 'physics', 'rules', 'tables', 'analysis', 'reports'],
  cli: ['grammar', 'kinds', 'model', 'answers', 'rules', 'tables', 'analysis', 'reports', 'session', 'package.json'],
  session: ['grammar', 'editor', 'model', 'analysis', 'reports'],
  main: ['session'],
  // The view draws what the server has laid out.
  client: ['session', 'reports'],
};

function layerOf(file: string): string {
  const [top, second = ''] = file.split('/');
  if (top !== 'server') return top ?? '';
  return second.endsWith('.ts') ? (second.split('.')[0] ?? '') : second;
}

interface Arrow {
  readonly from: string;
  readonly to: string;
}

const specifiers = /(?:^|\n)\s*(?:import|export)\s[^;]*?from\s+'([^']+)'|import\('([^']+)'\)|\brequire\('([^']+)'\)/g;

function arrows(file: string): Arrow[] {
  return [...readFileSync(file, 'utf8').matchAll(specifiers)].map((match) => {
    const specifier = match[1] ?? match[2] ?? match[3] ?? '';
    const to = specifier.startsWith('.')
      ? relative(root, resolve(dirname(file), specifier)).replaceAll('\\', '/')
      : specifier;
    return { from: file, to };
  });
}

const files = [...sources('grammar'), ...sources('server'), ...sources('client')];
const all = files.flatMap(arrows);

describe('imports', () => {
  it('are found at all', () => {
    expect(files.length).toBeGreaterThan(150);
    expect(all.length).toBeGreaterThan(500);
  });

  it('point from above to below', () => {
    const wrong = all.filter(({ from, to }) => {
      if (!/^(?:grammar|server|client)\//.test(to)) return false;
      const [one, other] = [layerOf(from), layerOf(to)];
      return one !== other && !(allowed[one] ?? []).includes(other);
    });
    expect(wrong).toEqual([]);
  });

  it('take the protocol in main, session, editor and client only', () => {
    const takers = all.filter(({ to }) => to.startsWith('vscode-language')).map(({ from }) => layerOf(from));
    expect([...new Set(takers)].sort()).toEqual(['client', 'editor', 'main', 'session']);
  });

  it('take the editor itself in the client only', () => {
    expect([...new Set(all.filter(({ to }) => to === 'vscode').map(({ from }) => layerOf(from)))]).toEqual(['client']);
  });

  it('keep files and processes out of whatever analyses', () => {
    // Generators run while building; the command and the node entries have a process, and a heap that is theirs.
    const allowedNode = (file: string) =>
      /^server\/(?:cli\/|session\/(?:engine-settings|load-quickly)|main\.(?:drawing\.|quick\.)?node\.ts)|generate|notation-page/.test(
        file,
      );
    const wrong = all.filter(({ from, to }) => to.startsWith('node:') && !allowedNode(from));
    expect(wrong).toEqual([]);
  });

  it('go in no circle between folders of the same layer’s files', () => {
    const known = new Set(files);
    const next = new Map<string, string[]>();
    // Types vanish when built, and may refer to each other.
    for (const file of files) {
      const text = readFileSync(join(root, file), 'utf8').replace(/import type [^;]+;/g, '');
      const targets = [...text.matchAll(specifiers)]
        .map((match) => match[1] ?? match[2] ?? '')
        .filter((to) => to.startsWith('.'))
        .map((to) => relative(root, resolve(dirname(file), to)).replaceAll('\\', '/'));
      next.set(
        file,
        targets.filter((to) => known.has(to)),
      );
    }
    const circles: string[][] = [];
    const done = new Set<string>();
    const walk = (file: string, path: readonly string[]) => {
      const at = path.indexOf(file);
      if (at >= 0) {
        circles.push([...path.slice(at), file]);
        return;
      }
      if (done.has(file)) return;
      for (const to of next.get(file) ?? []) walk(to, [...path, file]);
      done.add(file);
    };
    for (const file of files) walk(file, []);
    expect(circles).toEqual([]);
  });
});
