import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const told = (ways: string) =>
  analyseText(`system "Van" 12 V\nfusebox fb 6 ways, total 30 A\n    ${ways}\n`)
    .findings.filter(({ slug }) => slug === 'blank-unfilled')
    .map(({ message, subject }) => [subject, message.slice(0, message.indexOf(' has a blank'))]);

describe('a blank in a fuse-board', () => {
  it('is told with its way', () => {
    expect(told('way 3 fuse ? A')).toEqual([['fb', 'Way 3 of fb']]);
    expect(told('ways 2  to 4 fuse ? A')).toEqual([['fb', 'Ways 2 to 4 of fb']]);
    expect(told('way 1 fuse 5 A, way 6 fuse ? A')).toEqual([['fb', 'Way 6 of fb']]);
  });
});
