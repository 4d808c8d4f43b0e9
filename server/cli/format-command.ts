/** `ampscribe format`: rewrites files tidily, or only says which are not tidy. */
import { writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { parseDocument } from '../../grammar/parse.ts';
import { formatDocument } from '../../grammar/printer.ts';
import { withLineFeeds } from '../../grammar/text-in-blocks.ts';
import { vocabulary } from '../kinds/vocabulary.ts';
import { UnreadableError } from './files.ts';
import type { Surroundings } from './io.ts';
import { textOf } from './load.ts';
import type { Command } from './usage.ts';

export async function formatCommand(command: Extract<Command, { do: 'format' }>, io: Surroundings): Promise<number> {
  let untidy = 0;
  let unreadable = false;
  for (const path of command.paths) {
    let text: string;
    try {
      text = await textOf(path, io);
    } catch (error) {
      if (!(error instanceof UnreadableError)) throw error;
      io.err(`${error.message}\n`);
      unreadable = true;
      continue;
    }
    const tidy = formatDocument(parseDocument(withLineFeeds(text), vocabulary));
    if (path === '-' && !command.check) io.out(tidy);
    if (tidy === text) continue;
    untidy += 1;
    if (command.check) io.out(`${path === '-' ? 'Standard input' : path} is not tidy.\n`);
    else if (path !== '-') {
      writeFileSync(resolve(io.here, path), tidy, 'utf8');
      io.err(`${path} formatted.\n`);
    }
  }
  if (unreadable) return 2;
  return command.check && untidy > 0 ? 1 : 0;
}
