/**
 * From the first message to the last one: before `initialize` nothing is answered, after `shutdown` nothing more, each with the
 * error that the protocol says (3.17, “Server lifecycle”).
 */
import {
  type Connection,
  ErrorCodes,
  type Message,
  type MessageStrategy,
  type RequestMessage,
  ResponseError,
} from 'vscode-languageserver';

/** Asked in place of a request that does not come at its time. */
const refused = 'ampscribe/refused';

interface Refusal {
  readonly code: number;
  readonly message: string;
}

const tooEarly: Refusal = { code: ErrorCodes.ServerNotInitialized, message: 'The server was not asked to initialize.' };
const twice: Refusal = { code: ErrorCodes.InvalidRequest, message: 'The server is initialized already.' };
const tooLate: Refusal = { code: ErrorCodes.InvalidRequest, message: 'The server was asked to shut down.' };

export class Stages implements MessageStrategy {
  private stage: 'new' | 'running' | 'over' = 'new';

  handleMessage(message: Message, next: Parameters<MessageStrategy['handleMessage']>[1]) {
    // Answers to what the server itself asked have no method.
    const { method, id } = message as Partial<RequestMessage>;
    const why = method === undefined || method === 'exit' ? undefined : this.refusal(method);
    if (why === undefined) return next(message);
    return id === undefined ? undefined : next({ ...message, method: refused, params: why } as RequestMessage);
  }

  private refusal(method: string): Refusal | undefined {
    if (this.stage === 'over') return tooLate;
    if (method === 'initialize') {
      if (this.stage === 'running') return twice;
      this.stage = 'running';
      return undefined;
    }
    if (this.stage === 'new') return tooEarly;
    if (method === 'shutdown') this.stage = 'over';
    return undefined;
  }
}

export function answerRefused(connection: Connection): void {
  connection.onRequest(refused, ({ code, message }: Refusal) => new ResponseError(code, message));
}
