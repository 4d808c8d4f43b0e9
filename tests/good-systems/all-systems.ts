/** The samples and the good systems by their file names, but for those that have no cases or are full of faults on purpose. */
import { readdirSync, readFileSync } from 'node:fs';
import { type Analysis, analyse } from '../../server/analysis.ts';
import { memorySource } from '../analysed.ts';

const folders = ['samples', 'tests/good-systems'];
const files = Object.fromEntries(
  folders.flatMap((folder) =>
    readdirSync(folder)
      .filter((name) => name.endsWith('.amps'))
      .map((name) => [name, readFileSync(`${folder}/${name}`, 'utf8')]),
  ),
);

export const systems = Object.keys(files).filter((name) => !/stock|as-found/.test(name));

export const textOf = (name: string): string => files[name] ?? '';

/** Such a system with another text. */
export function analysedAs(name: string, text: string): Analysis {
  return analyse(`memory:///${name}`, memorySource({ ...files, [name]: text }));
}
