/** What the spec expects and nothing is worked out of. */
import { type Expectable, expectableOf } from '../answers/expectable.ts';
import { isBlankSlot } from '../model/facts.ts';
import type { Expectation, Model, Terminal } from '../model/model.ts';
import { answeredFor, type Expected, expectedBy, isNeverFed, isWireMissing, judgedIn } from './expected-figures.ts';
import { lampSpec, notationsOwn } from './language.ts';
import type { Fix, Rule, RuleContext } from './rule.ts';
import { names } from './words.ts';

export const rule: Rule = {
  slug: 'expect-unchecked',
  severity: 'warning',
  group: 'spec',
  reads: ['expect.what', 'case.charge', 'case.charge-of'],
  page: {
    title: 'An expectation that is not checked',
    why: 'A line that says what must hold looks as if it held. Where nothing is worked out for it, nobody looks.',
    limit: `${notationsOwn} Worked out are the voltage and current of what feeds or draws and of every terminal, the current of what has contacts or is one node, the current, drop and temperature of a run, and the drop of loads, sockets and inverters. A charge is worked out nowhere: that of a battery is what a case says.`,
    mend: 'Expect it where it is worked out, or take the line out.',
    see: ['expect-not-met'],
    wrong: [
      lampSpec({}, 'expect F1 voltage at least 11 V # finds: expect-unchecked "voltage"'),
      lampSpec({}, 'expect W2 charge at least 50 % # finds: expect-unchecked "charge"'),
      lampSpec({}, 'case night LAMP on', 'expect B1 charge at least 50 % # finds: expect-unchecked "charge"'),
      lampSpec({}, 'case night LAMP off', 'expect LAMP voltage at least 11 V # finds: expect-unchecked "voltage"'),
    ],
    right: [
      lampSpec({}, 'expect F1:out voltage at least 11 V', 'expect F1 current at most 2 A'),
      lampSpec({}, 'case night charge 60 %, LAMP on', 'expect B1 charge at least 50 %'),
    ],
  },
  *check(context) {
    for (const expectation of context.model.expectations) {
      const expected = expectedBy(expectation);
      const slot = expectation.facts.slot('what', 'limit');
      // What could not be read is told itself; so is a name that nothing has.
      if (slot === undefined || expectedName(expected, context.model) === undefined) continue;
      if (isBlankSlot(slot)) {
        // What a misread bound was taken for.
        if (slot.atom.text.startsWith('?'))
          yield reported(
            expectation,
            'How much is expected is left open, so this is not checked: write a figure',
            'limit',
          );
        continue;
      }
      const own = expectableOf(expected.subject, context.model);
      if (!own.some((one) => one === expected.what)) {
        yield {
          ...reported(
            expectation,
            `${whatOf(expected)} is not worked out, so this is not checked: ${instead(expected, own, context.model)}`,
          ),
          fixes: expected.what === 'voltage' ? atTerminals(expectation, expected, context.model) : [],
        };
        continue;
      }
      const why = whyUnjudged(expected, context);
      if (why !== undefined) yield reported(expectation, why);
    }
  },
};

function reported({ facts }: Expectation, says: string, slot = 'what') {
  return { message: `${says}.`, place: facts.place('what', slot), subject: facts.word('what', 'subject') };
}

const whatOf = ({ what, subject }: Expected): string => `The ${what} of ${subject}`;

function expectedName({ subject }: Expected, { parts, runs, terminals }: Model) {
  return parts.get(subject) ?? runs.get(subject) ?? terminals.get(subject);
}

/** Where it is worked out, and what else is of this one. */
function instead({ subject, what }: Expected, own: readonly Expectable[], model: Model): string {
  const itself = own.length === 0 ? '' : `; of ${subject} itself you can expect the ${choice(own)}`;
  return `${where(subject, what, model)}${itself}`;
}

function where(subject: string, what: string, model: Model): string {
  if (what === 'drop') return 'expect it of a cable, a load, a socket or an inverter';
  if (what === 'temperature') return 'expect it of a cable';
  if (what === 'charge') return 'expect it of a battery, in cases that say its charge';
  const [near] = terminalsOf(subject, model);
  return `expect it at a terminal${near === undefined ? '' : `, such as ${near.id}`}`;
}

function choice(words: readonly string[]): string {
  return words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}

/** The ends of a run, the two sides of a contact: the far one first, which is what hangs on it. */
function terminalsOf(subject: string, { parts, runs }: Model): Terminal[] {
  const run = runs.get(subject);
  if (run !== undefined) {
    const [core] = run.cores;
    return [core?.to, core?.from].filter((one) => one !== undefined);
  }
  const part = parts.get(subject);
  const [contact] = part?.contacts ?? [];
  if (part === undefined || contact === undefined) return [...(part?.terminals ?? [])].slice(0, 2);
  return [contact.to, contact.from].flatMap((name) => part.terminals.filter(({ spec }) => spec.name === name));
}

function atTerminals({ facts }: Expectation, { subject }: Expected, model: Model): Fix[] {
  const place = facts.place('what', 'subject');
  return terminalsOf(subject, model).map(({ id }) => ({
    title: `Expect it at ${id}`,
    safe: false,
    edits: [{ place, newText: id }],
  }));
}

/** Why nothing was judged of what is worked out in other cases. */
function whyUnjudged(expected: Expected, context: RuleContext): string | undefined {
  const { subject, what } = expected;
  const { model } = context;
  if (what === 'charge') return chargeUnsaid(expected, model);
  // A case without an answer, and a wire that is missing, are told themselves.
  const answered = answeredFor(expected, context);
  if (answered.length === 0 || context.answers.cases.some(({ converged }) => !converged) || isWireMissing(context))
    return undefined;
  if (answered.some((one) => judgedIn(expected, one, context) !== undefined)) return undefined;
  const part = model.parts.get(subject);
  if (part === undefined || part.kind.oneNode || what !== 'voltage')
    return what === 'current'
      ? `No cable ends at ${subject}, so no current is worked out there and this is not checked: expect it of a cable or a part`
      : undefined;
  return isNeverFed(part, context)
    ? undefined
    : `${subject} draws nothing in any case, so this is not checked: have ${subject} on in a case, or name a case behind “in”`;
}

/** Without names every case that says a charge counts. */
function chargeUnsaid({ subject, cases }: Expected, model: Model): string | undefined {
  const isSaid = (name: string) =>
    model.cases.some((one) => one.name === name && (one.chargeOf.get(subject) ?? one.charge) !== undefined);
  const all = cases.length > 0 ? cases.filter((name) => model.cases.some((one) => one.name === name)) : [];
  const without = all.filter((name) => !isSaid(name)).map((name) => ({ name }));
  if (cases.length > 0 ? without.length === 0 : model.cases.some(({ name }) => isSaid(name))) return undefined;
  const which =
    cases.length === 0 ? 'No case says' : `${names(without)} ${without.length === 1 ? 'does' : 'do'} not say`;
  return `${which} the charge of ${subject}, and nothing else works it out, so this is not checked: write “${subject} charge 80 %” or the like into ${cases.length === 0 ? 'a case' : names(without)}`;
}
