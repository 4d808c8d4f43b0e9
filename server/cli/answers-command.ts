/** `ampscribe answers`: what is worked out from a spec, as tables or as JSON. */
import { answersJson } from '../answers/answers-json.ts';
import { answersText } from './answers-text.ts';
import type { Surroundings } from './io.ts';
import { load } from './load.ts';
import { type Command, UsageError } from './usage.ts';

export async function answersCommand(command: Extract<Command, { do: 'answers' }>, io: Surroundings): Promise<number> {
  const { analysis } = await load(command.path, io);
  const names = analysis.answers.cases.map(({ name }) => name);
  if (command.caseName !== undefined && !names.includes(command.caseName))
    throw new UsageError(`There is no case "${command.caseName}" in ${command.path}: it has ${names.join(', ')}.`);
  const json = answersJson(analysis.answers, command.caseName);
  io.out(command.format === 'json' ? `${JSON.stringify(json, null, 2)}\n` : answersText(json));
  const errors = analysis.findings.filter(({ severity }) => severity === 'error').length;
  if (errors > 0 && command.format === 'text')
    io.err(`The spec has ${errors} ${errors === 1 ? 'error' : 'errors'}: see ampscribe check ${command.path}\n`);
  return 0;
}
