import { describe, expect, it } from 'vitest';
import { type Expectation, expectedAt } from '../../grammar/expected.ts';
import { parseDocument } from '../../grammar/parse.ts';
import { vocabulary } from './vocabulary.ts';

/** The place is marked with `|`. */
function at(marked: string): Expectation & { readonly text: string } {
  const offset = marked.indexOf('|');
  const text = marked.replace('|', '');
  return { ...expectedAt(parseDocument(text, vocabulary), offset), text };
}

function words(marked: string): string[] {
  return [...new Set(at(marked).expected.map((one) => (one.is === 'word' ? one.word : `{${one.types.join('|')}}`)))];
}

const runClauses = (...but: string[]) =>
  [
    '=',
    '{times}',
    '{conductor}',
    'class',
    'copper',
    'aluminium',
    '{temperature}',
    'od',
    '{length}',
    '{colour}',
    'core',
    '{end}',
    'spare',
    'along',
    'bunched',
    'enters',
  ].filter((word) => !but.includes(word));

describe('where a place is', () => {
  it.each<[string, Expectation['where']]>([
    ['|', 'statement'],
    ['ru|', 'statement'],
    ['fuse F1 5 A\n|', 'statement'],
    ['fuse F1 5 A\n\n|\nload L 5 W', 'statement'],
    ['    |', 'statement'],
    ['run|', 'statement'],
    ['run |', 'name'],
    ['run W|', 'name'],
    ['panel P1 and |', 'name'],
    ['run W1 |', 'clause'],
    ['run W1 and |', 'clause'],
    ['stock |', 'name'],
    ['stock thin |', 'kind'],
    ['stock thin ca|', 'kind'],
    ['stock thin cable |', 'clause'],
    ['stock thin cabel |', 'clause'],
    ['use |', 'clause'],
    ['use "|', 'text'],
    ['use "st|ock.amps"', 'text'],
    ['use "stock.amps"|', 'clause'],
    ['system "Sh|', 'text'],
    ['# |', 'comment'],
    ['fuse F1 5 A # |', 'comment'],
    ['fuse F1 5 A # some words|', 'comment'],
    ['fuse F1 5 A # some words\n    |', 'clause'],
    ['fuse F1 5 A\n    # some| words', 'comment'],
    ['fuse F1 5|', 'unit'],
    ['fuse F1 5 |', 'unit'],
    ['fuse F1 ? |', 'unit'],
    ['fuse F1 5 A|', 'unit'],
    ['fuse F1 5 A |', 'clause'],
    ['wibble W |', 'clause'],
  ])('%s', (marked, where) => {
    expect(at(marked).where).toBe(where);
  });
});

describe('what is typed already', () => {
  it.each([
    ['ru|', 'ru', 'ru'],
    ['fuse F1 5 A, bla|', 'bla', 'bla'],
    ['fuse F1 5 A, bla|de, 5 V', 'bla', 'blade'],
    ['run W1 6m|', 'm', 'm'],
    ['run W1 6 m|', 'm', 'm'],
    ['run W1 A:p| to', 'A:p', 'A:p'],
    ['run W1 A:|pv+ to', 'A:', 'A:pv+'],
    ['run W1 =th|', 'th', 'th'],
    ['case c sun 0 %,LAM|', 'LAM', 'LAM'],
  ])('%s', (marked, prefix, replaced) => {
    const { prefix: typed, replace, text } = at(marked);
    expect([typed, text.slice(replace.start, replace.end)]).toEqual([prefix, replaced]);
  });
});

