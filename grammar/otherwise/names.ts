/** `load LEFT 9 W and RIGHT 9 W`, `load LAMP 9 W with a fuse of 5 A`: a name or a part more behind what is said. */
import { spanOf, textOf, word } from '../mend.ts';
import { looksLikeName } from '../name-problems.ts';
import { article, problem, quoted, replace } from '../phrases.ts';
import type { Atom, WordAtom } from '../tree.ts';
import { beginsClause, isName, isQuantity, isWord, type Rewriter, rewritten } from './rewriting.ts';

/** A name behind a clause, and what is said once more of it. */
export const nameBehindClause: Rewriter = (body, at, spec, compiled) => {
  const [and, name] = [body[at], body[at + 1]];
  // Directly behind the names, with a comma or without, it is one of them.
  const behindClause = at > 1 || (at === 1 && body[0]?.kind !== 'comma');
  if (spec.spec.head !== 'names' || !behindClause || !isWord(and, /^and$/)) return undefined;
  if (!isName(name, [spec, compiled]) || !looksLikeName.test(name.value)) return undefined;
  let end = at + 2;
  while (end < body.length && body[end]?.kind !== 'comma' && body[end]?.kind !== 'line') end += 1;
  const message = `Names that belong together stand before what is said of them: write “and ${name.value}” behind the first name, or give ${name.value} a ${spec.spec.word} of its own.`;
  return { count: end - at, put: [], problem: problem('unknown-clause', spanOf([and, name]), message) };
};

/** Figures of a data sheet, which are written in capitals too. */
const ofData =
  /^(?:V(?:OC|MP|MAX|NOM)|I(?:SC|MP|MAX|NOM)|P(?:MAX|MPP?|NOM)|ABS|BULK|FLOAT|MAX|MIN|NOM|TYP|PEAK|SURGE|RMS|TOTAL)$/;

/** So far a statement is looked through: none is longer, but lines of noise may be. */
const mostAtoms = 200;

/** `load P1 9 W, P2 9 W`: what the first says is said again behind other names. All behind such a name is said of that one. */
export const anotherOfItsKind: Rewriter = (body, at, spec, compiled) => {
  const begins = (from: number): WordAtom | undefined => {
    const [name, figure] = [body[from], body[from + 1]];
    const isAlike = figure?.kind === 'quantity' && isQuantity(body[0], figure.dimension);
    if (!isAlike || !beginsClause(body, from) || !isName(name, [spec, compiled])) return undefined;
    const isClause = spec.byWord.has(name.value.toLowerCase());
    return looksLikeName.test(name.value) && !isClause && !ofData.test(name.value) ? name : undefined;
  };
  const first = spec.spec.head === 'names' && at > 0 ? begins(at) : undefined;
  if (first === undefined) return undefined;
  const { word: kind } = spec.spec;
  const some = [first, body[at + 1] as Atom];
  const edits = body.slice(at, at + mostAtoms).flatMap((_, i) => {
    const [before, name] = [body[at + i - 1], begins(at + i)];
    if (before === undefined || name === undefined || name.leading.includes('#')) return [];
    return [{ span: { start: before.span.start, end: name.span.start }, newText: `\n${kind} ` }];
  });
  const message = `Each ${kind} is said on a line of its own: put ${kind} ${textOf(some)} on a new line, or name those that are alike in a row, joined by “and”.`;
  const title = edits.length > 1 ? 'Put each on a new line' : 'Put it on a new line';
  const fixes = edits.length > 0 ? [{ title, safe: true, edits }] : [];
  return { count: body.length - at, put: [], problem: problem('unknown-clause', spanOf(some), message, fixes) };
};

/** Kinds that are fuses, or say what fuse they have. */
const haveFuses: ReadonlySet<string> = new Set(['fuse', 'breaker', 'fusebox']);

/** So many words stand between `with` and the figure. */
const mostWords = 5;

/** `load LAMP 9 W with a fuse of 5 A`, `fused at 5 A`: a fuse said as a part of another. */
export const fuseOfPart: Rewriter = (body, at, { spec, byWord }) => {
  if (haveFuses.has(spec.word) || byWord.has('fuse')) return undefined;
  if (!isWord(body[at], /^(?:with|fuse|fused|via|behind|over)$/i) || isWord(body[at - 1], /^(?:most|series|max)$/i))
    return undefined;
  let end = at;
  let says = false;
  let rating: Atom | undefined;
  while (end < at + mostWords + 1) {
    const atom = body[end];
    if (isQuantity(atom, 'current')) rating = rating ?? atom;
    else if (isWord(atom, /^fused?$/i)) says = true;
    else if (!isWord(atom, /^(?:with|a|an|its|own|of|at|by|via|behind|over|rated)$/i)) break;
    end += 1;
  }
  if (!says || rating === undefined) return undefined;
  const message = `A fuse is a part of its own: write fuse F2 ${rating.text} … on a line, and lead a core through it.`;
  const some = body.slice(at, end);
  return { count: some.length, put: [], problem: problem('unknown-clause', spanOf(some), message) };
};

/** `load HEATER 100 W on F1`, `fed from F1`: what feeds it is told by its cables. */
export const fedFrom: Rewriter = (body, at, spec, compiled) => {
  const [first] = body.slice(at, at + 1);
  if (!isWord(first, /^(?:on|fed|feeds|from|wired|connected|off)$/i)) return undefined;
  let end = at + 1;
  while (end < at + mostWords && isWord(body[end], /^(?:from|by|off|to|on|the|fuse|breaker)$/i)) end += 1;
  const name = body[end];
  const next = body[end + 1];
  if (!isName(name, [spec, compiled]) || !looksLikeName.test(name.value)) return undefined;
  if (next !== undefined && next.kind !== 'comma' && next.kind !== 'line') return undefined;
  const some = body.slice(at, end + 1);
  const message = `What ${article(spec.spec.word)} is joined to is said by its cables, as in run W9 1.5 mm² red, 2 m, F1:out to LAMP:+: leave ${quoted(textOf(some))} out, and lead a run to it.`;
  const from = body[at - 1]?.kind === 'comma' ? (body[at - 1] as Atom).span.start : first.span.start;
  const fix = replace('Leave it out', { start: from, end: name.span.end }, '', false);
  return { count: some.length, put: [], problem: problem('unknown-clause', spanOf(some), message, [fix]) };
};

/** `socket USB 10 A, 24 W plugged in`, `plugged in PHONE`. */
export const pluggedIn: Rewriter = (body, at, { spec }) => {
  if (spec.word !== 'socket') return undefined;
  const [first, second, third] = body.slice(at, at + 3);
  if (isQuantity(first, 'power', 'current') && isWord(second, /^plugged$/i)) {
    const some = body.slice(at, isWord(third, /^in$/i) ? at + 3 : at + 2);
    const put = [word('plugged', some), word('in', some), first];
    return rewritten(some, `plugged in ${first.text}`, put, true);
  }
  if (!isWord(first, /^plugged$/i) || !isWord(second, /^in$/i) || third?.kind !== 'word') return undefined;
  const some = [first, second, third];
  const message = 'What is plugged in is said by its power or its current: write it like “plugged in 36 W”.';
  return { count: 3, put: [], problem: problem('unknown-clause', spanOf(some), message) };
};
