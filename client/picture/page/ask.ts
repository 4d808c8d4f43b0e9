/** The extension around the page: what is told to it, what it is asked, and what the page keeps over a reload. */
import type { FromPage, Question, Questions, SavedView } from '../messages.ts';

interface Host {
  postMessage(message: FromPage): void;
  getState(): unknown;
  setState(view: SavedView): void;
}

declare function acquireVsCodeApi(): Host;

export const host = acquireVsCodeApi();

const waiting = new Map<number, (answer: unknown) => void>();
let asked = 0;

/** Null where there is no answer. */
export function ask<What extends Question>(
  what: What,
  params: Questions[What]['params'],
): Promise<Questions[What]['answer']> {
  asked += 1;
  const id = asked;
  return new Promise((resolve) => {
    waiting.set(id, (answer) => resolve(answer as Questions[What]['answer']));
    host.postMessage({ say: 'ask', id, what, params });
  });
}

export function answered(id: number, answer: unknown): void {
  waiting.get(id)?.(answer);
  waiting.delete(id);
}
