/** What the command can do and how it is asked: the words of `ampscribe --help` and the reading of its arguments. */
import { parseArgs } from 'node:util';
import { type Paper, papers } from '../reports/sheets/paper.ts';
import { allRules } from '../rules/all.ts';
import { isLevel, levels, readSeverities, type SeveritySettings } from '../rules/severities.ts';

export const usage = `ampscribe checks wiring specs (.amps files) and shows what is worked out from them.

  ampscribe check FILE|FOLDER… [--format text|json] [--fail-on error|warning] [--severity FINDING=LEVEL]…
      Show what is wrong. FOLDER means every .amps file in it; - reads standard input.
      Ends with 0 when nothing is at or above the level (error, unless --fail-on says warning;
      advice never fails), 1 when something is, 2 when a file could not be read.
      --severity tells a finding as off, advice, warning or error, such as --severity drop-over-limit=advice.
  ampscribe format [--check] FILE…
      Rewrite the files tidily. With --check only name the files that are not tidy (and end with 1).
      - reads standard input and prints the tidy text.
  ampscribe answers FILE [--case NAME] [--format text|json]
      Show what is worked out: currents, voltages, drops and losses, case by case.
  ampscribe diagram FILE [--format svg|png|pdf] [--case NAME] [--only NAME]… [--cards]
                         [--paper a4|a3|letter] [--out FILE]
      Draw the wiring diagram. --only draws some parts with their cables, --cards adds a card of the terminals of each
      switch, relay, fusebox and the like, --case writes the figures of that case in. With --paper, and always as PDF
      (a4 unless said), it comes on pages with a title block, a large one over several, and with what was found.
      SVG goes to standard output unless --out names a file.
  ampscribe serve --stdio
      The language server, for editors.
  ampscribe --version
  ampscribe --help

The findings help to plan; they do not replace local codes or licensed practice.
`;

export type Command =
  | {
      readonly do: 'check';
      readonly paths: readonly string[];
      readonly format: 'text' | 'json';
      readonly failOn: 'error' | 'warning';
      readonly severities: SeveritySettings;
    }
  | { readonly do: 'format'; readonly paths: readonly string[]; readonly check: boolean }
  | {
      readonly do: 'answers';
      readonly path: string;
      readonly caseName: string | undefined;
      readonly format: 'text' | 'json';
    }
  | {
      readonly do: 'diagram';
      readonly path: string;
      readonly format: 'svg' | 'png' | 'pdf';
      readonly caseName: string | undefined;
      /** Names of parts; none means all. */
      readonly only: readonly string[];
      readonly cards: boolean;
      readonly paper: Paper | undefined;
      readonly out: string | undefined;
    }
  | { readonly do: 'serve' }
  | { readonly do: 'help' }
  | { readonly do: 'version' };

/** Bad usage: the message says what was wrong with the words of the call. */
export class UsageError extends Error {}

/** Reads the arguments behind `ampscribe`. Throws `UsageError` with a sentence for the user. */
export function readArguments(args: readonly string[]): Command {
  const parsed = readOptions(args);
  const { values, positionals } = parsed;
  if (values.help) return { do: 'help' };
  if (values.version) return { do: 'version' };
  const [word, ...paths] = positionals;
  const allow = (...names: string[]) => {
    for (const name of Object.keys(values)) {
      if (!names.includes(name)) throw new UsageError(`ampscribe ${word} does not take --${name}.`);
    }
  };
  switch (word) {
    case 'check':
      allow('format', 'fail-on', 'severity');
      if (paths.length === 0) throw new UsageError('Say which file or folder to check, or - for standard input.');
      return {
        do: 'check',
        paths,
        format: oneOf('format', values.format ?? 'text', ['text', 'json']),
        failOn: oneOf('fail-on', values['fail-on'] ?? 'error', ['error', 'warning']),
        severities: severitiesOf(values.severity ?? []),
      };
    case 'format':
      allow('check');
      if (paths.length === 0) throw new UsageError('Say which files to format, or - for standard input.');
      return { do: 'format', paths, check: values.check === true };
    case 'answers': {
      allow('format', 'case');
      const [path, ...more] = paths;
      if (path === undefined || more.length > 0) throw new UsageError('ampscribe answers takes one file, or -.');
      const format = oneOf('format', values.format ?? 'text', ['text', 'json']);
      return { do: 'answers', path, caseName: values.case, format };
    }
    case 'diagram': {
      allow('format', 'case', 'only', 'cards', 'paper', 'out');
      const [path, ...more] = paths;
      if (path === undefined || more.length > 0) throw new UsageError('ampscribe diagram takes one file, or -.');
      const format = oneOf('format', values.format ?? 'svg', ['svg', 'png', 'pdf']);
      if (values.out === undefined && format !== 'svg')
        throw new UsageError(`${format.toUpperCase()} is written to a file: say --out FILE.${format}`);
      return {
        do: 'diagram',
        path,
        format,
        caseName: values.case,
        only: (values.only ?? []).flatMap((names) => names.split(',')).filter((name) => name !== ''),
        cards: values.cards === true,
        paper: values.paper === undefined ? undefined : oneOf('paper', values.paper, papers),
        out: values.out,
      };
    }
    case 'serve':
      allow('stdio');
      if (values.stdio !== true || paths.length > 0)
        throw new UsageError('The language server speaks over --stdio only: ampscribe serve --stdio');
      return { do: 'serve' };
    case undefined:
      throw new UsageError('Say what to do: check, format, answers, diagram or serve.');
    default:
      throw new UsageError(`ampscribe has no command "${word}": it has check, format, answers, diagram and serve.`);
  }
}

function readOptions(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      allowPositionals: true,
      strict: true,
      options: {
        format: { type: 'string' },
        'fail-on': { type: 'string' },
        severity: { type: 'string', multiple: true },
        case: { type: 'string' },
        only: { type: 'string', multiple: true },
        cards: { type: 'boolean' },
        paper: { type: 'string' },
        out: { type: 'string' },
        check: { type: 'boolean' },
        stdio: { type: 'boolean' },
        help: { type: 'boolean', short: 'h' },
        version: { type: 'boolean', short: 'V' },
      },
    });
  } catch (error) {
    throw new UsageError(error instanceof Error ? error.message : String(error));
  }
}

function oneOf<T extends string>(option: string, value: string, allowed: readonly T[]): T {
  const found = allowed.find((candidate) => candidate === value);
  if (found === undefined) throw new UsageError(`--${option} takes ${allowed.join(' or ')}, not "${value}".`);
  return found;
}

function severitiesOf(stated: readonly string[]): SeveritySettings {
  const severity = stated.map((one) => {
    const [slug = '', level, ...more] = one.split('=');
    if (!isLevel(level) || more.length > 0)
      throw new UsageError(`--severity takes FINDING=LEVEL with ${levels.join(', ')}, not "${one}".`);
    if (!allRules.some((rule) => rule.slug === slug)) throw new UsageError(`There is no finding "${slug}".`);
    return [slug, level] as const;
  });
  return readSeverities({ severity: Object.fromEntries(severity) });
}
