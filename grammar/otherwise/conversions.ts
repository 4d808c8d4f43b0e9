/** `12 V to 230 V`, `12V/230V`: what an inverter makes of what. */
import { spanOf, textOf } from '../mend.ts';
import { problem, quoted, replace } from '../phrases.ts';
import { beginsClause, isQuantity, isWord, type Rewriter } from './rewriting.ts';

export const voltsToVolts: Rewriter = (body, at) => {
  if (!isQuantity(body[at], 'voltage') || !beginsClause(body, at)) return undefined;
  let end = at + 1;
  while (end < at + 3 && (body[end]?.kind === 'junk' || isWord(body[end], /^(?:to|in|dc|into)$/i))) end += 1;
  if (end === at + 1 || !isQuantity(body[end], 'voltage')) return undefined;
  end += 1;
  while (isWord(body[end], /^(?:ac|out)$/i)) end += 1;
  const some = body.slice(at, end);
  const next = body[end]?.kind === 'comma' ? body[end + 1] : undefined;
  const span = { start: spanOf(some).start, end: next?.span.start ?? spanOf(some).end };
  const message = `${quoted(textOf(some))} is not said here: what feeds it follows from the circuit, and what it bears is said as lowest and highest.`;
  // What it is made for may be more than the circuit tells: a person must see that it fits.
  const fix = replace('Leave it out', span, '', false);
  const count = some.length + (next === undefined ? 0 : 1);
  return { count, put: [], problem: problem('unknown-clause', spanOf(some), message, [fix]) };
};
