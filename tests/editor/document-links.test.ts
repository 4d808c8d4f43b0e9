import { describe, expect, it } from 'vitest';
import { documentLinks } from '../../server/editor/document-links.ts';
import { memorySource } from '../analysed.ts';
import { analyseFiles } from './editing.ts';
import { marked } from './marking.ts';

describe('links', () => {
  it('lead to the files that are used and to the pages of findings that are accepted', () => {
    const spec = marked(`use "«stock.amps»"
use "nowhere.amps"
run W1  1 mm² red, 1 m
allow «drop-over-limit» on W1 "short"
allow no-such-finding "why"
allow drop-over-limit-x "why"
# allow drop-over-limit "no"
`);
    const files = { 'spec.amps': spec.text, 'stock.amps': 'stock thin  cable 1 mm²\n' };
    const links = documentLinks(analyseFiles(files), {
      resolve: memorySource(files).resolve,
      pageUri: (slug) => `pages:/${slug}.md`,
    });
    expect(spec.with(links.map(({ range }) => range))).toBe(spec.with(rangesOf(spec)));
    expect(links.map(({ target, tooltip }) => [target, tooltip])).toEqual([
      ['memory:///stock.amps', 'Open stock.amps'],
      ['pages:/drop-over-limit.md', 'Too much voltage lost on the way'],
    ]);
  });

  it('to pages are none where there are no pages', () => {
    const analysis = analyseFiles({ 'spec.amps': 'allow drop-over-limit "short"\n' });
    expect(documentLinks(analysis, { resolve: (_, path) => path, pageUri: () => undefined })).toEqual([]);
  });
});

function rangesOf({ text, spans }: ReturnType<typeof marked>) {
  const place = (offset: number) => {
    const before = text.slice(0, offset).split('\n');
    return { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
  };
  return spans.map(({ start, end }) => ({ start: place(start), end: place(end) }));
}
