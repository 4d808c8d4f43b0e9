/** `battery 50 %`, `outside 5 °C`, `5 °C`: how full batteries are and how warm it is, in a case. */
import { word } from '../mend.ts';
import { beginsClause, isQuantity, isWord, type Rewriter, rewritten } from './rewriting.ts';

const batteries = /^(?:battery|batteries|bank)$/i;
const warmth = /^(?:temperature|temp|outside|outdoors|inside|indoors|air|heat|cold)$/i;

export const chargeOrWarmth: Rewriter = (body, at) => {
  const [first, second] = [body[at], body[at + 1]];
  if (first === undefined || !beginsClause(body, at)) return undefined;
  if (isWord(first, batteries) && isQuantity(second, 'ratio'))
    return rewritten([first, second], `charge ${second.text}`, [word('charge', [first]), second], true);
  if (isWord(first, warmth) && isQuantity(second, 'temperature'))
    return rewritten([first, second], `ambient ${second.text}`, [word('ambient', [first]), second], true);
  if (!isQuantity(first, 'temperature')) return undefined;
  return rewritten([first], `ambient ${first.text}`, [word('ambient', [first]), first], true);
};
