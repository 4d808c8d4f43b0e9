/** No fix of a finding loses a comment: every line of what is found wrong anywhere is given one, and every fix is applied. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { allRules } from '../../../server/rules/all.ts';
import { withoutMarkers } from '../../../server/rules/pages.ts';
import { analyseText } from '../../analysed.ts';
import { applied } from '../../rules/applied.ts';

interface Source {
  readonly text: string;
  readonly files: Readonly<Record<string, string>>;
}

const sources: readonly Source[] = [
  {
    text: readFileSync('samples/spokewagon-as-found.amps', 'utf8'),
    files: { 'stock.amps': readFileSync('samples/stock.amps', 'utf8') },
  },
  ...allRules.flatMap(({ page }) => page.wrong.map(({ spec, files = {} }) => ({ text: spec, files }))),
];

/** A numbered comment behind every line that can have one: not behind a text that is not closed. */
function commented(text: string): { readonly text: string; readonly comments: readonly string[] } {
  const comments: string[] = [];
  const lines = text.split('\n').map((line) => {
    if (line.trim() === '' || line.includes('#') || line.split('"').length % 2 === 0) return line;
    comments.push(`# note ${comments.length}.`);
    return `${line}  ${comments.at(-1)}`;
  });
  return { text: lines.join('\n'), comments };
}

it('every fix keeps every comment', () => {
  let tried = 0;
  for (const source of sources) {
    const { text, comments } = commented(withoutMarkers(source.text));
    const files = Object.fromEntries(
      Object.entries(source.files).map(([name, other]) => [name, withoutMarkers(other)] as const),
    );
    for (const { slug, fixes } of analyseText(text, files).findings)
      for (const { title, edits } of fixes) {
        const after = applied({ ...files, 'spec.amps': text }, edits)['spec.amps'] ?? '';
        expect([slug, title, comments.filter((one) => !after.includes(one))]).toEqual([slug, title, []]);
        tried += 1;
      }
  }
  expect(tried).toBeGreaterThan(100);
}, 60_000);
