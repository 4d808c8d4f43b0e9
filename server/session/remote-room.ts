/** A drawing room in another thread or worker: tasks go to it by messages, and it is started when the first one comes. */
import type { DraftAnswer, DraftTask, DrawingRoom } from './drafting.ts';

export interface RoomMessage {
  readonly id: number;
  readonly task: DraftTask;
}

/** Told to a worker before all else: where the files lie that it may need. */
export interface RoomSetting {
  readonly files: string;
}

export type RoomReply = { readonly id: number } & ({ readonly answer: DraftAnswer } | { readonly trouble: string });

/** The other end, as a thread of Node and a worker of a browser have it. */
export interface RoomProcess {
  post(message: RoomMessage): void;
  end(): void;
}

export interface RoomEvents {
  replied(reply: RoomReply): void;
  /** It is gone, and answers nothing more. */
  ended(why: string): void;
}

interface Waiting {
  done(answer: DraftAnswer): void;
  failed(error: Error): void;
}

export class RemoteRoom implements DrawingRoom {
  private process: RoomProcess | undefined;
  private readonly waiting = new Map<number, Waiting>();
  private asked = 0;

  constructor(private readonly start: (events: RoomEvents) => RoomProcess) {}

  run(task: DraftTask): Promise<DraftAnswer> {
    this.process ??= this.start({
      replied: (reply) => this.replied(reply),
      ended: (why) => this.ended(why),
    });
    this.asked += 1;
    const message = { id: this.asked, task };
    return new Promise((done, failed) => {
      this.waiting.set(message.id, { done, failed });
      this.process?.post(message);
    });
  }

  end(): void {
    this.process?.end();
    this.ended('it was ended');
  }

  private replied(reply: RoomReply): void {
    const waiting = this.waiting.get(reply.id);
    this.waiting.delete(reply.id);
    if ('answer' in reply) waiting?.done(reply.answer);
    else waiting?.failed(new Error(reply.trouble));
  }

  /** The next task starts another. */
  private ended(why: string): void {
    this.process = undefined;
    for (const { failed } of this.waiting.values()) failed(new Error(`the drawing room stopped: ${why}`));
    this.waiting.clear();
  }
}

/** What stands at the other end: does the tasks in the order they come and replies to each. */
export function serveRoom(room: DrawingRoom, reply: (reply: RoomReply) => void): (message: RoomMessage) => void {
  let turn: Promise<unknown> = Promise.resolve();
  return ({ id, task }) => {
    turn = turn.then(async () => {
      try {
        reply({ id, answer: await room.run(task) });
      } catch (error) {
        reply({ id, trouble: error instanceof Error ? error.message : String(error) });
      }
    });
  };
}
