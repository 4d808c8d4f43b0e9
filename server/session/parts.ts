/** Big answers in parts, for clients that asked to be shown what is found so far. */
import type { CancellationToken, ResultProgressReporter } from 'vscode-languageserver';
import { breathe } from './guard.ts';

/** More than this at once keeps a client from anything else. */
const most = 200;

/** What is left to answer: everything, or nothing once all of it was told in parts. */
export async function inParts<T>(
  found: AsyncIterable<readonly T[]>,
  token: CancellationToken,
  partial: ResultProgressReporter<T[]> | undefined,
): Promise<T[]> {
  const all: T[] = [];
  for await (const some of found) {
    if (partial === undefined) {
      all.push(...some);
      continue;
    }
    for (let at = 0; at < some.length; at += most) {
      if (token.isCancellationRequested) return [];
      partial.report(some.slice(at, at + most));
      await breathe();
    }
  }
  return all;
}
