/** `100/20` as it stands on a controller, or `100 V 20 A`: the greatest voltage of its panels, and the current it gives. */
import { spanOf, textOf, word } from '../mend.ts';
import { problem, quoted, replace } from '../phrases.ts';
import type { Atom } from '../tree.ts';
import { quantityFor } from './quantity-for.ts';
import { beginsClause, commaAt, isQuantity, isWord, type Rewriter, rewritten, saysWord } from './rewriting.ts';

export const panelsAndOutput: Rewriter = (body, at) => {
  const stroke = body[at + 1]?.text === '/' ? 1 : 0;
  const [first, second] = [body[at], body[at + 1 + stroke]];
  const isBare = first?.kind === 'number' && second?.kind === 'number' && stroke === 1;
  if (!isBare && !(isQuantity(first, 'voltage') && isQuantity(second, 'current'))) return undefined;
  const before = body[at - 1];
  if (saysWord(body, 'pv') || (before?.kind === 'word' && !/^(?:mppt|pwm)$/i.test(before.value))) return undefined;
  const [volts, amperes] = [inUnit(first, 'V'), inUnit(second, 'A')];
  if (volts === undefined || amperes === undefined) return undefined;
  const some = body.slice(at, at + 2 + stroke);
  // With its output said besides, the current is that of the panels.
  const parted = saysWord(body, 'output') ? [] : [commaAt(some), word('output', some)];
  const right = `pv ${volts.text}${parted.length > 0 ? ', output' : ''} ${amperes.text}`;
  const { count, put, problem: told } = rewritten(some, right, [word('pv', some), volts, ...parted, amperes], false);
  if (beginsClause(body, at)) return { count, put, problem: told };
  // `mppt 100/20`: what stands before is a clause of its own.
  const span = { start: (before as Atom).span.end, end: told.span.end };
  const fixes = [replace(`Write ${right}`, span, `, ${right}`, false)];
  return { count, put: [commaAt(some), ...put], problem: { ...told, fixes } };
};

const inUnit = (atom: Atom & { kind: 'number' | 'quantity' }, unit: 'V' | 'A') =>
  atom.kind === 'quantity' ? atom : quantityFor([atom], String(atom.value), unit);

/** `non-isolated`, `not isolated`: which conductor both sides share is to be said. */
export const notIsolated: Rewriter = (body, at) => {
  const isOne = isWord(body[at], /^(?:non|un|not)-?isolated$/i);
  const isTwo = isWord(body[at], /^(?:non|not)$/i) && isWord(body[at + 1], /^isolated$/i);
  if (!isOne && !isTwo) return undefined;
  const some = body.slice(at, at + (isOne ? 1 : 2));
  const message = `${quoted(textOf(some))} does not say which conductor both sides share: write common negative or common positive.`;
  const told = problem('unknown-clause', spanOf(some), message);
  return { count: some.length, put: [word('common', some)], problem: told };
};
