/** `via BOX, gland M16`, `into BOX by E7`, `enters BOX, gland E7`: how a cable enters an enclosure. */
import { spanOf, word } from '../mend.ts';
import { problem, quoted } from '../phrases.ts';
import type { Atom, WordAtom } from '../tree.ts';
import { beginsClause, isName, isWord, type Rewriter, type Rewriting, rewritten } from './rewriting.ts';

const enters = /^enters$/;
const into = /^(?:into|enter|entering|leaves?|leaving|exits?|passes)$/i;
const verbs = /^(?:enters?|entering|leaves?|leaving|exits?|into|in|via|through|passes)$/i;
const by = /^(?:by|via|through|with|at|using)$/i;
const passages = /^(?:gland|grommet|conduit)$/i;
const thread = /^(?:M|PG)\d+$/i;

export const entersBox: Rewriter = (body, at, ...known) => {
  const [verb, box] = [body[at], body[at + 1]];
  if (!isWord(verb, verbs) || box?.kind !== 'word' || passages.test(box.value) || by.test(box.value)) return undefined;
  let end = at + 2;
  const parted = body[end]?.kind === 'comma';
  if (parted) end += 1;
  const how = body[end];
  if (isWord(how, by)) end += 1;
  if (isWord(body[end], /^(?:a|an|the)$/i)) end += 1;
  const turned = passageBehind(body, at, end, box);
  if (turned !== undefined) return turned;
  const passage = body[end];
  if (isWord(passage, passages)) return byPassage(body, at, end, box, passage);
  // `enters BOX E4`.
  if (enters.test(verb.value) && !parted && isName(how, known) && !isWord(how, by))
    return entering(body.slice(at, end + 1), box, ['by'], how);
  const isParted = parted || !isWord(how, by);
  if (isParted) return into.test(verb.value) ? entering(body.slice(at, at + 2), box, []) : undefined;
  // `via LOFT by hand` may well be a place, and `enters BOX by E7` is right.
  const isRight = enters.test(verb.value) && how.value === 'by';
  const entry = body[end];
  return isRight || entry?.kind !== 'word' ? undefined : entering(body.slice(at, end + 1), box, ['by'], entry);
};

/** `by M20 gland`, and `by M20`, which is no entry's name. */
function passageBehind(body: readonly Atom[], at: number, end: number, box: WordAtom): Rewriting | undefined {
  const [size, passage] = [body[end], body[end + 1]];
  const isLength = size?.kind === 'quantity' && size.dimension === 'length';
  if (!(isWord(size, thread) || isLength) || !isWord(body[end - 1], /^(?:by|via|through|with|at|using|a|an|the)$/i))
    return undefined;
  const isTurned = isWord(passage, passages);
  if (!isTurned && size.kind !== 'word') return undefined;
  const way = isTurned ? passage.value.toLowerCase() : 'gland';
  return entering(body.slice(at, isTurned ? end + 2 : end + 1), box, ['by', way], size);
}

function byPassage(
  body: readonly Atom[],
  at: number,
  end: number,
  box: WordAtom,
  passage: WordAtom,
): Rewriting | undefined {
  const next = body[end + 1];
  const what = next?.kind === 'word' || next?.kind === 'quantity' ? next : undefined;
  // An entry of one's own is said by its name alone.
  const named = what?.kind === 'word' && !thread.test(what.value);
  const isRight = isWord(body[at], enters) && end === at + 3 && isWord(body[at + 2], /^by$/) && !named;
  if (isRight) return undefined;
  const some = body.slice(at, end + (what === undefined ? 1 : 2));
  return entering(some, box, named ? ['by'] : ['by', passage.value.toLowerCase()], what);
}

/** `what` is the entry, or the size of what the cable goes through. */
function entering(some: readonly Atom[], box: WordAtom, behind: readonly string[], what?: Atom): Rewriting {
  const put = [
    word('enters', some),
    box,
    ...behind.map((one) => word(one, some)),
    ...(what === undefined ? [] : [what]),
  ];
  const right = ['enters', box.value, ...behind, ...(what === undefined ? [] : [what.text])].join(' ');
  return rewritten(some, right, put, false);
}

/** `through gland E7`, `enters by E7`: which box it is, nobody says. */
export const intoNothing: Rewriter = (body, at) => {
  const [verb, next] = [body[at], body[at + 1]];
  if (!isWord(verb, verbs) || !(isWord(next, passages) || (enters.test(verb.value) && isWord(next, by))))
    return undefined;
  const isLong = isWord(next, by) && isWord(body[at + 2], passages);
  if (isLong) return boxMissing(body.slice(at + 1, at + (isSize(body[at + 3]) ? 4 : 3)), body[at] as Atom);
  const what = body[at + 2];
  const some = body.slice(at, at + (what?.kind === 'word' || what?.kind === 'quantity' ? 3 : 2));
  const [, , how] = some;
  const [into, box] = [body[at + some.length], body[at + some.length + 1]];
  if (isWord(next, passages) && isWord(into, /^(?:in|into|enters)$/i) && box?.kind === 'word') {
    const named = how?.kind === 'word' && !thread.test(how.value);
    const all = body.slice(at, at + some.length + 2);
    const behind = [...(named ? [] : [next]), ...(how === undefined ? [] : [how])];
    const put = [word('enters', all), box, word('by', all), ...behind];
    return rewritten(all, ['enters', box.value, 'by', ...behind.map(({ text }) => text)].join(' '), put, false);
  }
  const way = isWord(next, passages) && (how === undefined || isWord(how, thread) || how.kind === 'quantity');
  const right = `enters BOX by ${[...(way ? [next] : []), ...(how === undefined ? [] : [how])].map(({ text }) => text).join(' ')}`;
  const message = `Which enclosure it enters stands first: write it like ${quoted(right.trimEnd())}.`;
  return { count: some.length, put: [], problem: problem('unknown-clause', spanOf(some), message) };
};

const isSize = (atom: Atom | undefined): boolean => isWord(atom, thread) || atom?.kind === 'quantity';

/** `enters by gland M20`. */
function boxMissing(behind: readonly Atom[], verb: Atom): Rewriting {
  const some = [verb, ...behind];
  const right = `enters BOX by ${behind
    .slice(1)
    .map(({ text }) => text)
    .join(' ')}`;
  const message = `Which enclosure it enters stands first: write it like ${quoted(right)}.`;
  return { count: some.length, put: [], problem: problem('unknown-clause', spanOf(some), message) };
}

/** `gland M20` and `by gland M20` by themselves. */
export const passageAlone: Rewriter = (body, at) => {
  if (!beginsClause(body, at)) return undefined;
  const from = isWord(body[at], /^(?:by|via|through|with)$/i) ? at + 1 : at;
  const passage = body[from];
  if (!isWord(passage, passages) || isWord(body[from + 1], /^(?:in|into|enters)$/i)) return undefined;
  const some = body.slice(at, isSize(body[from + 1]) ? from + 2 : from + 1);
  const right = `enters BOX by ${body
    .slice(from, at + some.length)
    .map(({ text }) => text)
    .join(' ')}`;
  const message = `Which enclosure it enters stands first: write it like ${quoted(right)}.`;
  return { count: some.length, put: [], problem: problem('unknown-clause', spanOf(some), message) };
};
