/** Small pieces of sentences that messages are put together from. */
import type { Problem, ProblemFix, Span } from './tree.ts';

export function article(word: string): string {
  return /^(?!us)[aeiou]/i.test(word) ? `an ${word}` : `a ${word}`;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** `a`, `a or b`, `a, b or c`. */
export function list(words: readonly string[]): string {
  if (words.length <= 1) return words[0] ?? '';
  return `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}

/** The longest text that a message repeats whole. */
const mostQuoted = 60;

/** The user's own words in a message; of very long ones the beginning, on one line. */
export function quoted(text: string): string {
  const short = text.length <= mostQuoted ? text : `${text.slice(0, mostQuoted - 20)}…`;
  return `“${short.replace(/[\r\n]+/g, ' ')}”`;
}

/** One replacement as a fix. */
export function replace(title: string, span: Span, newText: string, safe: boolean): ProblemFix {
  return { title, safe, edits: [{ span, newText }] };
}

export function insert(title: string, at: number, newText: string, safe: boolean): ProblemFix {
  return replace(title, { start: at, end: at }, newText, safe);
}

/** Near words as fixes: safe to take unasked only where there is but one. */
export function nearFixes(near: readonly string[], span: Span): ProblemFix[] {
  return near.map((word) => replace(`Write ${word}`, span, word, near.length === 1));
}

export function problem(slug: string, span: Span, message: string, fixes: readonly ProblemFix[] = []): Problem {
  return fixes.length === 0 ? { slug, span, message } : { slug, span, message, fixes };
}
