/** `battery 50 %`, `B1 60 %`, `temperature 5 °C`, `outside 5 °C`: how full batteries are and how warm it is, in a case. */
import { spanOf, textOf, word } from '../mend.ts';
import { problem, quoted, replace } from '../phrases.ts';
import type { Atom, QuantityAtom } from '../tree.ts';
import { quantityFor } from './quantity-for.ts';
import { beginsClause, isName, isQuantity, isWord, type Rewriter, rewritten } from './rewriting.ts';

const batteries = /^(?:battery|batteries|bank)$/i;
const everywhere = /^(?:temperature|temp)$/i;
const somewhere = /^(?:outside|outdoors|inside|indoors|air)$/i;

export const chargeOrWarmth: Rewriter = (body, at) => {
  const [first, second] = [body[at], body[at + 1]];
  if (first === undefined || !beginsClause(body, at)) return undefined;
  if (isWord(first, batteries) && isQuantity(second, 'ratio'))
    return rewritten([first, second], `charge ${second.text}`, [word('charge', [first]), second], true);
  const fullness = isWord(first, /^(?:battery|batteries|bank|charge)$/i) ? fullOrEmpty(second) : undefined;
  if (second !== undefined && fullness !== undefined)
    return rewritten([first, second], `charge ${fullness.text}`, [word('charge', [first]), fullness], false);
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

/** `full` and `empty` of a battery, as a charge. */
function fullOrEmpty(atom: Atom | undefined): QuantityAtom | undefined {
  const percent = isWord(atom, /^full$/i) ? '100' : isWord(atom, /^(?:empty|flat)$/i) ? '0' : undefined;
  return atom === undefined || percent === undefined ? undefined : quantityFor([atom], percent, '%');
}

const between = /^(?:at|is|to|on|soc|charged|charge)$/i;
const mostBetween = 2;

/** `charge B1 60 %`, `B1 = 60 %`, `B1 at 60 %`, `B1 full`, `B1 12.4 V`: what a case says of one battery. */
export const ofOneBattery: Rewriter = (body, at, ...known) => {
  if (!beginsClause(body, at)) return undefined;
  const from = isWord(body[at], /^(?:charge|soc)$/i) ? at + 1 : at;
  const [written] = body.slice(from, from + 1);
  // `B1: 60 %` has its colon with it.
  const isColon = written?.kind === 'terminal' && written.terminal === '';
  const name = isColon ? word(written.part, [written]) : written;
  if (!isName(name, known) || batteries.test(name.value)) return undefined;
  let end = from + 1;
  if (body[end]?.kind === 'equals' || body[end]?.text === ':') end += 1;
  while (end < from + 1 + mostBetween && isWord(body[end], between)) end += 1;
  const figure = body[end];
  const charge = isQuantity(figure, 'ratio') ? figure : fullOrEmpty(figure);
  const said = isQuantity(figure, 'voltage') ? figure : charge;
  if (figure === undefined || said === undefined) return undefined;
  const keyword = said === charge ? 'charge' : 'at';
  const some = body.slice(at, end + 1);
  const isRight = !isColon && some.length === 3 && some[0] === name && isWord(some[1], new RegExp(`^${keyword}$`));
  if (isRight && said === figure) return undefined;
  const right = `${name.value} ${keyword} ${said.text}`;
  return { ...rewritten(some, right, [name, word(keyword, [name]), said], said === figure), habit: 'battery' };
};
