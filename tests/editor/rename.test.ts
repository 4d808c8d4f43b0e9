/** Renaming: the places meant are marked in the text, and what comes of it is read again. */
import { describe, expect, it } from 'vitest';
import { type Analysis, analyse } from '../../server/analysis.ts';
import { prepareRename, rename } from '../../server/editor/rename.ts';
import { memorySource, specUri } from '../analysed.ts';
import { editedFiles, type Files } from './editing.ts';

/** Every place of the thing that is renamed stands in «…»; the pointer is at the `|`. */
function marked(files: Files): { files: Files; offset: number; after: (name: string) => Files } {
  const plain = (text: string) => text.replaceAll(/[«»|]/gu, '');
  const spec = files['spec.amps'] ?? '';
  return {
    files: Object.fromEntries(Object.entries(files).map(([name, text]) => [name, plain(text)])),
    offset: plain(spec.slice(0, spec.indexOf('|'))).length,
    after: (newName) =>
      Object.fromEntries(
        Object.entries(files).map(([name, text]) => [name, plain(text.replaceAll(/«[^»]*»/gu, newName))]),
      ),
  };
}

/** All files but the first are specs beside it. */
function renaming(files: Files, newName: string) {
  const { files: plain, offset, after } = marked(files);
  const source = memorySource(plain);
  const analyses = Object.keys(plain).map((name) => analyse(`memory:///${name}`, source));
  const [spec, ...others] = analyses as [Analysis, ...Analysis[]];
  expect(spec.uri).toBe(specUri);
  const prepared = prepareRename(spec, offset);
  const renamed = rename(spec, offset, newName, others);
  return { plain, spec, prepared, renamed, wanted: after(newName) };
}

function renames(files: Files, newName: string): void {
  const { plain, spec, prepared, renamed, wanted } = renaming(files, newName);
  expect(prepared).toMatchObject({ placeholder: expect.any(String), range: {} });
  if (renamed === undefined || !('edit' in renamed)) throw new Error(`refused: ${renamed?.refused}`);
  const after = editedFiles(plain, renamed.edit);
  expect(after).toEqual(wanted);
  // Nothing is found that was not found before.
  const again = analyse(specUri, memorySource(after));
  expect(again.findings.map(({ slug }) => slug)).toEqual(spec.findings.map(({ slug }) => slug));
}

function refusal(files: Files, newName: string): string {
  const { renamed } = renaming(files, newName);
  if (renamed === undefined || !('refused' in renamed)) throw new Error('not refused');
  return renamed.refused;
}

const van = (text: string): Files => ({
  'spec.amps': text,
});

