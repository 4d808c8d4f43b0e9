/** Which revision of a repository a file is of, for the title block. */
import { execFileSync } from 'node:child_process';
import { basename, dirname } from 'node:path';

/** Long enough for a slow disk; a drawing does not wait for more. */
const patience = 3000;

/**
 * `3f2a1c9`, with `+ changes` behind it where the file is not as it was committed. Undefined outside a repository, before its
 * first commit, and where git is not there.
 */
export function revisionOf(file: string): string | undefined {
  const ask = (...args: string[]) =>
    execFileSync('git', args, {
      cwd: dirname(file),
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
      timeout: patience,
    }).trim();
  try {
    const revision = ask('rev-parse', '--short', 'HEAD');
    const changed = ask('status', '--porcelain', '--', basename(file)) !== '';
    return changed ? `${revision} + changes` : revision;
  } catch {
    return undefined;
  }
}
