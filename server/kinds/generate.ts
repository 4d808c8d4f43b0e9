/** Writes the registry of kinds and statements from the folder; run by `npm run generate` and before every build. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** The registry's text, from what stands in the folder. A kind's file is one that exports `kind`. */
export function kindsRegistry(folder: string): string {
  const names = (directory: string, exported: string) =>
    readdirSync(directory)
      .filter(
        (file) =>
          file.endsWith('.ts') && readFileSync(join(directory, file), 'utf8').includes(`export const ${exported}:`),
      )
      .map((file) => file.slice(0, -3))
      .sort();
  const camel = (name: string) => name.replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase());
  const kinds = names(folder, 'kind');
  const statements = names(join(folder, 'statements'), 'statement');
  const imports = [
    ...kinds.map((name) => `import { kind as ${camel(name)}Kind } from './${name}.ts';`),
    ...statements.map((name) => `import { statement as ${camel(name)}Statement } from './statements/${name}.ts';`),
  ];
  return `// Made from the folder by generate.ts; do not edit by hand.
import type { StatementSpec } from '../../grammar/vocabulary.ts';
${imports[0]}
import type { KindSpec } from './kind.ts';
${imports.slice(1).join('\n')}

export const allKinds: readonly KindSpec[] = [
${kinds.map((name) => `  ${camel(name)}Kind,`).join('\n')}
];

export const allStatements: readonly StatementSpec[] = [
${statements.map((name) => `  ${camel(name)}Statement,`).join('\n')}
];
`;
}

/** Writes the registry when it is stale; true when it wrote. */
export function writeKindsRegistry(folder: string): boolean {
  const path = join(folder, 'all.ts');
  const text = kindsRegistry(folder);
  let before = '';
  try {
    before = readFileSync(path, 'utf8');
  } catch {
    // A first run has nothing to compare with.
  }
  if (before === text) return false;
  writeFileSync(path, text);
  return true;
}
