/** Stand-in surroundings for the command: collects what it prints, reads what the test gives it. */
import type { Surroundings } from '../../server/cli/io.ts';
import { run } from '../../server/cli/run.ts';

export interface Ran {
  readonly code: number | undefined;
  readonly out: string;
  readonly err: string;
  readonly served: boolean;
}

export async function runCommand(
  args: readonly string[],
  options: { here?: string; input?: string | Uint8Array; colours?: boolean } = {},
): Promise<Ran> {
  let out = '';
  let err = '';
  let served = false;
  const io: Surroundings = {
    here: options.here ?? process.cwd(),
    colours: options.colours ?? false,
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    standardInput: async () =>
      typeof options.input === 'string' ? new TextEncoder().encode(options.input) : (options.input ?? new Uint8Array()),
    serve: () => {
      served = true;
    },
    version: '9.9.9',
  };
  const code = await run(args, io);
  return { code, out, err, served };
}
