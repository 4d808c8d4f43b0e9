/** `class 5,70 °C`: a bare number and the next clause, with no space behind the comma, so that both read as one number. */
import type { CompiledSpec } from './compiled.ts';
import { expectedAfter, type MatchWords } from './match.ts';
import { insert, problem, quoted } from './phrases.ts';
import type { Problem, StatementNode } from './tree.ts';

/** What is told of a comma among digits, told anew where the word before it takes a number that has no unit. */
export function spaceBehindComma(
  told: Problem,
  { body }: StatementNode,
  spec: CompiledSpec,
  words: MatchWords,
): Problem {
  if (told.slug !== 'decimal-comma') return told;
  const at = body.findIndex(({ span }) => span.start === told.span.start);
  const [before, figure] = [body[at - 1], body[at]];
  if (before?.kind !== 'word' || figure?.kind !== 'quantity') return told;
  const wanted = expectedAfter(spec.byWord.get(before.value) ?? [], [before], words);
  const isCount = wanted.some((one) => one.is === 'slot' && one.types.every((type) => type === 'number'));
  if (!isCount || wanted.length > 1) return told;
  const comma = figure.text.indexOf(',') + 1;
  const parted = `${before.text} ${figure.text.slice(0, comma)} ${figure.text.slice(comma)}`;
  return problem(
    'missing-separator',
    figure.span,
    `${quoted(figure.text)} reads as one number: put a space behind the comma, ${parted}.`,
    [insert('Put a space behind the comma', figure.span.start + comma, ' ', true)],
  );
}