describe('renaming', () => {
  it('gives a name that can be one for one that cannot', () => {
    for (const bad of ['left/right', 'spare']) {
      const { plain, renamed, wanted } = renaming(van(`splice «${bad.slice(0, 2)}|${bad.slice(2)}»\n`), 'LEFT');
      if (renamed === undefined || !('edit' in renamed)) throw new Error(`refused: ${renamed?.refused}`);
      expect(editedFiles(plain, renamed.edit)).toEqual(wanted);
    }
  });

  it.each([
    ['the beginning of the word', '«|LAMP»'],
    ['within the word', '«LA|MP»'],
    ['the end of the word', '«LAMP|»'],
  ])('a part from %s changes every use of it and nothing else', (_, here) => {
    renames(
      van(`system "LAMP" 12 V
battery B1  lead-acid, 12 V, 80 Ah
load ${here} "LAMP"  24 W  # LAMP stays
load LAMP2  12 W
run W1  2.5 mm² red, 3 m, B1:+ to «LAMP»:+
run W2  2.5 mm² black, 3 m, «LAMP»:- to B1:-
case night  «LAMP» and LAMP2 on
expect «LAMP» voltage at least 11 V in night
reading 2026-04-18 «LAMP»:+ 12.1 V with «LAMP» on
allow drop-over-limit on «LAMP» "LAMP, only a lamp"
`),
      'LÜFTER-1',
    );
  });

  it('a part from the word before a colon, and one of several declared together', () => {
    renames(
      van('panel P1 and «P2»  80 W, voc 22 V, isc 4 A, vmp 18 V, imp 4 A\nrun W1  4 mm² red, 1 m, «P|2»:+ to P1:-\n'),
      'P9',
    );
  });

  it('an isolator changes its links', () => {
    renames(
      van('isolator «Q|1»  2 poles, 20 A dc\nlink «Q1»  1-3, 2-4\nrun W1  4 mm² red, 1 m, «Q1»:1 to «Q1»:2\n'),
      'Q7',
    );
  });

  it('a place, an enclosure, an entry and a run change what names them', () => {
    renames(
      van(
        'place «LO|FT»  50 °C\nenclosure BOX  plastic, at «LOFT»\nrun W1  4 mm² red, 1 m, along «LOFT» 0.5 m and «LOFT»\n',
      ),
      'ATTIC',
    );
    renames(
      van(
        'enclosure BOX  plastic\nentry E1  in «BO|X», gland M20\nfuse F1  5 A, in «BOX»\nrun W1  4 mm² red, 1 m, F1:in to F1:out\n    enters «BOX» by E1\n'.replace(
          'enclosure BOX',
          'enclosure «BOX»',
        ),
      ),
      'POD',
    );
    renames(
      van(
        'enclosure BOX  plastic\nentry «E1»  in BOX, gland M20\nfuse F1  5 A\nrun W1  4 mm² red, 1 m, F1:in to F1:out\n    enters BOX by «E|1»\n',
      ),
      'E2',
    );
    renames(
      van(
        'fuse F1  5 A\nrun «W|1»  4 mm² red, 1 m, F1:in to F1:out\nrun W2  4 mm² red, 1 m, F1:in to F1:out\n    bunched with «W1»\nallow no-source on «W1» "spare"\n',
      ),
      'W-MAIN',
    );
  });

  it('a selector that a case turns', () => {
    renames(van('selector «S|9»  200 A\ncase dusk  «S9» at 2\ncase dawn  «S9» off\n'), 'S8');
  });

  it('a case leaves a part of the same name alone, and the other way round', () => {
    renames(van('load night  24 W\ncase «ni|ght»  night on\nexpect night voltage at least 11 V in «night»\n'), 'dusk');
    renames(
      van('load «night»  24 W\ncase night  «ni|ght» on\nexpect «night» voltage at least 11 V in night\n'),
      'MOON',
    );
    // Names of cases are their own: one of a part may be taken.
    renames(van('load night  24 W\ncase «du|sk»  night on\n'), 'night');
  });

  it('a set of limits changes the system that names it', () => {
    renames(
      van('stock «our-|van»  limit-set based on iec-60364-5-52, factor 0.9\nsystem "Shed" 12 V, limits «our-van»\n'),
      'their-van',
    );
  });

  it('a stock from the spec changes its own file, and every other spec that takes it', () => {
    renames(
      {
        'spec.amps': 'use "stock.amps"\nbusbar NEG  50 A\nrun W1  = «th|in» red, 1 m, NEG to NEG\n',
        'stock.amps': 'stock «thin»  cable 2.5 mm²\nstock thick  = cable\nstock flat  cable = «thin»\n',
        'other.amps': 'use "stock.amps"\nbusbar NEG  50 A\nrun W1  = «thin» red, 1 m, NEG to NEG\n',
        // Its `thin` is another.
        'apart.amps': 'stock thin  cable 1 mm²\nbusbar NEG  50 A\nrun W1  = thin red, 1 m, NEG to NEG\n',
      },
      'lead-2',
    );
  });

  it('a load’s own terminal changes it with all loads that have it by the same words', () => {
    renames(
      van(`load A and B  6 W, terminal «di|m» "dimmer"
load C  6 W, terminal dim
busbar NEG  50 A
run W1  1 mm² red, 1 m, A:«dim» to B:«dim»
run W2  1 mm² red, 1 m, C:dim to NEG
`),
      'pulse',
    );
    renames(
      {
        'spec.amps': 'use "stock.amps"\nload A  = spot\nbusbar NEG  50 A\nrun W1  1 mm² red, 1 m, A:«di|m» to NEG\n',
        'stock.amps': 'stock spot  load 6 W, terminal «dim»\n',
      },
      'pulse-2',
    );
  });

  it('keeps Windows line ends and an emoji before it apart', () => {
    renames(van('# 🔌 plug\r\nload «LA|MP» "💡"  24 W\r\ncase a  «LAMP» on\r\n'), 'X');
  });

  it('to the same name changes nothing', () => {
    const { renamed } = renaming(van('load «LA|MP»  24 W\n'), 'LAMP');
    expect(renamed).toEqual({ edit: { changes: {} } });
  });
});

