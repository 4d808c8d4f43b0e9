/** Writes the page of every finding, for the packaged extension. */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { allRules } from './all.ts';
import { listPage } from './generate-list.ts';
import { pageOf } from './pages.ts';

export function writePages(folder: string): void {
  // A page of a rule that is no more would still be packaged.
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  for (const rule of allRules) writeFileSync(join(folder, `${rule.slug}.md`), pageOf(rule));
  writeFileSync(join(folder, 'README.md'), listPage());
}
