/** Kinds as data: consistent in themselves, and with the terminals and contacts that the standards and the trade give. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseDocument } from '../../grammar/parse.ts';
import { allKinds, allStatements } from '../../server/kinds/all.ts';
import { kindsRegistry } from '../../server/kinds/generate.ts';
import type { Behaviour, ContactSpec } from '../../server/kinds/kind.ts';
import { isStockOnly, kindOf, vocabulary } from '../../server/kinds/vocabulary.ts';
import type { Part } from '../../server/model/model.ts';
import { analyseText } from '../analysed.ts';
import { scenes } from './uses/all.ts';

const all = [...allStatements, ...allKinds];

function partOf(statement: string): Part {
  const { model } = analyseText(`${statement}\n`);
  const part = [...model.parts.values()].at(-1);
  if (part === undefined) throw new Error(`no part in ${statement}`);
  return part;
}

const names = ({ terminals }: Part) => terminals.map(({ spec }) => spec.name);
const way = ({ from, to, operated }: ContactSpec) => `${from} ${operated} ${to}`;

/**
 * What each kind is to the network: terminals, ways through it and how they are worked, behaviour. Designations: main
 * contacts in pairs, odd in and even out (EN 50005 and IEC 60947-1 annex L, from memory); relays by ISO 7588 (85 and 86
 * coil, 30 common, 87 make, 87a break, from memory).
 */
const expected: readonly (readonly [string, string, readonly string[], Behaviour['is']])[] = [
  ['panel P1 120 W, voc 23.0 V, isc 6.9 A, vmp 19.2 V, imp 6.3 A', '+ -', [], 'panel'],
  ['battery B1 agm, 12 V, 100 Ah', '+ -', [], 'battery'],
  ['alternator A1 14.2 V, 70 A', '+ -', [], 'alternator'],
  ['controller U1 mppt, pv 50 V, output 20 A', 'pv+ pv- bat+ bat-', [], 'converter'],
  ['controller U1 mppt, pv 50 V, output 20 A, load output 10 A', 'pv+ pv- bat+ bat- load+ load-', [], 'converter'],
  ['charger U1 12 V, 18 A', 'in+ in- out+ out-', [], 'converter'],
  ['charger U1 12 V, 18 A, inputs 2', 'in1+ in1- in2+ in2- out+ out-', [], 'converter'],
  ['charger U1 12 V, 18 A, pv 50 V', 'in+ in- pv+ pv- out+ out-', [], 'converter'],
  ['charger U1 12 V, 18 A, from mains', 'case out+ out-', [], 'converter'],
  ['converter U1 5 V, 6 A', 'in+ in- out+ out-', [], 'converter'],
  ['inverter INV 350 W', '+ - case', [], 'inverter'],
  ['fuse F1 10 A', 'in out', ['in fixed out'], 'none'],
  ['breaker F1 10 A', 'in out', ['in hand out'], 'none'],
  ['breaker F1 10 A, 1 pole', 'in out', ['in hand out'], 'none'],
  ['breaker F1 10 A, 2 poles', '1 2 3 4', ['1 hand 2', '3 hand 4'], 'none'],
  ['breaker F1 10 A, 2 poles, pairs 1-3 2-4', '1 2 3 4', ['1 hand 3', '2 hand 4'], 'none'],
  ['fusebox FB 3 ways', 'in 1 2 3', ['in fixed 1', 'in fixed 2', 'in fixed 3'], 'none'],
  ['fusebox FB 2 ways, negative bar', 'in 1 2 neg', ['in fixed 1', 'in fixed 2'], 'none'],
  ['isolator Q1 1 pole, 32 A dc', '1 2', ['1 hand 2'], 'none'],
  ['isolator Q1 4 poles, 32 A dc', '1 2 3 4 5 6 7 8', ['1 hand 2', '3 hand 4', '5 hand 6', '7 hand 8'], 'none'],
  ['isolator Q1 2 poles, 32 A dc, pairs 1-5 2-6', '1 2 5 6', ['1 hand 5', '2 hand 6'], 'none'],
  ['switch S1 3 poles, 10 A dc', '1 2 3 4 5 6', ['1 hand 2', '3 hand 4', '5 hand 6'], 'none'],
  ['selector S1 200 A', 'common 1 2', ['1 position common', '2 position common'], 'none'],
  ['relay K1 coil 12 V, contact 30 A', '86 85 30 87 87a', ['30 coil 87', '30 coil-rest 87a'], 'coil'],
  ['diode D1 70 A', 'in out', ['in diode out'], 'none'],
  ['diode D1 70 A, 2 outputs', 'in out out2', ['in diode out', 'in diode out2'], 'none'],
  ['connector X1 3 pins', '1 2 3', [], 'none'],
  ['splice J1', '', [], 'none'],
  ['busbar J1 150 A, 3 studs', ' 1 2 3', [], 'none'],
  ['block J1 30 A, 2 studs', ' 1 2', [], 'none'],
  ['shunt SH1 150 A, 50 mV', 'battery load', ['battery fixed load'], 'none'],
  ['load L1 36 W', '+ -', [], 'load'],
  ['load L1 36 W, terminal dimmer', '+ - dimmer', [], 'load'],
  ['socket L1 15 A', '+ -', [], 'socket'],
  ['chassis G1', '', [], 'none'],
  ['enclosure BOX plastic', '-', [], 'none'],
  ['entry E1 gland M20', '-', [], 'none'],
];

