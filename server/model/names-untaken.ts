/**
 * Where a statement names stock, a place or a box without the word that takes it, that is what it lacks: `run W1 thin6 red` for
 * `run W1 = thin6 red`, `fuse F1 5 A, LOFT` for `at LOFT`. A part named alone lacks what is said of it: where its core goes, or
 * whether it is on.
 */
import { nearWords } from '../../grammar/near.ts';
import { list } from '../../grammar/phrases.ts';
import { kindOf } from '../kinds/vocabulary.ts';
import type { Declaration } from './declarations.ts';
import type { PlacedProblem } from './model.ts';
import { fix, placeIn, statementAt } from './place.ts';

interface Lacking {
  readonly clause: string;
  readonly word: string;
  /** What the name is. */
  readonly told: string;
}

function lacking({ as, origin }: Declaration, isRun: boolean): Lacking | undefined {
  if (as === 'stock') return { clause: 'stock', word: '=', told: 'is stock, which is taken with =' };
  if (as === 'place')
    return isRun
      ? { clause: 'along', word: 'along', told: 'is a place' }
      : { clause: 'at', word: 'at', told: 'is a place' };
  if (as === 'part' && !isRun && origin.statement.shaped.spec?.word === 'enclosure')
    return { clause: 'in', word: 'in', told: 'is a box' };
  return undefined;
}

const isSelector = ({ as, origin }: Declaration): boolean =>
  as === 'part' && origin.statement.shaped.spec?.word === 'selector';

/** A part alone: in a run the one end of a core, in a case what is to be on or off. */
function goesOn({ name, as, origin }: Declaration, word: string | undefined): string | undefined {
  if (as !== 'part') return undefined;
  if (word === 'case') return `“${name}” is not finished: say ${name} on or ${name} off.`;
  if (word !== 'run') return undefined;
  const kind = kindOf(origin.statement.shaped.spec?.word ?? '');
  if (kind === undefined || kind.word === 'enclosure' || kind.word === 'entry') return undefined;
  return kind.oneNode
    ? `“${name}” is one end of a core: say the other too, as in “${name} to LAMP:+”.`
    : `“${name}” is one end of a core: say its terminal and the other end too, as in “F1:out to LAMP:+”.`;
}

/** `LAMP onn` in a case: the word behind a part that is nearly what a case says of it, and what it may be. */
function misspeltState(
  text: string,
): { readonly name: string; readonly at: number; readonly said: string } | undefined {
  const [, before = '', name = '', said = ''] = /^((\S+)\s+)(\p{L}+)(?=\s*(?:[,\n#]|$))/u.exec(text) ?? [];
  return said === '' || /^(?:on|off|in|an|at)$/u.test(said) ? undefined : { name, at: before.length, said };
}

export function tellNamesUntaken(
  problems: PlacedProblem[],
  declared: (name: string) => Declaration | 'seemingly' | undefined,
): void {
  const told = new Map<string, number>();
  for (const [index, one] of problems.entries()) {
    if (one.slug !== 'unknown-clause') continue;
    const statement = statementAt(one.place);
    if (statement === undefined) continue;
    const { offset, node, shaped } = statement;
    const name = node.text.slice(one.place.span.start - offset, one.place.span.end - offset);
    const turned = /^(\S+)\s+at$/u.exec(name)?.[1];
    const selector = turned === undefined ? undefined : declared(turned);
    if (selector !== undefined && selector !== 'seemingly' && isSelector(selector)) {
      problems[index] = { ...one, message: `“${name}” is not finished: say its position, as in ${turned} at 2.` };
      continue;
    }
    const state =
      shaped.spec?.word === 'case' ? misspeltState(node.text.slice(one.place.span.start - offset)) : undefined;
    const part = state === undefined ? undefined : declared(state.name);
    const near = state === undefined ? [] : nearWords(state.said, ['on', 'off']);
    if (state !== undefined && part !== undefined && part !== 'seemingly' && part.as === 'part' && near.length > 0) {
      const from = one.place.span.start - offset + state.at;
      const span = { start: from, end: from + state.said.length };
      const place = placeIn({ file: { uri: one.place.uri }, statement }, span);
      const message = `“${state.said}” does not fit here: did you mean ${list(near)}?`;
      problems[index] = { ...one, place, message, fixes: near.map((word) => fix(`Write ${word}`, place, word)) };
      continue;
    }
    const declaration = declared(name);
    if (declaration === undefined || declaration === 'seemingly') continue;
    const sign = /^\s*([&+])\s*(\p{L}[\p{L}\p{M}\p{N}_-]*)/u.exec(node.text.slice(one.place.span.end - offset));
    if (sign !== null && declaration.as === 'part' && shaped.spec?.word === 'case') {
      const [whole, mark = '', next = ''] = sign;
      const from = one.place.span.end - offset;
      const place = placeIn({ file: { uri: one.place.uri }, statement }, { start: from, end: from + whole.length });
      const message = `“${mark}” means nothing here: join names with and, ${name} and ${next}.`;
      problems[index] = { ...one, message, fixes: [fix(`Write ${name} and ${next}`, place, ` and ${next}`, true)] };
      continue;
    }
    const open = goesOn(declaration, shaped.wrapper === undefined ? shaped.spec?.word : undefined);
    if (open !== undefined && !one.fixes.some(({ safe }) => safe)) {
      const isCase = shaped.spec?.word === 'case';
      const states = isCase ? [`${name} on`, `${name} off`] : [];
      const fixes = states.map((state) => fix(`Write ${state}`, one.place, state));
      problems[index] = { ...one, message: open, fixes };
      continue;
    }
    const lacks = lacking(declaration, shaped.spec?.word === 'run');
    if (lacks === undefined || shaped.clauses.some(({ spec }) => spec.id === lacks.clause)) continue;
    if (shaped.spec?.clauses.some(({ id }) => id === lacks.clause) !== true) continue;
    const right = `${lacks.word} ${name}`;
    // `in GARAGE` for `along GARAGE`: the word before gives way too.
    const { start, end } = one.place.span;
    const [before = ''] = /(?:\b(?:in|at|along|by)\s+)?$/u.exec(node.text.slice(0, start - offset)) ?? [];
    const span = { start: start - offset - before.length, end: end - offset };
    const place = before === '' ? one.place : placeIn({ file: { uri: one.place.uri }, statement }, span);
    told.set(`${one.place.uri} ${start}`, index);
    problems[index] = {
      ...one,
      message: `“${name}” ${lacks.told}: write ${right}.`,
      fixes: [fix(`Write ${right}`, place, right, true)],
    };
  }
  // A word before the name may have been told of as well.
  const isRepeated = (one: PlacedProblem, index: number) =>
    one.slug === 'unknown-clause' && (told.get(`${one.place.uri} ${one.place.span.start}`) ?? index) !== index;
  for (let i = problems.length - 1; i >= 0; i--) if (isRepeated(problems[i] as PlacedProblem, i)) problems.splice(i, 1);
}
