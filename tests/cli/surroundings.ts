/** Stand-in surroundings for the command: collects what it prints, reads what the test gives it. */
import { readFile } from 'node:fs/promises';
import { drawingTools, toolFiles } from '../../server/cli/drawing-tools.ts';
import type { Surroundings } from '../../server/cli/io.ts';
import { run } from '../../server/cli/run.ts';

/** Files that the built command has beside it, from the libraries they come from. */
const libraries: Readonly<Record<string, string>> = {
  [toolFiles.regular]: 'dejavu-fonts-ttf/ttf/DejaVuSans.ttf',
  [toolFiles.bold]: 'dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf',
  [toolFiles.wasm]: '@resvg/resvg-wasm/index_bg.wasm',
};

export const readTool = (file: string) => readFile(`node_modules/${libraries[file]}`);

export interface Ran {
  readonly code: number | undefined;
  readonly out: string;
  readonly err: string;
  readonly served: boolean;
}

export async function runCommand(
  args: readonly string[],
  options: {
    here?: string;
    input?: string | Uint8Array;
    colours?: boolean;
    revision?: (file: string) => string | undefined;
  } = {},
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
    now: () => new Date(2026, 10, 26, 12),
    revision: options.revision ?? (() => undefined),
    drawing: () => drawingTools(() => import('../../server/reports/sheets/paper-files.ts'), readTool),
  };
  const code = await run(args, io);
  return { code, out, err, served };
}
