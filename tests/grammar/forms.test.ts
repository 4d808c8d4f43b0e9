import { describe, expect, it } from 'vitest';
import { readStatement } from '../../grammar/atoms.ts';
import { compile, wordsOf } from '../../grammar/compiled.ts';
import { clauseWords, compileForm, openingTypes, openingWords } from '../../grammar/forms.ts';
import { expectedAfter, failureOf, isColour, type MatchWords, matchOf } from '../../grammar/match.ts';
import type { Atom } from '../../grammar/tree.ts';
import { clause, specs, vocabulary } from './vocabulary.ts';

const words: MatchWords = { colours: vocabulary.colours, reserved: vocabulary.reserved };
const heads = { headOf: () => 'none' as const, titled: () => false, opensClause: () => false };
const atomsOf = (text: string): readonly Atom[] => readStatement(`x ${text}`, heads).body;
const form = (text: string) => compileForm(clause('it', text, text));

/** `slot:type text` of every value of the longest match, and how many atoms it takes. */
function matched(formText: string, text: string): string[] | undefined {
  const match = matchOf(form(formText), atomsOf(text), 0, words);
  return match && [String(match.end), ...match.values.map(({ slot, type, atom }) => `${slot}:${type} ${atom.text}`)];
}

describe('a form that is written wrongly is refused, naming the clause', () => {
  it.each([
    '',
    '[',
    '(a',
    'a]',
    'a | b',
    '{x}',
    '{x:nonsense}',
    '{x:name<Part>}',
    'a *',
    '()',
    '(a|)',
    '{x:number|wibble}',
  ])('%s', (text) => {
    expect(() => form(text)).toThrow('it');
  });
});