describe('what may come', () => {
  it.each<[string, string[]]>([
    ['run W1 |', runClauses()],
    ['run W1 6 mm² |', ['{colour}']],
    ['run W1 6 mm² red |', ['core', '{end}', 'spare']],
    ['run W1 6 mm² red, |', runClauses('{times}', '{conductor}')],
    ['run W1 6 mm² red\n    |', runClauses('{times}', '{conductor}')],
    ['run W1 6 mm² red, 4 m, A:1 |', ['to']],
    ['run W1 6 mm² red, 4 m, A:1 to |', ['{end}']],
    ['run W1 6 mm² red, 4 m, A:1 to\n    |', ['{end}']],
    ['run W1 |6 mm², 4 m', runClauses('{length}')],
    ['run W1 2 x |', ['{conductor}']],
    ['run W1 along |', ['{name<place>}']],
    ['run W1 along LOFT |', ['{length}', 'and']],
    ['run W1 along LOFT 2 m |', ['and']],
    ['run W1 along LOFT 2 m and |', ['{name<place>}']],
    ['run W1 enters BOX |', ['by', 'open']],
    ['run W1 enters BOX by |', ['gland', 'grommet', '{name<entry>}']],
    ['run W1 enters BOX by gland |', ['{thread}']],
    ['case dusk all |', ['loads', 'sources']],
    ['case dusk all loads |', ['on', 'off']],
    ['case dusk LAMPS |', ['at', 'and', 'on', 'off']],
    ['isolator Q1 4 |', ['pole', 'poles', 'in']],
    ['isolator Q1 4 poles, 25 A |', ['dc']],
    ['place LOFT gas |', ['locker']],
    ['fuse F1 5 A, breaks |', ['{current}']],
    ['fuse F1 5 A, operates 200 % in 1 s |', ['to']],
    ['fuse F1 wibble |', []],
    ['use |', ['{text}']],
    ['stock s place |', []],
  ])('%s', (marked, expected) => {
    expect(words(marked)).toEqual(expected);
  });

  it('leaves out what is said elsewhere in the statement, before or behind', () => {
    expect(words('load L 5 W, |, lowest 11 V')).not.toContain('lowest');
    expect(words('load L 5 W, |, lowest 11 V')).not.toContain('{power}');
    expect(words('load L 5 W, |, lowest 11 V')).toContain('essential');
    expect(at('load L 5 W, |').given).toEqual(new Set(['power']));
    expect(words('case c A on, |')).toContain('{name<part>}');
  });

  it('says the units a number may have', () => {
    expect(at('fuse F1 5 |').dimensions).toEqual(['current', 'voltage']);
    expect(at('fuse F1 5 A, 32 |').dimensions).toEqual(['voltage']);
    expect(at('fuse F1 5 A, breaks 2|').dimensions).toEqual(['current']);
    expect(at('run W1 6 m|').dimensions).toEqual(['area', 'gauge', 'temperature', 'length']);
    expect(at('isolator Q1 2 in parallel 4 |').dimensions).toEqual(['current']);
  });

  it('says when a clause is complete, so that a comma may come', () => {
    expect(at('fuse F1 5 A |').complete).toBe(true);
    expect(at('fuse F1 5 A, breaks |').complete).toBe(false);
    expect(at('fuse F1 5 A, |').complete).toBe(false);
    expect(at('run W1 along LOFT |').complete).toBe(true);
  });

  it('belongs to the statement above on an indented line, however blank', () => {
    expect(at('fuse F1 5 A\n\n\n    |\n\nload L 5 W').statement?.node.names[0]?.value).toBe('F1');
    expect(at('stock s cable 6 mm²\n    |').spec?.spec.word).toBe('cable');
    expect(at('fuse F1 5 A\n|').statement).toBeUndefined();
  });

  it('is asked anywhere in any text without a throw', () => {
    const text = 'run W1  6 mm² red, A:1 to\n    B:1, "x" # note\n\n  @ 5\nstock s\npanel P1 and\n# end';
    const tree = parseDocument(text, vocabulary);
    for (let offset = 0; offset <= text.length; offset++) {
      const { replace } = expectedAt(tree, offset);
      expect(replace.start).toBeLessThanOrEqual(offset);
      expect(replace.end).toBeGreaterThanOrEqual(offset);
    }
  });
});
