/** What a case or a reading says twice of the same part: `FAN on, FAN off`. */
import { withSeparator } from '../../grammar/clause-twice.ts';
import type { ClauseNode } from '../../grammar/shaped.ts';
import type { Builder } from './builder.ts';
import { slotWord } from './facts.ts';
import type { Origin } from './model.ts';
import { fix, placeIn, problem } from './place.ts';

/** What was said, in which words, and what of before it cannot stand beside. */
interface Said {
  readonly keys: readonly string[];
  readonly against: readonly string[];
  readonly words: string;
}

export function tellTwice(builder: Builder, origin: Origin): void {
  const { node, shaped } = origin.statement;
  const first = new Map<string, string>();
  for (const clause of shaped.clauses) {
    const said = saidBy(clause);
    for (const { keys, against, words } of said) {
      const before = against.map((key) => first.get(key)).find((one) => one !== undefined);
      if (before === undefined) {
        for (const key of keys) first.set(key, words);
        continue;
      }
      const all = node.text.slice(clause.span.start, clause.span.end);
      const without = said.length === 1 ? withSeparator(clause, node) : undefined;
      const message =
        before === words
          ? `“${words}” stands here twice: keep one.`
          : `This says ${before} and ${words}; only ${counted(before, words)} counts: keep one.`;
      builder.problems.push(
        problem('clause-twice', placeIn(origin, clause.span), message, {
          fixes: without === undefined ? [] : [fix(`Take ${all} out`, placeIn(origin, without), '')],
        }),
      );
    }
  }
}

/** What is off has no position, wherever that is said. */
function counted(before: string, words: string): string {
  return / off$/u.test(words) && / at /u.test(before) ? words : before;
}

function saidBy(clause: ClauseNode): Said[] {
  const word = (slot: string) => {
    const value = clause.values.find((one) => one.slot === slot);
    return value === undefined ? undefined : (slotWord(value) ?? value.atom.text);
  };
  const state = word('state');
  const once = (key: string, words: string): Said => ({ keys: [key], against: [key], words });
  switch (clause.spec.id.replace(/^with-/u, '')) {
    case 'state':
      return clause.values.flatMap((value) => {
        const name = value.slot === 'part' ? slotWord(value) : undefined;
        return name === undefined || state === undefined ? [] : [stateOf(name, state)];
      });
    case 'all':
      return [once(`all ${word('group')}`, `all ${word('group')} ${state}`)];
    case 'charge-of':
      return [once(`charge ${word('battery')}`, `${word('battery')} charge ${word('charge')}`)];
    case 'volts-of':
      return [once(`volts ${word('battery')}`, `${word('battery')} at ${word('voltage')}`)];
    case 'position': {
      const name = word('selector');
      return [
        { keys: [`at ${name}`], against: [`at ${name}`, `off ${name}`], words: `${name} at ${word('position')}` },
      ];
    }
    default:
      return [];
  }
}

/** What is on may be at a position besides. */
function stateOf(name: string, state: string): Said {
  const [own, words] = [`state ${name}`, `${name} ${state}`];
  return state === 'off'
    ? { keys: [own, `off ${name}`], against: [own, `at ${name}`], words }
    : { keys: [own], against: [own], words };
}