describe('a form takes', () => {
  it.each<[string, string, string[] | undefined]>([
    ['voc {voltage:voltage}', 'voc 23.0 V', ['2', 'voltage:voltage 23.0 V']],
    ['voc {voltage:voltage}', 'voc ? V', ['2', 'voltage:voltage ? V']],
    ['voc {voltage:voltage}', 'voc ?', ['2', 'voltage:voltage ?']],
    ['{voltage:voltage}', '?', undefined],
    ['{voltage:voltage}', '? V', ['1', 'voltage:voltage ? V']],
    ['voc {voltage:voltage}', 'voc 23 A', undefined],
    ['voc {voltage:voltage}', 'isc 23 V', undefined],
    ['= {stock:name<stock>}', '= thin', ['2', 'stock:name<stock> thin']],
    ['= {stock:name<stock>}', '= core', undefined],
    ['{style=blade|bolt-in}', 'bolt-in', ['1', 'style:= bolt-in']],
    ['{size:thread|length}', 'M20', ['1', 'size:thread M20']],
    ['{size:thread|length}', '12 mm', ['1', 'size:length 12 mm']],
    ['{size:thread}', 'M', undefined],
    ['{size:conductor}', '10 AWG', ['1', 'size:conductor 10 AWG']],
    ['{drift:drift}', '-0.3 %/°C', ['1', 'drift:drift -0.3 %/°C']],
    ['{value:quantity}', '5 kg', ['1', 'value:quantity 5 kg']],
    ['{n:number+}', '1 3 5', ['3', 'n:number 1', 'n:number 3', 'n:number 5']],
    [
      'face {a:number+} over {b:number+}',
      'face 1 3 over 2 4 z',
      ['6', 'a:number 1', 'a:number 3', 'b:number 2', 'b:number 4'],
    ],
    ['pairs {pairs:range+}', 'pairs 1-5 2-6', ['3', 'pairs:range 1-5', 'pairs:range 2-6']],
    ['{v:voltage} [dc]', '60 V dc', ['2', 'v:voltage 60 V']],
    ['{v:voltage} [dc]', '60 V', ['1', 'v:voltage 60 V']],
    ['[{n:times}] {s:conductor}', '2 x 6 mm²', ['2', 'n:times 2 x', 's:conductor 6 mm²']],
    ['[{n:times}] {s:conductor}', '6 mm²', ['1', 's:conductor 6 mm²']],
    [
      '{p:name<part>} ( and {p:name<part>} )* {s=on|off}',
      'A and B and C on',
      ['6', 'p:name<part> A', 'p:name<part> B', 'p:name<part> C', 's:= on'],
    ],
    ['{p:name<part>} ( and {p:name<part>} )* {s=on|off}', 'A on', ['2', 'p:name<part> A', 's:= on']],
    [
      'enters {e:name<enclosure>} [ by gland [{s:thread}] | open ]',
      'enters B by gland M20',
      ['5', 'e:name<enclosure> B', 's:thread M20'],
    ],
    ['enters {e:name<enclosure>} [ by gland [{s:thread}] | open ]', 'enters B by gland', ['4', 'e:name<enclosure> B']],
    ['enters {e:name<enclosure>} [ by gland [{s:thread}] | open ]', 'enters B open', ['3', 'e:name<enclosure> B']],
    ['enters {e:name<enclosure>} [ by gland [{s:thread}] | open ]', 'enters B by', ['2', 'e:name<enclosure> B']],
    ['{from:end} to {to:end}', 'P1:+ to NEG', ['3', 'from:end P1:+', 'to:end NEG']],
    ['{from:end} to {to:end}', 'P1:+ to core', undefined],
    ['{t:terminal}', 'NEG', undefined],
    ['{c:colour}', 'green/yellow', ['1', 'c:colour green/yellow']],
    ['{c:colour}', 'mauve', undefined],
    ['{d:date} [{t:clock}]', '2026-04-18 10:30', ['2', 'd:date 2026-04-18', 't:clock 10:30']],
    ['{i:ip}', 'IP65', ['1', 'i:ip IP65']],
    ['{i:ip}', 'IP6', undefined],
    ['{t:text}', '"x"', ['1', 't:text "x"']],
    [
      '(way {a:number}|ways {a:number} to {b:number}) fuse {r:current}',
      'ways 1 to 4 fuse 5 A',
      ['6', 'a:number 1', 'b:number 4', 'r:current 5 A'],
    ],
    ['[with] {p:name<part>} on', 'with Q1 on', ['3', 'p:name<part> Q1']],
    ['[with] {p:name<part>} on', 'Q1 on', ['2', 'p:name<part> Q1']],
    ['(a b)*', 'a b a b a', ['4']],
    ['[a]', 'b', undefined],
  ])('%s: %s', (formText, text, values) => {
    expect(matched(formText, text)).toEqual(values);
  });

  it('a keyword rather than a value where both would do', () => {
    const match = matchOf(form('( {a:word} | {b=left|right} ) end'), atomsOf('left end'), 0, words);
    expect(match?.values[0]?.slot).toBe('b');
    expect(match?.literals).toBe(2);
  });

  it('very long runs in time by their length', () => {
    const atoms = atomsOf(`face ${'1 '.repeat(20_000)}over ${'2 '.repeat(20_000)}`);
    const match = matchOf(form('face {a:number+} over {b:number+}'), atoms, 0, words);
    expect(match?.end).toBe(40_002);
    const [hard, ones] = [form('( ( {a:number} )* ( {b:number} )* )* x'), atomsOf('1 '.repeat(5_000))];
    expect(matchOf(hard, ones, 0, words)).toBeUndefined();
    expect(failureOf(hard, ones, 0, words).at).toBe(5_000);
  });
});

describe('a form that fails says', () => {
  const failure = (formText: string, text: string) => {
    const it = failureOf(form(formText), atomsOf(text), 0, words);
    return [it.at, it.literals, it.wanted.map((one) => (one.is === 'word' ? one.word : one.types.join('|')))];
  };

  it('how far it went, by how many keywords, and what it wanted', () => {
    expect(failure('lowest {v:voltage}', 'lowest 11 A')).toEqual([1, 1, ['voltage']]);
    expect(failure('lowest {v:voltage}', 'lowest')).toEqual([1, 1, ['voltage']]);
    expect(failure('lowest {v:voltage}', '11 A')).toEqual([0, 0, ['lowest']]);
    expect(failure('operates {s:ratio} in {a:time} to {b:time}', 'operates 200 % at')).toEqual([2, 1, ['in']]);
    expect(failure('enters {e:name<enclosure>} [ by gland | open ]', 'enters B shut')).toEqual([2, 1, ['by', 'open']]);
  });
});

