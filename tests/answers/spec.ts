/** From the text of a spec to its answers, as `analyse` goes, for the tests of this folder. */
import { ParseCache } from '../../grammar/parse.ts';
import { workOut } from '../../server/answers/work-out.ts';
import { buildModel } from '../../server/model/build.ts';
import { readFiles } from '../../server/model/files.ts';
import { buildNetwork } from '../../server/model/network-build.ts';
import { limitSets } from '../../server/physics/limits/sets.ts';
import { memorySource, specUri } from '../analysed.ts';

export function read(text: string, files: Readonly<Record<string, string>> = {}) {
  const source = memorySource({ ...files, 'spec.amps': text });
  const model = buildModel(
    readFiles(specUri, source, () => new ParseCache()),
    { limitSets: [...limitSets.keys()] },
  );
  return { model, network: buildNetwork(model) };
}

export function answers(text: string, files: Readonly<Record<string, string>> = {}) {
  const { model, network } = read(text, files);
  return { model, ...workOut(model, network) };
}
