/** `sun 300 W/m²`: a case says its sun as a share of full sun. */
import { problem, replace } from '../phrases.ts';
import { plainNumber } from '../units.ts';
import { quantityFor } from './quantity-for.ts';
import { isWord, type Rewriter } from './rewriting.ts';

/** What full sun is (IEC 60904-3, standard test conditions; from memory). */
const fullSun = 1000;

/** `sun 300 W/m²`. */
export const irradiance: Rewriter = (body, at) => {
  const [number, unit] = [body[at], body[at + 1]];
  const isIt = number?.kind === 'number' && isWord(unit, /^W\/(?:m²|m2|sqm)$/i);
  if (!isIt || !isWord(body[at - 1], /^sun$/)) return undefined;
  const percent = quantityFor([number], plainNumber((100 * number.value) / fullSun), '%');
  if (percent === undefined) return undefined;
  const { text } = percent;
  const both = { start: number.span.start, end: unit.span.end };
  const told = problem(
    'wrong-unit',
    both,
    `Sun is said in percent of ${fullSun} W/m², which is full sun: write ${text}.`,
    [replace(`Write ${text}`, both, text, true)],
  );
  return { count: 2, put: [percent], problem: told };
};