describe('what a form may begin with', () => {
  it('are the keywords and values before its first sure step', () => {
    expect(openingWords(form('[with] all {g=loads|sources}'))).toEqual({ words: ['with', 'all'], slot: false });
    expect(openingWords(form('[{n:times}] {s:conductor}'))).toEqual({ words: [], slot: true });
    expect(openingWords(form('{s=blade|glass}'))).toEqual({ words: ['blade', 'glass'], slot: false });
    expect(openingWords(form('( a | b {x:number} | {y:text} )'))).toEqual({ words: ['a', 'b'], slot: true });
    expect(openingTypes(form('[{n:times}] {s:conductor}'))).toEqual(['times', 'conductor']);
  });

  it('is found by what an atom is', () => {
    const spec = compile(vocabulary).specs.get('run');
    const ids = (text: string) => spec?.beginningWith(atomsOf(text)[0] as Atom).map(({ clause: { id } }) => id);
    expect(ids('6 mm²')).toEqual(['size']);
    expect(ids('2 x')).toEqual(['size']);
    expect(ids('2 x 6 mm²')).toEqual(['size']);
    expect(ids('4 m')).toEqual(['length']);
    expect(ids('= a')).toEqual(['stock']);
    expect(ids('copper')).toEqual(['material', 'colour', 'ends']);
    expect(ids('A:1')).toEqual(['ends']);
    expect(ids('"x"')).toEqual([]);
  });

  it('misses no form that matches', () => {
    for (const { forms, spec, beginningWith } of compile(vocabulary).specs.values()) {
      for (const one of forms) {
        const atoms = atomsOf(one.clause.example);
        expect([spec.word, one.clause.id, matchOf(one, atoms, 0, words)?.end]).toEqual([
          spec.word,
          one.clause.id,
          atoms.length,
        ]);
        expect(beginningWith(atoms[0] as Atom)).toContain(one);
      }
    }
  });
});

describe('keywords of clauses', () => {
  it('are all words of a form, those of its choices too', () => {
    expect(clauseWords(form('a {x=b|c} [ d | ( e )* ] = {y:word}'))).toEqual(['a', 'b', 'c', 'd', 'e', '=']);
  });

  it('are those of every clause of a statement', () => {
    expect(wordsOf(specs.find(({ word }) => word === 'place') as (typeof specs)[number])).toEqual([
      'indoors',
      'outdoors',
      'gas',
      'locker',
    ]);
  });
});

describe('what may come behind atoms', () => {
  const behind = (text: string, ...forms: string[]) =>
    expectedAfter(forms.map(form), atomsOf(text), words).map((one) =>
      one.is === 'word' ? one.word : `{${one.types.join('|')}}`,
    );

  it('is what the forms that fit so far would take', () => {
    expect(behind('', 'a b', '{x:current} c')).toEqual(['a', '{current}']);
    expect(behind('a', 'a b', 'a {x:current}', 'c')).toEqual(['b', '{current}']);
    expect(behind('enters B', 'enters {e:name<enclosure>} [ by gland | open ]')).toEqual(['by', 'open']);
    expect(behind('A', '{p:name<part>} ( and {p:name<part>} )* {s=on|off}')).toEqual(['and', 'on', 'off']);
    expect(behind('a b', 'a b')).toEqual([]);
  });
});

describe('colours', () => {
  it('are words of the table, or two of them', () => {
    expect(
      ['red', 'green/yellow', 'light-blue', 'red/mauve', 'red/green/black', 'mauve', ''].map((word) =>
        isColour(word, vocabulary.colours),
      ),
    ).toEqual([true, true, true, false, false, false, false]);
  });
});