describe('a rename is refused', () => {
  const lamp = (here = 'LA|MP') =>
    van(
      `fuse F1  5 A\nload ${here}  24 W\nplace LOFT  50 °C\ncase dusk  LAMP on\nrun W1  1 mm² red, 1 m, F1:out to LAMP:+\n`,
    );

  it.each([
    ['F1', '“F1” is the name of a fuse already: choose another.'],
    ['W1', '“W1” is the name of a run already: choose another.'],
    ['LOFT', '“LOFT” is the name of a place already: choose another.'],
    ['sun', '“sun” is a word of the notation and cannot be a name: choose another, such as SUN1.'],
    ['and', '“and” is a word of the notation and cannot be a name: choose another, such as AND1.'],
    ['1F', '“1F” cannot be a name: names begin with a letter and have letters, digits, _ and -.'],
    ['A B', '“A B” cannot be a name: names begin with a letter and have letters, digits, _ and -.'],
    ['A:B', /“A:B” cannot be a name: names begin with a letter/],
    ['A/B', /“A\/B” cannot be a name/],
    ['', /“” cannot be a name/],
    ['A # b', /cannot be a name/],
    ['A\nfuse F9', /cannot be a name/],
  ])('to “%s”', (name, why) => {
    expect(refusal(lamp(), name)).toMatch(why);
  });

  it('to the name of a thing in another file, of this spec or of one beside it', () => {
    const files = {
      'spec.amps': 'use "stock.amps"\nbusbar NEG  50 A\nrun W1  = «th|in» red, 1 m, NEG to NEG\n',
      'stock.amps': 'stock «thin»  cable 2.5 mm²\nstock thick  cable 6 mm²\n',
      'other.amps': 'use "stock.amps"\nload FAN  12 W\n',
    };
    expect(refusal(files, 'thick')).toBe('“thick” is the name of stock in stock.amps already: choose another.');
    expect(refusal(files, 'FAN')).toBe('“FAN” is the name of a load in other.amps already: choose another.');
  });

  it.each([
    ['a case', 'case night  NEW off\n'],
    ['an expectation', 'expect NEW voltage at least 11 V\n'],
    ['a run', 'run W2  1 mm² red, 1 m,\n  F1:out to NEW:+\n'],
    ['an allow', 'allow drop-over-limit on NEW "tested"\n'],
    ['a neighbour', 'run W2  1 mm² red, 1 m, bunched with NEW, F1:out to LAMP:+\n'],
    ['what cannot be read', 'loda NEW  6 W\n'],
  ])('to a name that %s speaks of and nothing has, which would be taken for it', (_, line) => {
    const text = `${lamp()['spec.amps']}${line}`;
    const at = text.split('\n').findIndex((one) => one.includes('NEW')) + 1;
    expect(refusal(van(text), 'NEW')).toBe(
      `“NEW” is spoken of already in line ${at}, and would be taken for LAMP there: if that is meant, write LAMP there first; else choose another name.`,
    );
    expect(refusal(van(text.replace('W1', 'W|1').replace('LA|MP', 'LAMP')), 'NEW')).toMatch(/taken for W1 there/);
  });

  it('of a case to one that an expectation speaks of, and not for what only parts are called', () => {
    const text =
      'load LAMP  24 W\ncase «du|sk»  LAMP on\nexpect LAMP voltage at least 11 V in dawn\ncase noon  NEW off\n';
    expect(refusal(van(text), 'dawn')).toMatch(/^“dawn” is spoken of already in line 3, and would be taken for dusk/);
    renames(van(text), 'NEW');
  });

  it('where a file beside it speaks of the new name', () => {
    const files = {
      'spec.amps': 'stock «th|in»  cable 2.5 mm²\n',
      'other.amps':
        'use "spec.amps"\nbusbar NEG  50 A\nrun W1  = thin red, 1 m, NEG to NEG\nrun W2  = thni red, 1 m, NEG to NEG\n',
    };
    expect(refusal(files, 'thni')).toMatch(/^“thni” is spoken of already in line 4 of other\.amps, and/);
  });

  it('where the words around it would then be read otherwise', () => {
    const text = van(
      'enclosure BOX  plastic\nentry E|1  in BOX, gland M20\nrun W1  1 mm² red, 1 m, enters BOX by E1\n',
    );
    expect(refusal(text, 'gland')).toBe(
      'With the name “gland” line 3 of spec.amps would be read otherwise: choose another.',
    );
  });

  it('of what the maker has marked, and says what to do instead', () => {
    const { prepared } = renaming(
      van('fuse F1  5 A\nload LAMP  24 W\nrun W1  1 mm² red, 1 m, F1:o|ut to LAMP:+\n'),
      'X',
    );
    expect(prepared).toEqual({
      refused:
        'F1:out is named as a fuse has it marked, so it cannot be renamed; to rename F1, put the pointer before the colon.',
    });
  });

  it('of a terminal to one that the load has, or that none can have', () => {
    const text = van('load A  6 W, terminal di|m, terminal aux\n');
    expect(refusal(text, 'aux')).toBe('A has a terminal “aux” already: choose another.');
    expect(refusal(text, 'a b')).toMatch(/“a b” cannot stand behind the colon/);
    expect(refusal(text, '1')).toMatch(/“1” cannot stand behind the colon of a terminal: begin with a letter/);
    expect(refusal(text, '-')).toMatch(/cannot stand behind the colon|has a terminal “-”/);
  });

  it('of a name declared twice', () => {
    expect(refusal(van('fuse F1  5 A\nload F|1  24 W\n'), 'F2')).toMatch(/“F1” is declared 2 times/);
  });

  it('of a name whose statement cannot be read', () => {
    expect(refusal(van('fusee F1  5 A\nload LAMP  24 W\nrun W1  1 mm² red, 1 m, F|1:out to LAMP:+\n'), 'F2')).toMatch(
      /“F1” stands in no statement that can be read/,
    );
  });

  it.each([
    ['a remark', '# LA|MP\nload LAMP  24 W\n'],
    ['a keyword', 'lo|ad LAMP  24 W\n'],
    ['a figure', 'load LAMP  2|4 W\n'],
    ['a title', 'load LAMP "La|mp"  24 W\n'],
    ['a published set of limits', 'system "Shed" 12 V, limits iec-6|0364-5-52\n'],
    ['a finding', 'allow drop-over-|limit "why"\n'],
  ])('of %s, by there being nothing to rename', (_, text) => {
    const { prepared, renamed } = renaming(van(text), 'X');
    expect([prepared, renamed]).toEqual([undefined, undefined]);
  });
});
