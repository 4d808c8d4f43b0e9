import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseDocument } from '../../grammar/parse.ts';
import { splitStatements } from '../../grammar/statements.ts';
import { vocabulary } from './vocabulary.ts';

const never = () => false;
const pieces = (text: string, opens: (line: string) => boolean = never) =>
  splitStatements(text, opens).chunks.map(({ kind, start, end }) => [kind, text.slice(start, end)]);

describe('a text is cut into statements and gaps', () => {
  it('a statement begins at the margin and goes on over indented lines', () => {
    expect(pieces('run W1\n    red\n\tblue\nfuse F1\n')).toEqual([
      ['statement', 'run W1\n    red\n\tblue\n'],
      ['statement', 'fuse F1\n'],
    ]);
  });

  it('blank and comment lines inside it end nothing; behind its last line they are a gap', () => {
    expect(pieces('run W1\n\n# note\n    red\n\n# about F1\nfuse F1')).toEqual([
      ['statement', 'run W1\n\n# note\n    red\n'],
      ['gap', '\n# about F1\n'],
      ['statement', 'fuse F1'],
    ]);
  });

  it('an indented comment behind the last line belongs to the gap', () => {
    expect(pieces('run W1\n    # spare is blue\nfuse F1\n')).toEqual([
      ['statement', 'run W1\n'],
      ['gap', '    # spare is blue\n'],
      ['statement', 'fuse F1\n'],
    ]);
  });

  it('an indented first line is a statement', () => {
    expect(pieces('  red A to B\n  blue\n')).toEqual([['statement', '  red A to B\n  blue\n']]);
  });

  it('line ends may be CRLF, the last may be missing, a byte order mark may lead', () => {
    expect(pieces('\uFEFFrun W1\r\n    red\r\n\r\nfuse F1')).toEqual([
      ['gap', '\uFEFF'],
      ['statement', 'run W1\r\n    red\r\n'],
      ['gap', '\r\n'],
      ['statement', 'fuse F1'],
    ]);
  });

  it('a lone carriage return is white space', () => {
    expect(pieces('run W1\r    red\nfuse F1')).toHaveLength(2);
  });

  it('nothing makes nothing, blanks make a gap', () => {
    expect(pieces('')).toEqual([]);
    expect(pieces(' \n\t\n#')).toEqual([['gap', ' \n\t\n#']]);
  });

  it('says the line each piece begins on', () => {
    expect(splitStatements('# a\nrun W1\n\n  red\n\nfuse F1\n', never).chunks.map(({ line }) => line)).toEqual([
      0, 1, 4, 5,
    ]);
  });

  it('covers any text end to end', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom('run', ' ', '\n', '#', '\r\n', '\t', '\u00a0', '"', 'é')), (parts) => {
        const text = parts.join('');
        expect(
          pieces(text)
            .map(([, piece]) => piece)
            .join(''),
        ).toBe(text);
      }),
    );
  });

  it('takes time by its length only, with thousands of comment lines', () => {
    const text = `run W1\n${'# comment\n'.repeat(50_000)}    red\n`;
    expect(splitStatements(text, never).chunks).toHaveLength(1);
  });
});

describe('an indented statement', () => {
  const keywords = (text: string) => parseDocument(text, vocabulary).statements.map(({ node }) => node.keyword?.value);

  it.each([
    ['load L 5 W\n  fuse F1 80 A', ['load', 'fuse']],
    ['load L 5 W\n  fuse ? A', ['load']],
    ['load L 5 W\n  place LOFT', ['load', 'place']],
    ['load L 5 W\n  use "x"', ['load', 'use']],
    ['load L 5 W\n  use"x"', ['load', 'use']],
    ['load L 5 W\n  use = x', ['load']],
    ['load L 5 W\n  fuses F1', ['load']],
    ['run W1 6 mm²\n  red A to B', ['run']],
  ])('%s', (text, words) => {
    expect(keywords(text)).toEqual(words);
  });

  it('is a clause where the statement above has one that begins with these two words', () => {
    expect(keywords('controller U1 mppt\n    load output 15 A')).toEqual(['controller']);
    expect(keywords('stock s controller mppt\n    load output 15 A')).toEqual(['stock']);
    expect(keywords('fuse F1 80 A\n    load output 15 A')).toEqual(['fuse', 'load']);
  });
});

describe('notes', () => {
  const notes = (text: string) => parseDocument(text, vocabulary).statements.map((statement) => statement.notes);

  it('are the comment lines directly above', () => {
    expect(notes('# far\n\n# near\n#  nearer  \nfuse F1 80 A')).toEqual(['near\n nearer']);
    expect(notes('fuse F1 80 A # behind\nfuse F2 80 A')).toEqual(['', '']);
    expect(notes('# above\n\nfuse F1 80 A')).toEqual(['']);
    expect(notes('# crlf\r\nfuse F1 80 A\r\n')).toEqual(['crlf']);
  });
});
