/** `ampscribe diagram`: the wiring diagram and the terminal cards of a spec, as SVG, PNG or PDF. */
import { writeFileSync } from 'node:fs';
import { basename, extname, resolve } from 'node:path';
import { nearWords } from '../../grammar/near.ts';
import type { Analysis } from '../analysis.ts';
import { cardsOf } from '../reports/cards/card-of.ts';
import { figuresOf } from '../reports/picture/figures.ts';
import { layOut } from '../reports/picture/lay-out.ts';
import { pictureOf } from '../reports/picture/picture-of.ts';
import { findingLines } from '../reports/sheets/finding-sheets.ts';
import type { Paper } from '../reports/sheets/paper.ts';
import { counted, type Sheet, type SheetFacts } from '../reports/sheets/sheet.ts';
import { sheetsOf } from '../reports/sheets/sheets-of.ts';
import type { DrawingTools } from './drawing-tools.ts';
import { UnreadableError } from './files.ts';
import type { Surroundings } from './io.ts';
import { load } from './load.ts';
import { type Command, UsageError } from './usage.ts';

type Asked = Extract<Command, { do: 'diagram' }>;

/** What a printer has in it unless something else is said. */
const usualPaper: Paper = 'a4';

export async function diagramCommand(command: Asked, io: Surroundings): Promise<number> {
  const { analysis } = await load(command.path, io);
  checkCase(analysis, command);
  checkNames(analysis, command);
  const tools = io.drawing();
  const sheets = await sheetsAsked(analysis, command, io, tools);
  await write(sheets, command, io, tools);
  if (command.format !== 'svg') await tellMissing(sheets, command, io, tools);
  const errors = analysis.findings.filter(({ severity }) => severity === 'error').length;
  if (errors > 0)
    io.err(`The spec has ${errors} ${errors === 1 ? 'error' : 'errors'}: see ampscribe check ${command.path}\n`);
  return 0;
}

function checkCase({ answers }: Analysis, { caseName, path }: Asked): void {
  const names = answers.cases.map(({ name }) => name);
  if (caseName !== undefined && !names.includes(caseName))
    throw new UsageError(`There is no case "${caseName}" in ${path}: it has ${names.join(', ')}.`);
}

function checkNames({ model }: Analysis, { only, path }: Asked): void {
  const parts = [...model.parts.values()].filter(({ terminals }) => terminals.length > 0).map(({ name }) => name);
  if (parts.length === 0) throw new UsageError(`There is nothing to draw in ${path}: it has no parts with terminals.`);
  for (const name of only) {
    if (parts.includes(name)) continue;
    if (model.runs.has(name))
      throw new UsageError(`"${name}" is a cable: name a part that it leads to, and it is drawn too.`);
    const [nearest] = nearWords(name, parts);
    throw new UsageError(
      `There is no part "${name}" in ${path}${nearest === undefined ? '' : `: did you mean ${nearest}`}${nearest === undefined ? '.' : '?'}`,
    );
  }
}

async function sheetsAsked(
  analysis: Analysis,
  command: Asked,
  io: Surroundings,
  tools: DrawingTools,
): Promise<Sheet[]> {
  const only = command.only.length === 0 ? undefined : command.only;
  const drawing = await layOut(pictureOf(analysis, only === undefined ? {} : { only }), tools.engine);
  const figures = command.caseName === undefined ? undefined : figuresOf(analysis, command.caseName);
  return sheetsOf({
    drawing,
    look: { colours: 'print', ...(figures === undefined ? {} : { figures }) },
    cards: command.cards ? cardsOf(analysis, only === undefined ? undefined : new Set(only)) : [],
    findings: findingLines(analysis),
    paper: command.paper ?? (command.format === 'pdf' ? usualPaper : undefined),
    facts: factsOf(analysis, command, io),
  });
}

function factsOf({ model, findings }: Analysis, { path }: Asked, io: Surroundings): SheetFacts {
  const file = path === '-' ? 'standard input' : basename(path);
  return {
    title: model.system.title ?? file,
    file,
    revision: path === '-' ? undefined : io.revision(resolve(io.here, path)),
    date: dateOf(io.now()),
    findings: counted(findings),
  };
}

/** The day where the command is run. */
function dateOf(at: Date): string {
  const two = (value: number) => String(value).padStart(2, '0');
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

async function write(sheets: readonly Sheet[], command: Asked, io: Surroundings, tools: DrawingTools): Promise<void> {
  const { format, out } = command;
  if (out === undefined) {
    const [only, ...more] = sheets;
    if (more.length > 0)
      throw new UsageError(
        `These are ${sheets.length} pages, each a file of its own: say --out FILE, and they are numbered.`,
      );
    io.out(only?.svg ?? '');
    return;
  }
  if (format === 'pdf') {
    save(out, await tools.pdf(sheets, { title: titleOf(command), at: io.now() }), io);
    io.err(`${out} written: ${sheets.length} ${sheets.length === 1 ? 'page' : 'pages'}.\n`);
    return;
  }
  for (const [index, sheet] of sheets.entries()) {
    const file = sheets.length === 1 ? out : numbered(out, index + 1);
    save(file, format === 'png' ? await tools.png(sheet) : new TextEncoder().encode(sheet.svg), io);
    io.err(`${file} written.\n`);
  }
}

/** A reader of SVG takes such letters from another typeface; in the others there is but one. */
async function tellMissing(
  sheets: readonly Sheet[],
  { format }: Asked,
  io: Surroundings,
  tools: DrawingTools,
): Promise<void> {
  const missing = await tools.missing(sheets);
  if (missing.length > 0)
    io.err(
      `The typeface has no ${missing.slice(0, 12).join(' ')}: ${format.toUpperCase()} shows boxes there, and SVG the letters.\n`,
    );
}

const titleOf = ({ path }: Asked) => `Wiring of ${path === '-' ? 'standard input' : basename(path)}`;

/** `van.svg`, `van-2.svg`. */
function numbered(file: string, number: number): string {
  const ending = extname(file);
  return `${file.slice(0, file.length - ending.length)}-${number}${ending}`;
}

function save(file: string, bytes: Uint8Array, io: Surroundings): void {
  try {
    writeFileSync(resolve(io.here, file), bytes);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    const why =
      code === 'ENOENT'
        ? 'there is no such folder'
        : code === 'EISDIR'
          ? 'it is a folder'
          : code === 'EACCES' || code === 'EPERM' || code === 'EROFS'
            ? 'it may not be written there'
            : (code ?? String(error));
    throw new UnreadableError(`${file} could not be written: ${why}.`);
  }
}
