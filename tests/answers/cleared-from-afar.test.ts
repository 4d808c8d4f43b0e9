/** That a device opens is told from a bound where that is enough; what is then worked out in full agrees. */
import { readdirSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { analyse } from '../../server/analysis.ts';
import { diskSource, uriOf } from '../../server/cli/files.ts';

const specs = ['samples', 'tests/good-systems'].flatMap((folder) =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.amps') && name !== 'stock.amps')
    .map((name) => `${folder}/${name}`),
);

describe.each(specs)('%s', (path) => {
  it('has no device that is said to open and does not', () => {
    const { answers } = analyse(uriOf(resolve(path)), diskSource());
    const wrong = [...answers.faults.devices.values()].flat().filter((device) => {
      const { clears, leastAmps, leastSeconds, ratedAmps, curve } = device;
      if (leastAmps === undefined || ratedAmps === undefined) return false;
      if (clears === 'surely') return leastSeconds === undefined;
      return clears === 'not known' && curve === undefined && leastAmps <= ratedAmps;
    });
    expect(wrong.map(({ part, pole }) => `${part.name}:${pole}`)).toEqual([]);
  });
});
