/** Around every handler: one that throws gives an empty answer and one line in the log, and the server lives on. */
import { type CancellationToken, LSPErrorCodes, type RemoteConsole, ResponseError } from 'vscode-languageserver';

export type Log = Pick<RemoteConsole, 'error'>;

/** What went wrong in one line; a trace belongs in a debugger, not in a person's log. */
export function oneLine(error: unknown): string {
  const text = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  return text.replace(/\s*\n[\s\S]*$/, '').slice(0, 500);
}

/**
 * A request handler that cannot throw. One that is cancelled is answered so at once, whatever it waits for; what it waits for
 * goes on, for whoever asks next.
 */
export function guarded<Params, Answer, More extends readonly unknown[] = []>(
  log: Log,
  what: string,
  empty: Answer,
  handler: (params: Params, token: CancellationToken, ...more: More) => Answer | Promise<Answer>,
): (params: Params, token: CancellationToken, ...more: More) => Promise<Answer | ResponseError<never>> {
  return async (params, token, ...more) => {
    if (token.isCancellationRequested) return cancelled();
    const answer = async () => {
      try {
        return await handler(params, token, ...more);
      } catch (error) {
        log.error(`${what} failed: ${oneLine(error)}`);
        return empty;
      }
    };
    let forget = () => {};
    const cancel = new Promise<ResponseError<never>>((resolve) => {
      const listener = token.onCancellationRequested(() => resolve(cancelled()));
      forget = () => listener.dispose();
    });
    return Promise.race([answer(), cancel]).finally(forget);
  };
}

function cancelled(): ResponseError<never> {
  return new ResponseError(LSPErrorCodes.RequestCancelled, 'cancelled');
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

/** Turns of the event loop in which a message comes in, and in which it is handled. */
const turns = 2;

/** Lets waiting messages in (a newer edit, a question, a cancellation) before work that takes a while. */
export async function breathe(): Promise<void> {
  for (let turn = 0; turn < turns; turn += 1)
    await new Promise<void>((resolve) => {
      // A web worker has no setImmediate.
      if (typeof setImmediate === 'function') setImmediate(resolve);
      else setTimeout(resolve, 0);
    });
}

export function pause(milliseconds: number): Promise<void> {
  return new Promise((resolve) => {
    setTimeout(resolve, milliseconds);
  });
}
