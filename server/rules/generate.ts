/** Writes the registry of rules from the folder; it must not read the registry it writes. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** The registry's text. A rule's file is one that exports `rule`. */
export function rulesRegistry(folder: string): string {
  const names = readdirSync(folder)
    .filter((file) => file.endsWith('.ts') && /^export const rule\b/m.test(readFileSync(join(folder, file), 'utf8')))
    .map((file) => file.slice(0, -3))
    .sort();
  const camel = (name: string) => name.replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase());
  return `// Made from the folder by generate.ts; do not edit by hand.
${names.map((name) => `import { rule as ${camel(name)} } from './${name}.ts';`).join('\n')}
import type { Rule } from './rule.ts';

export const allRules: readonly Rule[] = [
${names.map((name) => `  ${camel(name)},`).join('\n')}
];
`;
}

export function writeRulesRegistry(folder: string): boolean {
  const path = join(folder, 'all.ts');
  const text = rulesRegistry(folder);
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
