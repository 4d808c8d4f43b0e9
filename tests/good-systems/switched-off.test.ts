/** Each thing of a good system switched off, or taken out, by a case: that case has an answer, and nobody is blamed for it. */
import { describe, expect, it } from 'vitest';
import { analysedAs, systems, textOf } from './all-systems.ts';

const withCase = (name: string, said: string) =>
  analysedAs(name, `${textOf(name)}\ncase trial  sun 60 %, charge 70 %, ${said}\n`);

/** What no case of its own makes worse. */
const ofWiring: ReadonlySet<string> = new Set([
  'case-unanswered',
  'bank-unbalanced',
  'essential-load-isolated',
  'load-on-part-of-bank',
  'polarity-reversed',
  'reading-outside-expectation',
]);

describe.each(systems)('%s', (name) => {
  const whole = withCase(name, 'all loads on');
  const before = new Set(whole.findings.map(({ slug, subject }) => `${slug} ${subject}`));
  const parts = [...whole.model.parts.values()].filter(
    ({ kind, name: own }) =>
      ['battery', 'controller', 'charger', 'converter', 'alternator'].includes(kind.word) ||
      whole.answers.network.edges.some((edge) => edge.is === 'contact' && edge.part.name === own),
  );

  it('has an answer whatever is off in a case', () => {
    expect(parts.length).toBeGreaterThan(1);
    for (const part of parts) {
      const { answers, findings } = withCase(name, `all loads on, ${part.name} off`);
      const trial = answers.cases.find((one) => one.name === 'trial');
      // What is too much for what is left is told as that.
      if (trial?.overloads.length === 0) expect(trial.converged, part.name).toBe(true);
      const more = findings.filter((one) => ofWiring.has(one.slug) && !before.has(`${one.slug} ${one.subject}`));
      expect(
        more.map(({ message }) => message),
        part.name,
      ).toEqual([]);
    }
  });
});
