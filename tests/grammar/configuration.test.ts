/** What the editor itself does with a spec: comments, quotes, words, indentation after Enter. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

interface Rule {
  readonly beforeText: string | { readonly pattern: string; readonly flags?: string };
  readonly action: { readonly indent: string; readonly appendText?: string };
}

const configuration = JSON.parse(readFileSync('grammar/language-configuration.json', 'utf8')) as {
  readonly comments: { readonly lineComment: string };
  readonly autoClosingPairs: readonly {
    readonly open: string;
    readonly close: string;
    readonly notIn: readonly string[];
  }[];
  readonly wordPattern: { readonly pattern: string; readonly flags: string };
  readonly onEnterRules: readonly Rule[];
};

const regExp = (rule: Rule['beforeText']) =>
  typeof rule === 'string' ? new RegExp(rule) : new RegExp(rule.pattern, rule.flags);

/** What Enter puts before the next line: the same indentation as the line's, and what the first rule that fits appends. */
function afterEnter(line: string): string {
  const rule = configuration.onEnterRules.find(({ beforeText }) => regExp(beforeText).test(line));
  return (/^\s*/.exec(line)?.[0] ?? '') + (rule?.action.appendText ?? '');
}

describe('a word', () => {
  const { pattern, flags } = configuration.wordPattern;
  it.each([
    ['run W1  6 mm² red, P1:+ to U1:pv-', ['run', 'W1', '6', 'mm²', 'red', 'P1:+', 'to', 'U1:pv-']],
    ['enclosure ROOF-BOX', ['enclosure', 'ROOF-BOX']],
    ['voc drift -0.30 %/°C', ['voc', 'drift', '-0.30', 'C']],
    ['蓄电池 Grün_1 Q1:', ['蓄电池', 'Grün_1', 'Q1:']],
  ])('%s', (line, words) => {
    expect(line.match(new RegExp(pattern, `g${flags}`))).toEqual(words);
  });

  it('is never empty, which would hang an editor', () => {
    expect(new RegExp(pattern, flags).test('')).toBe(false);
  });
});

describe('Enter', () => {
  it.each([
    ['run W1  6 mm² red, 4.2 m,', '    '],
    ['run W1  6 mm² red, 4.2 m, A:1 to', '    '],
    ['run W1  2 x 2.5 mm², 4.2 m', '    '],
    ['run W1  2 x ? mm²', '    '],
    ['Ωfuse F1,', '    '],
    ['    red  A:1 to B:1', '    '],
    ['    # a note', '    '],
    ['\tred', '\t'],
    ['run W1  6 mm² red, 4.2 m, A:1 to B:1', ''],
    ['# one, two,', ''],
    ['fuse F1  5 A # one, two,', ''],
    ['system "Shed" 12 V', ''],
    ['', ''],
  ])('behind “%s” begins the next line with “%s”', (line, indentation) => {
    expect(afterEnter(line)).toBe(indentation);
  });
});

describe('comments and quotes', () => {
  it('are # and "', () => {
    expect(configuration.comments.lineComment).toBe('#');
    expect(configuration.autoClosingPairs).toEqual([{ open: '"', close: '"', notIn: ['string', 'comment'] }]);
  });
});
