/** What a device is said to see at most is no less than what a fault worked out in full brings it, and often little more. */
import { readdirSync } from 'node:fs';
import { resolve } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Analysis, analyse } from '../../server/analysis.ts';
import { diskSource, uriOf } from '../../server/cli/files.ts';
import { analyseText } from '../analysed.ts';
import { textOf, vans } from './random-specs.ts';

const specs = ['samples', 'tests/good-systems'].flatMap((folder) =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.amps') && name !== 'stock.amps')
    .map((name) => `${folder}/${name}`),
);

function tooLow({ answers: { faults } }: Analysis): string[] {
  return [...faults.devices.values()].flat().flatMap(({ part, pole, greatestAmps }) => {
    const most = faults.mostThrough(part, pole);
    return greatestAmps > most ? [`${part.name}:${pole} ${greatestAmps} > ${most}`] : [];
  });
}

it.each(specs)('%s has no device that sees more', (path) => {
  expect(tooLow(analyse(uriOf(resolve(path)), diskSource()))).toEqual([]);
});

describe('random vans', () => {
  it('have no device that sees more, with batteries side by side or not', () => {
    fc.assert(
      fc.property(vans(3), (van) => {
        expect(tooLow(analyseText(textOf(van)))).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });
});

it('tells a device behind a thin cable from one beside its battery', () => {
  const { answers, model } = analyseText(
    [
      'system "Hut" 12 V',
      'battery B1 lithium-iron-phosphate, 12.8 V, 100 Ah, internal 4 mΩ',
      'fuse F1 60 A, bolt-in, 58 V, breaks 5 kA',
      'fuse F2 5 A, blade, 32 V, breaks 1 kA',
      'load LAMP 10 W',
      'run W1 25 mm² red, 0.2 m, B1:+ to F1:in',
      'run W2 1.5 mm² red, 3 m, F1:out to F2:in',
      'run W3 1.5 mm² red, 1 m, F2:out to LAMP:+',
      'run W4 1.5 mm² black, 4 m, LAMP:- to B1:-',
    ].join('\n'),
  );
  const most = (name: string) => {
    const part = model.parts.get(name);
    return part === undefined ? 0 : answers.faults.mostThrough(part, 1);
  };
  expect(most('F1')).toBeGreaterThan(2500);
  expect(most('F2')).toBeLessThan(400);
});
