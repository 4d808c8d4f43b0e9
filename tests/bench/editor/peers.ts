/** Documents of other languages with as many lines, and the servers of other projects that are timed on them in the same run. */
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import type { Edited } from './specs.ts';

/** A language server and how it is started. */
export interface Server {
  readonly name: string;
  readonly command: readonly string[];
  /** What it is started with besides, as its editor does: what Node is told, and its surroundings. */
  readonly engine?: readonly string[];
  readonly environment?: NodeJS.ProcessEnv;
  /** The language's name in the protocol, and the ending of its files. */
  readonly language: string;
  readonly ending: string;
  /** How its findings come. */
  readonly findings: 'push' | 'pull';
  /** What it is told when it asks for its settings. */
  readonly settings?: object;
  document(lines: number): Edited;
}

const json: Server = {
  name: 'JSON server, pull',
  command: ['node_modules/vscode-langservers-extracted/bin/vscode-json-language-server', '--stdio'],
  language: 'json',
  ending: 'json',
  findings: 'pull',
  document: (lines) => ({
    text: repeated(
      lines,
      // The same key twice is its permanent finding.
      ['[', '  { "name": "W0", "name": "W0" },'],
      (n) => ['  {', `    "name": "W${n}",`, `    "amps": ${n % 40}.5,`, '    "fused": true,', '    "size": 6', '  },'],
      ['  {}', ']'],
    ),
    edits: { find: '"fused": true', replace: '"fused": tru', spots: 15, completion: { find: '"fused": ', at: 'end' } },
  }),
};

const prisma: Server = {
  name: 'Prisma, push',
  command: ['node_modules/@prisma/language-server/dist/bin.js', '--stdio'],
  language: 'prisma',
  ending: 'prisma',
  findings: 'push',
  settings: { prisma: { enableDiagnostics: true } },
  document: (lines) => ({
    text: repeated(
      lines,
      // A type that is not there is its permanent finding.
      ['datasource db {', '  provider = "postgresql"', '}', 'model First {', '  id Int @id', '  odd Nothing', '}'],
      (n) => [`model W${n} {`, '  id Int @id', '  name String', '  amps Float', '  size Int', '}'],
      [],
    ),
    edits: { find: 'amps Float', replace: 'amps Floaz', spots: 15 },
  }),
};

/** In one file, as servers are published: reading many small ones would count as its start. */
const langiumBundle = 'out/langium-peer.mjs';

const langium: Server = {
  name: 'Langium entities, push',
  command: [langiumBundle, '--stdio'],
  language: 'domain-model',
  ending: 'dmodel',
  findings: 'push',
  document: (lines) => ({
    text: repeated(
      lines,
      // A type that is not there is its permanent finding.
      ['datatype String', 'entity First {', '    odd: Nothing', '}'],
      (n) => [
        `entity W${n} extends First {`,
        '    name: String',
        '    amps: String',
        '    size: String',
        `    next: W${n}`,
        '}',
      ],
      [],
    ),
    edits: { find: 'amps: String', replace: 'amps: Strinz', spots: 15 },
  }),
};

/** The peers that are installed, and the names of those that are not. */
export function peers(): { readonly here: readonly Server[]; readonly missing: readonly string[] } {
  if (existsSync('node_modules/langium')) bundleLangium();
  const all = [json, prisma, langium];
  const isHere = ({ command }: Server) => existsSync(command[0] ?? '');
  return { here: all.filter(isHere), missing: all.filter((one) => !isHere(one)).map(({ name }) => name) };
}

function bundleLangium(): void {
  execFileSync('node_modules/.bin/esbuild', [
    'tests/bench/editor/langium-peer.mjs',
    '--bundle',
    '--platform=node',
    '--format=esm',
    // Some of what it is bundled with asks for `require`.
    "--banner:js=import { createRequire } from 'node:module'; const require = createRequire(import.meta.url);",
    `--outfile=${langiumBundle}`,
    '--log-level=error',
  ]);
}

/** A text of exactly so many lines; what is left over is left empty. */
function repeated(
  lines: number,
  first: readonly string[],
  block: (n: number) => readonly string[],
  last: readonly string[],
): string {
  const made = [...first];
  for (let n = 1; made.length + block(n).length + last.length <= lines; n += 1) made.push(...block(n));
  made.push(...last);
  return [...made, ...Array<string>(lines - made.length).fill(''), ''].join('\n');
}
