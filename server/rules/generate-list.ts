/** The list of findings, as it stands in the reference and as a page of its own. */
import { readFileSync, writeFileSync } from 'node:fs';
import { allRules } from './all.ts';
import type { Rule } from './rule.ts';

const groups: readonly (readonly [Rule['group'], string])[] = [
  ['cable', 'Cables'],
  ['protection', 'Fuses and breakers'],
  ['switching', 'Isolators and switches'],
  ['entries', 'Boxes and entries'],
  ['battery', 'Batteries and returns'],
  ['panels', 'Panels and controllers'],
  ['network', 'The circuit'],
  ['spec', 'What the spec asks for'],
  ['language', 'The notation itself'],
];

/** A table for every group; `link` makes the first column of a slug. */
export function findingsList(heading: string, link: (slug: string) => string): string {
  return groups
    .flatMap(([group, title]) => {
      const rules = allRules.filter((rule) => rule.group === group);
      if (rules.length === 0) return [];
      const rows = rules.map(({ slug, severity, page }) => `| ${link(slug)} | ${severity} | ${page.title} |`);
      return [`${heading} ${title}\n\n| finding | level | what is wrong |\n|---|---|---|\n${rows.join('\n')}`];
    })
    .join('\n\n');
}

const [open, close] = ['<!-- from the rules: findings -->', '<!-- end: findings -->'];

/** Rewrites what stands between the markers. Throws where one is missing. */
export function listedIn(page: string): string {
  const [start, end] = [page.indexOf(open), page.indexOf(close)];
  if (start === -1 || end < start) throw new Error('the page has no place for the findings');
  const list = findingsList('###', (slug) => `\`${slug}\``);
  return `${page.slice(0, start + open.length)}\n\n${list}\n\n${page.slice(end)}`;
}

export function writeList(path: string): boolean {
  const before = readFileSync(path, 'utf8');
  const text = listedIn(before);
  if (before === text) return false;
  writeFileSync(path, text);
  return true;
}

/** The page that lists all the others. */
export function listPage(): string {
  return `# What is found\n\n${findingsList('##', (slug) => `[${slug}](${slug}.md)`)}\n`;
}
