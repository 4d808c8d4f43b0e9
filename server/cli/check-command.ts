/** `ampscribe check`: findings as text with the source line, or as JSON. */
import { isAbsolute, relative, resolve } from 'node:path';
import { withSettings } from '../analysis.ts';
import type { Severity } from '../rules/rule.ts';
import { checkJson } from './check-json.ts';
import { specsAt, UnreadableError } from './files.ts';
import { findingsText, summaryText } from './findings-text.ts';
import type { Surroundings } from './io.ts';
import { asPieces, type Loaded, load } from './load.ts';
import type { Command } from './usage.ts';

export async function checkCommand(command: Extract<Command, { do: 'check' }>, io: Surroundings): Promise<number> {
  const read: Loaded[] = [];
  let unreadable = false;
  for (const path of command.paths) {
    // One file that cannot be read does not hide what is found in the others.
    try {
      const files = path === '-' ? ['-'] : specsAt(resolve(io.here, path)).map((file) => shown(file, path, io));
      for (const file of files) read.push(await load(file, io));
    } catch (error) {
      if (!(error instanceof UnreadableError)) throw error;
      io.err(`${error.message}\n`);
      unreadable = true;
    }
  }
  const loaded = asPieces(read).map((one) => ({ ...one, analysis: withSettings(one.analysis, command.severities) }));
  if (command.format === 'json') io.out(`${JSON.stringify(checkJson(loaded, io.here), null, 2)}\n`);
  else {
    for (const { name, analysis } of loaded) io.out(findingsText(name, analysis, io));
    io.out(summaryText(loaded, io));
  }
  if (unreadable) return 2;
  const levels: readonly Severity[] = command.failOn === 'warning' ? ['error', 'warning'] : ['error'];
  const failing = loaded.some(({ analysis }) => analysis.findings.some((finding) => levels.includes(finding.severity)));
  return failing ? 1 : 0;
}

/** Paths stay as the user wrote them: relative when given so. */
function shown(file: string, asked: string, io: Surroundings): string {
  return isAbsolute(asked) ? file : relative(io.here, file) || file;
}
