/** The `ampscribe` command: from arguments to exit code. */
import { answersCommand } from './answers-command.ts';
import { checkCommand } from './check-command.ts';
import { diagramCommand } from './diagram-command.ts';
import { UnreadableError } from './files.ts';
import { formatCommand } from './format-command.ts';
import type { Surroundings } from './io.ts';
import { readArguments, UsageError, usage } from './usage.ts';

/** Exit code: 0 clean, 1 findings at or above the level, 2 could not read or bad usage. Undefined: it goes on serving. */
export async function run(args: readonly string[], io: Surroundings): Promise<number | undefined> {
  try {
    const command = readArguments(args);
    switch (command.do) {
      case 'help':
        io.out(usage);
        return 0;
      case 'version':
        io.out(`${io.version}\n`);
        return 0;
      case 'serve':
        io.serve();
        return undefined;
      case 'check':
        return await checkCommand(command, io);
      case 'format':
        return await formatCommand(command, io);
      case 'answers':
        return await answersCommand(command, io);
      case 'diagram':
        return await diagramCommand(command, io);
    }
  } catch (error) {
    if (error instanceof UsageError) io.err(`${error.message}\nTry: ampscribe --help\n`);
    else if (error instanceof UnreadableError) io.err(`${error.message}\n`);
    else io.err(`Something went wrong inside Ampscribe: ${error instanceof Error ? error.message : String(error)}\n`);
    return 2;
  }
}
