/** `battery 50 %`, `temperature 5 °C`, `outside 5 °C`: how full batteries are and how warm it is, in a case. */
import { spanOf, textOf, word } from '../mend.ts';
import { problem, quoted, replace } from '../phrases.ts';
import { beginsClause, isQuantity, isWord, type Rewriter, rewritten } from './rewriting.ts';

const batteries = /^(?:battery|batteries|bank)$/i;
const everywhere = /^(?:temperature|temp)$/i;
const somewhere = /^(?:outside|outdoors|inside|indoors|air)$/i;

export const chargeOrWarmth: Rewriter = (body, at) => {
  const [first, second] = [body[at], body[at + 1]];
  if (first === undefined || !beginsClause(body, at)) return undefined;
  if (isWord(first, batteries) && isQuantity(second, 'ratio'))
    return rewritten([first, second], `charge ${second.text}`, [word('charge', [first]), second], true);
  if (isQuantity(first, 'temperature'))
    return rewritten([first], `ambient ${first.text}`, [word('ambient', [first]), first], false);
  if (!isQuantity(second, 'temperature')) return undefined;
  const [some, right] = [[first, second], `ambient ${second.text}`];
  if (isWord(first, everywhere)) return rewritten(some, right, [word('ambient', [first]), second], false);
  if (!isWord(first, somewhere)) return undefined;
  // Not read as that: an engine space would be reckoned as cold as the street.
  const message = `${quoted(textOf(some))} is not said by itself: in a case, ${right} is the temperature everywhere, and a place says its own.`;
  const fixes = [replace(`Write ${right}`, spanOf(some), right, false)];
  return { count: 2, put: [], problem: problem('unknown-clause', spanOf(some), message, fixes) };
};
