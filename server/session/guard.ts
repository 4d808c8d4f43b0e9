/** Around every handler: one that throws gives an empty answer and one line in the log, and the server lives on. */
import type { CancellationToken, RemoteConsole } from 'vscode-languageserver';

export type Log = Pick<RemoteConsole, 'error'>;

/** What went wrong in one line; a trace belongs in a debugger, not in a person's log. */
export function oneLine(error: unknown): string {
  const text = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  return text.replace(/\s*\n[\s\S]*$/, '').slice(0, 500);
}

/** A request handler that cannot throw. A cancelled request is answered with the empty answer, which nobody reads. */
export function guarded<Params, Answer>(
  log: Log,
  what: string,
  empty: Answer,
  handler: (params: Params, token: CancellationToken) => Answer | Promise<Answer>,
): (params: Params, token: CancellationToken) => Promise<Answer> {
  return async (params, token) => {
    try {
      if (token.isCancellationRequested) return empty;
      return await handler(params, token);
    } catch (error) {
      log.error(`${what} failed: ${oneLine(error)}`);
      return empty;
    }
  };
}

/** The same for notifications and for work that the server starts itself. */
export function guardedTask<Params extends readonly unknown[]>(
  log: Log,
  what: string,
  task: (...params: Params) => void | Promise<void>,
): (...params: Params) => void {
  return (...params) => {
    void (async () => {
      try {
        await task(...params);
      } catch (error) {
        log.error(`${what} failed: ${oneLine(error)}`);
      }
    })();
  };
}

/** Lets waiting messages in (a newer edit, a cancellation) before work that takes a while. */
export function breathe(): Promise<void> {
  return new Promise((resolve) => {
    // A web worker has no setImmediate.
    if (typeof setImmediate === 'function') setImmediate(resolve);
    else setTimeout(resolve, 0);
  });
}