describe('terminals and ways through', () => {
  it.each(expected)('%s', (statement, terminals, ways, behaviour) => {
    const part = partOf(statement);
    // One node is written by its name alone: its terminal has an empty designation.
    expect(names(part)).toEqual(terminals === '-' ? [] : terminals.split(' '));
    expect(part.contacts.map(way)).toEqual(ways);
    expect(part.contacts.map(({ pole }) => pole)).toEqual(ways.map((_, index) => index + 1));
    expect(part.kind.behaviour.is).toBe(behaviour);
  });

  it('are told of for every kind', () => {
    const told = new Set(expected.map(([statement]) => statement.split(' ')[0]));
    // Neither is a part: they stand in stock.
    expect(allKinds.map(({ word }) => word).filter((word) => !told.has(word))).toEqual(['cable', 'limit-set']);
  });

  it.each(expected)(
    '%s: designations are unique, contacts join two of them, sides have both polarities',
    (statement) => {
      const part = partOf(statement);
      const own = names(part);
      expect(new Set(own).size).toBe(own.length);
      for (const { from, to } of part.contacts) {
        expect(from).not.toBe(to);
        expect(own).toEqual(expect.arrayContaining([from, to]));
      }
      const bySide = new Map<string, string>();
      for (const { spec } of part.terminals)
        if (spec.polarity !== undefined && spec.side !== undefined)
          bySide.set(spec.side, `${bySide.get(spec.side) ?? ''}${spec.polarity}`);
      for (const polarities of bySide.values()) expect(polarities).toBe('+-');
      for (const { spec } of part.terminals) {
        expect(spec.meaning).not.toBe('');
        if (/[+-]$/.test(spec.name)) expect(spec.polarity).toBe(spec.name.at(-1));
      }
    },
  );

  it('of kinds that convert lie on the sides their behaviour names', () => {
    for (const [statement] of expected) {
      const { kind, terminals } = partOf(statement);
      const { behaviour } = kind;
      if (behaviour.is !== 'converter') continue;
      const sides = new Set(terminals.flatMap(({ spec }) => (spec.side === undefined ? [] : [spec.side])));
      for (const side of sides) expect([...behaviour.inputs, ...behaviour.outputs]).toContain(side);
      expect(behaviour.outputs.some((side) => sides.has(side))).toBe(true);
    }
  });
});

describe('ratings of the ways through', () => {
  const contacts = (statement: string) => partOf(statement).contacts;

  it('a fuse protects with its rating, and while that is open still protects', () => {
    expect(contacts('fuse F1 10 A, 32 V')).toMatchObject([{ protects: true, deviceAmps: 10, ratedVolts: 32 }]);
    const [open] = contacts('fuse F1 ? A');
    expect(open?.protects).toBe(true);
    expect(open?.deviceAmps).toBeUndefined();
  });

  it('a breaker protects and switches, each pole with its rating', () => {
    expect(contacts('breaker F1 20 A, 2 poles, 60 V dc')).toMatchObject([
      { protects: true, deviceAmps: 20, ratedAmps: 20, ratedVolts: 60, pole: 1 },
      { protects: true, deviceAmps: 20, ratedAmps: 20, ratedVolts: 60, pole: 2 },
    ]);
  });

  it('a way of a fusebox has the fuse said of it, the last word counting', () => {
    const amps = contacts('fusebox FB 5 ways, ways 1 to 4 fuse 5 A, way 3 fuse 10 A').map((one) => one.deviceAmps);
    expect(amps).toEqual([5, 5, 10, 5, undefined]);
  });

  it('a switch has its rating a pole and protects nothing', () => {
    for (const word of ['isolator', 'switch'])
      expect(contacts(`${word} Q1 2 poles, 25 A dc, 150 V`)).toMatchObject([
        { protects: false, ratedAmps: 25, ratedVolts: 150 },
        { protects: false, ratedAmps: 25, ratedVolts: 150 },
      ]);
    expect(contacts('relay K1 coil 12 V, contact 30 A').map(({ ratedAmps }) => ratedAmps)).toEqual([30, 30]);
    expect(contacts('selector S1 200 A').map(({ ratedAmps, protects }) => [ratedAmps, protects])).toEqual([
      [200, false],
      [200, false],
    ]);
  });

  it('only kinds that protect have contacts that do', () => {
    for (const [statement] of expected) {
      const { kind, contacts: own } = partOf(statement);
      for (const { protects } of own) expect(protects).toBe(kind.family === 'protection');
    }
  });

  it('absurd numbers of poles, ways or pins stay within reason', () => {
    expect(partOf('isolator Q1 9999 poles, 10 A dc').terminals.length).toBeLessThanOrEqual(48);
    expect(partOf('fusebox FB 99999 ways').terminals.length).toBeLessThanOrEqual(62);
    expect(partOf('connector X1 99999 pins').terminals.length).toBeLessThanOrEqual(60);
    expect(partOf('busbar J1 99999 studs').terminals.length).toBeLessThanOrEqual(61);
    expect(partOf('charger U1 12 V, 10 A, inputs 999').terminals.length).toBeLessThanOrEqual(18);
    for (const count of ['0', '-1', '1.5', '?'])
      expect(() => analyseText(`isolator Q1 ${count} poles, 10 A dc\nfusebox FB ${count} ways\n`)).not.toThrow();
  });
});

