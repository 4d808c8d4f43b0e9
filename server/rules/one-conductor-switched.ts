/** An isolator that opens one conductor, in an installation that asks for both. */
import { lampSpec } from './language.ts';
import type { Rule } from './rule.ts';

const system = 'system "Shed" 12 V, both poles';
const out = 'run W2 1.5 mm² red, 1.2 m, F1:out to Q1:1';
const on = 'run W4 1.5 mm² red, 1 m, Q1:2 to LAMP:+';

export const rule: Rule = {
  slug: 'one-conductor-switched',
  severity: 'warning',
  group: 'switching',
  reads: ['system.both-poles', 'isolator.poles', 'run.ends'],
  page: {
    title: 'An isolator that opens one conductor only',
    why: 'Where neither conductor is bonded to the body, a first fault to metal goes unnoticed; with the second, current flows past an isolator that opens only one of the two.',
    limit:
      'Found only where the system says `both poles`, because that is asked for: by whoever signs the work off, or by rules for insulated two-wire systems. In a van whose negative is bonded to the body an isolator in the positive alone is right (common practice, no source).',
    mend: 'Fit an isolator with a pole for each conductor; or take `both poles` out where the negative is bonded.',
    see: ['no-isolation', 'poles-crossed'],
    wrong: [
      lampSpec({ system, out }, 'isolator Q1 1 pole, 25 A dc, 48 V # finds: one-conductor-switched "1 pole"', on),
    ],
    right: [
      lampSpec({ out }, 'isolator Q1 1 pole, 25 A dc, 48 V', on),
      lampSpec(
        { system, out, back: 'run W3 1.5 mm² black, 1.3 m, LAMP:- to Q1:4' },
        'isolator Q1 2 poles, 25 A dc, 48 V',
        on,
        'run W5 1.5 mm² black, 1 m, Q1:3 to B1:-',
      ),
    ],
  },
  *check({ model, answers }) {
    const { facts } = model.system;
    if (facts?.says('both-poles') !== true) return;
    for (const contacts of answers.contacts.values()) {
      const [first] = contacts;
      if (first?.part.kind.word !== 'isolator') continue;
      const { part } = first;
      const ended = contacts.map(({ pole }) => {
        const contact = part.contacts.find((one) => one.pole === pole);
        return [contact?.from, contact?.to].filter((name) =>
          (answers.network.at.get(`${part.name}:${name}`) ?? []).some(({ is }) => is === 'core'),
        ).length;
      });
      // What is wired on one side alone is told of as that.
      if (ended.includes(1)) continue;
      const wired = contacts.filter((_, i) => ended[i] === 2);
      const returns = wired.filter(({ isReturn }) => isReturn).length;
      if (wired.length === 0 || (returns > 0 && returns < wired.length)) continue;
      yield {
        message: `${part.name} opens only the ${returns === 0 ? 'positive' : 'negative'}, but the system asks for both poles: fit one with a pole for each conductor.`,
        place: part.facts.place('poles'),
        subject: part.name,
        figures: { poles: wired.length },
        related: [{ message: 'What asks for it', place: facts.place('both-poles') }],
      };
    }
  },
};
