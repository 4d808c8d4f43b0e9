/**
 * How messages become bytes. A large answer (an outline, tokens, edits of a whole file) is written part by part into memory that
 * is used again: made in one string and one buffer it takes fresh memory twice over, which the machine hands out page by page.
 */
import type { MessageWriterOptions } from 'vscode-languageserver/node';

/** Elements of a list that become text at once. */
const atOnce = 40;

/** So deep in a message lists are looked for: `result`, and what is in it. */
const deepest = 2;

/** A value as `JSON.stringify` writes it, in parts that are no list of many elements each. */
export function* inParts(value: unknown, depth = 0): Generator<string> {
  if (isLongList(value)) {
    for (let from = 0; from < value.length; from += atOnce) {
      const elements = JSON.stringify(value.slice(from, from + atOnce)).slice(1, -1);
      yield `${from === 0 ? '[' : ','}${elements}`;
    }
    yield ']';
  } else if (isPlain(value) && hasLongList(value, depth)) {
    let sign = '{';
    for (const [key, own] of Object.entries(value)) {
      if (own === undefined) continue;
      yield `${sign}${JSON.stringify(key)}:`;
      yield* inParts(own, depth + 1);
      sign = ',';
    }
    yield '}';
  } else yield JSON.stringify(value);
}

const isLongList = (value: unknown): value is readonly unknown[] => Array.isArray(value) && value.length > atOnce;

const isPlain = (value: unknown): value is object =>
  typeof value === 'object' && value !== null && !Array.isArray(value) && !('toJSON' in value);

const hasLongList = (value: object, depth: number): boolean =>
  depth <= deepest &&
  Object.values(value).some((own) => isLongList(own) || (isPlain(own) && hasLongList(own, depth + 1)));

/** In bytes: what a message is first written into, and the most that is kept for the next. */
const [least, most] = [1 << 16, 1 << 23];

/** A writer asks for the next message's bytes only when those of the last are written. */
export function reusingMemory(): NonNullable<MessageWriterOptions['contentTypeEncoder']> {
  let kept = Buffer.allocUnsafeSlow(least);
  return {
    name: 'application/json',
    async encode(message) {
      let memory = kept;
      let size = 0;
      for (const part of inParts(message)) {
        // A letter takes three bytes at most.
        const wanted = size + 3 * part.length;
        if (wanted > memory.length) {
          const larger = Buffer.allocUnsafeSlow(2 * wanted);
          memory.copy(larger, 0, 0, size);
          memory = larger;
        }
        size += memory.write(part, size);
      }
      if (memory.length <= most) kept = memory;
      return memory.subarray(0, size);
    },
  };
}