describe.each(all.map((spec) => [spec.word, spec] as const))('%s', (word, spec) => {
  it('has clauses with names of their own, a sentence each, and someone who reads them', () => {
    const ids = spec.clauses.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const { id, meaning, readBy, joins } of spec.clauses) {
      expect(id).toMatch(/^[a-z]+(-[a-z0-9]+)*$/);
      expect(meaning).toMatch(/^[A-Z0-9].*[.…]$/s);
      expect(readBy.length).toBeGreaterThan(0);
      for (const joined of joins ?? []) expect([word, ids]).toEqual([word, expect.arrayContaining([joined])]);
    }
  });

  it('has clauses that begin no statement, also on a line of their own', () => {
    const head = isStockOnly(kindOf(word)) ? `stock NEW ${word}` : spec.head === 'none' ? word : `${word} NEW`;
    for (const { example, id } of spec.clauses) {
      const { statements } = parseDocument(`${head}\n    ${example}\n`, vocabulary);
      expect([id, statements.length]).toEqual([id, 1]);
      const problems = statements.flatMap(({ shaped }) => shaped.problems.map(({ slug }) => slug));
      expect([id, problems.filter((slug) => slug !== 'missing-separator')]).toEqual([id, []]);
      expect([id, statements[0]?.shaped.clauses.map((clause) => clause.spec.id)]).toEqual([
        id,
        expect.arrayContaining([id]),
      ]);
    }
  });

  it('stands at the margin as a word of its own', () => {
    expect(vocabulary.statements.get(word)).toBe(spec);
    expect(vocabulary.reserved.has(word)).toBe(false);
    expect(kindOf(word)).toBe(spec.category === 'kind' ? spec : undefined);
  });

  it('has a scene where its clauses are tried, if there is anything to try', () => {
    const without = ['stock'];
    expect(scenes.some((scene) => scene.word === word)).toBe(!without.includes(word));
  });
});

describe('kinds', () => {
  it('are called with the right article', () => {
    for (const { word, withArticle } of allKinds)
      expect(withArticle).toMatch(new RegExp(`^${/^[aeiou]/.test(word) ? 'an' : 'a'} ${word}`));
  });

  it('have an example with everything they must say', () => {
    for (const { word, example } of allKinds) {
      const { model } = analyseText(`${word === 'enclosure' ? '' : 'enclosure ROOF-BOX plastic\n'}${example}\n`);
      expect([word, model.problems.map(({ message }) => message)]).toEqual([word, []]);
    }
  });

  it('and the registry agree', () => {
    expect(readFileSync('server/kinds/all.ts', 'utf8')).toBe(kindsRegistry('server/kinds'));
  });
});

describe('everyday words', () => {
  const specs = [...vocabulary.statements.values()];
  const words = specs.flatMap((spec) => (spec.alsoCalled ?? []).map((written) => ({ written, right: spec.word })));

  it.each(words)('“$written” is told to be $right', ({ written, right }) => {
    const [problem] = parseDocument(`${written} X1\n`, vocabulary).statements.flatMap(({ node, shaped }) => [
      ...node.problems,
      ...shaped.problems,
    ]);
    const message = problem?.message ?? '';
    // Words that begin a clause somewhere are taken for an unindented line.
    expect(message.includes(`did you mean ${right}`) || message.includes('indent the line')).toBe(true);
    expect(specs.some(({ word }) => word === written)).toBe(false);
  });
});
