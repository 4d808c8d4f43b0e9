/** `20 A at 32 V`: two ratings of what is rated for a voltage; of a load the voltage follows from the circuit. */
import { openingTypes, quantityTypes } from '../forms.ts';
import { spanOf, textOf } from '../mend.ts';
import { problem, quoted, replace } from '../phrases.ts';
import { commaAt, isQuantity, isWord, type Rewriter } from './rewriting.ts';

export const atVoltage: Rewriter = (body, at, { open }) => {
  const [before, sign, volts] = [body[at - 1], body[at], body[at + 1]];
  const isAt = isWord(sign, /^at$/i) || (sign?.kind === 'junk' && sign.text === '@');
  if (sign === undefined || !isAt || before?.kind !== 'quantity' || !isQuantity(volts, 'voltage')) return undefined;
  const between = { start: before.span.end, end: volts.span.start };
  const types = open.flatMap((form) => openingTypes(form));
  if (types.some((type) => quantityTypes.get(type)?.includes('voltage') === true)) {
    const message = `Clauses are separated by a comma or a new line, not by ${quoted(sign.text)}.`;
    const fix = replace('Put a comma instead', between, ', ', true);
    return { count: 1, put: [commaAt([sign])], problem: problem('missing-separator', sign.span, message, [fix]) };
  }
  const some = [sign, volts];
  const message = `${quoted(textOf(some))} need not be said behind ${quoted(before.text)}: the voltage there follows from the circuit.`;
  const fix = replace('Leave it out', { start: before.span.end, end: volts.span.end }, '', true);
  return { count: 2, put: [], problem: problem('unknown-clause', spanOf(some), message, [fix]), sure: true };
};
