import { describe, expect, it } from 'vitest';
import type { SelectionRange } from 'vscode-languageserver';
import { selectionRanges } from '../../server/editor/selection-ranges.ts';
import { analyseText } from '../analysed.ts';
import { marked } from './marking.ts';

/** What a selection at the `|` grows through, from the smallest on. */
function grown(source: string): string[] {
  const { text, offset, words } = marked(source);
  const [range] = selectionRanges(analyseText(text), [offset]);
  const steps: string[] = [];
  for (let at: SelectionRange | undefined = range; at !== undefined; at = at.parent) steps.push(words(at.range));
  return steps;
}

describe('a selection grows', () => {
  it('from a terminal to its end, the clause, the line, the statement with its notes, the paragraph and the file', () => {
    expect(grown('load A  5 W\n\n# Notes\nrun W1  1 mm² red, 1 m, F1:o|ut to A:+\n    in conduit\nfuse F1\n')).toEqual([
      'out',
      'F1:out',
      'F1:out to A:+',
      'run W1  1 mm² red, 1 m, F1:out to A:+',
      'run W1  1 mm² red, 1 m, F1:out to A:+\n    in conduit',
      '# Notes\nrun W1  1 mm² red, 1 m, F1:out to A:+\n    in conduit',
      '# Notes\nrun W1  1 mm² red, 1 m, F1:out to A:+\n    in conduit\nfuse F1',
      'load A  5 W\n\n# Notes\nrun W1  1 mm² red, 1 m, F1:out to A:+\n    in conduit\nfuse F1\n',
    ]);
  });

  it('from the part of an end, a number, a unit and the words of a title', () => {
    expect(grown('run W1  1 mm² red, F|1:out to A:+').slice(0, 3)).toEqual(['F1', 'F1:out', 'F1:out to A:+']);
    expect(grown('fuse F1  2|5 A').slice(0, 3)).toEqual(['25', '25 A', 'fuse F1  25 A']);
    expect(grown('fuse F1  25 |A').slice(0, 2)).toEqual(['A', '25 A']);
    expect(grown('fuse F1 "Main| fuse"  25 A').slice(0, 2)).toEqual(['Main fuse', '"Main fuse"']);
  });

  it('from a word of a remark to the remark and its line', () => {
    expect(grown('fuse F1  25 A  # the ol|d one').slice(0, 3)).toEqual([
      'old',
      '# the old one',
      'fuse F1  25 A  # the old one',
    ]);
  });

  it('from a word of a remark with quotes, and of one that only looks so', () => {
    expect(grown('load A  5 W  # the "ol|d" one').slice(0, 2)).toEqual(['old', '# the "old" one']);
    expect(grown('load A "No # 1|"  5 W').slice(0, 2)).toEqual(['No # 1', '"No # 1"']);
  });

  it('from a remark to those around it, and to the statement that they are notes of', () => {
    expect(grown('# One\n# tw|o\n\n# Above\nload B  5 W\n').slice(0, 3)).toEqual(['two', '# two', '# One\n# two']);
    expect(grown('load A  5 W\n# On|e\n# two\nload B  5 W\n    1 h/day\nload C  5 W\n')).toEqual([
      'One',
      '# One',
      '# One\n# two',
      '# One\n# two\nload B  5 W\n    1 h/day',
      'load A  5 W\n# One\n# two\nload B  5 W\n    1 h/day\nload C  5 W',
      'load A  5 W\n# One\n# two\nload B  5 W\n    1 h/day\nload C  5 W\n',
    ]);
    expect(grown('load A  5 W\n    # on|e\n    # two\n    1 h/day\n').slice(0, 4)).toEqual([
      'one',
      '# one',
      '# one\n    # two',
      'load A  5 W\n    # one\n    # two\n    1 h/day',
    ]);
  });

  it('at several places at once, each by itself', () => {
    const text = 'fuse F1  25 A\n';
    const ranges = selectionRanges(analyseText(text), [6, 10]);
    expect(ranges.map(({ range }) => marked(text).words(range))).toEqual(['F1', '25']);
    expect(selectionRanges(analyseText(''), [0])).toEqual([
      { range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } } },
    ]);
  });
});
