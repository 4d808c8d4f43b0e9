/** That a device opens is told from a bound where that is enough; what is then worked out in full agrees. */
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

/** Devices that are said to open and do not. */
function wrong({ answers }: Analysis): string[] {
  return [...answers.faults.devices.values()].flat().flatMap((device) => {
    const { clears, leastAmps, leastSeconds, ratedAmps, curve, part, pole } = device;
    if (leastAmps === undefined || ratedAmps === undefined) return [];
    const isSure = clears === 'surely' && leastSeconds === undefined;
    const isAbove = clears === 'not known' && curve === undefined && leastAmps <= ratedAmps;
    return isSure || isAbove ? [`${part.name}:${pole}`] : [];
  });
}

it.each(specs)('%s has none that is said to open and does not', (path) => {
  expect(wrong(analyse(uriOf(resolve(path)), diskSource()))).toEqual([]);
});

describe('random vans', () => {
  it('have none, however thin their cables', () => {
    fc.assert(
      fc.property(vans(3), fc.integer({ min: 1, max: 60 }), (van, longer) => {
        const runs = van.runs.map((run) => ({ ...run, metres: run.metres * longer }));
        expect(wrong(analyseText(textOf({ ...van, runs })))).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });
});
