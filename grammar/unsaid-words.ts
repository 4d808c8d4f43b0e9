/** Words that the trade says of a thing and the notation does not, because nothing follows from them or something else tells it. */
import type { CompiledSpec } from './compiled.ts';
import { quoted } from './phrases.ts';
import type { Atom, Span } from './tree.ts';

/** By statement or kind, in small letters. */
const unsaid: Readonly<Record<string, readonly string[]>> = {
  panel: ['mono', 'poly', 'monocrystalline', 'polycrystalline'],
  inverter: ['pure sine wave', 'pure sine', 'modified sine wave', 'modified sine'],
  switch: ['rocker switch', 'rocker', 'toggle switch', 'toggle', 'normally open', 'normally closed', 'on/off'],
  load: ['led strip', 'led lamp', 'led lamps', 'led lights', 'led'],
  relay: ['normally open', 'normally closed', 'no', 'nc'],
};

export interface UnsaidWords {
  readonly count: number;
  /** What goes with them: the comma before, where they stand between two. */
  readonly span: Span;
}

export function unsaidAt(body: readonly Atom[], at: number, { spec, byWord }: CompiledSpec): UnsaidWords | undefined {
  const before = body[at - 1];
  for (const phrase of unsaid[spec.word] ?? []) {
    const words = phrase.split(' ');
    const some = body.slice(at, at + words.length);
    const isIt = words.every((word, i) => some[i]?.kind === 'word' && some[i]?.text.toLowerCase() === word);
    // A keyword is never left out, nor a name behind one: `in NO`.
    if (!isIt || byWord.has(some[0]?.text ?? '') || before?.kind === 'word') continue;
    const [{ span: first }, { span: last }] = [some[0] as Atom, some.at(-1) as Atom];
    const next = body[at + words.length];
    const isBetween = next === undefined || next.kind === 'comma' || next.kind === 'line';
    const start = before === undefined || before.kind === 'line' ? first.start : before.span.end;
    if (!isBetween) return { count: words.length, span: { start: first.start, end: next.span.start } };
    return {
      count: words.length,
      span: { start: before?.kind === 'comma' ? before.span.start : start, end: last.end },
    };
  }
  return undefined;
}

/** What tells it instead, where it matters. */
export function unsaidTold(written: string): { readonly message: string; readonly safe: boolean } {
  const isContact = /^(?:normally|no$|nc$)/iu.test(written);
  const why = isContact
    ? 'is told by its terminals and by what a case says is on: see that its cores end there, and leave it out'
    : 'need not be said: leave it out';
  return { message: `${quoted(written)} ${why}.`, safe: !isContact };
}
