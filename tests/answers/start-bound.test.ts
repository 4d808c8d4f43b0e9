/** What stands across a load that starts is no less than is told of it at a glance, and often little more. */
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

/** Loads with a start that stand lower than was told; and how many were told of at all. */
function look({ model, answers: { directions } }: Analysis) {
  const wrong: string[] = [];
  let told = 0;
  for (const load of model.parts.values()) {
    const least = directions.leastWhileStarting(load);
    if (least === undefined) continue;
    for (const { volts, caseName } of directions.startsOf(load)) {
      told += 1;
      if (volts < least) wrong.push(`${load.name} in ${caseName}: ${volts} < ${least}`);
    }
  }
  return { wrong, told };
}

it.each(specs)('%s has no load that stands lower', (path) => {
  expect(look(analyse(uriOf(resolve(path)), diskSource())).wrong).toEqual([]);
});

describe('random vans', () => {
  it('have no load that stands lower, however thin their cables', () => {
    let told = 0;
    fc.assert(
      fc.property(vans(1), fc.integer({ min: 1, max: 8 }), (van, longer) => {
        const runs = van.runs.map((run) => ({ ...run, metres: run.metres * longer }));
        const text = textOf({ ...van, runs }).replaceAll(
          /^(load \S+\s+)([\d.]+) (A|W)/gmu,
          (_, head: string, value: string, unit: string) =>
            `${head}${value} ${unit}, surge ${3 * Number(value)} ${unit}, lowest 9 V`,
        );
        const { wrong, told: here } = look(analyseText(text));
        told += here;
        expect(wrong).toEqual([]);
      }),
      { numRuns: 60 },
    );
    expect(told).toBeGreaterThan(20);
  });
});
