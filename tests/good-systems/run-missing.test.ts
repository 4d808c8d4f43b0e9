/** A good system without one of its runs, as while it is being written: what is told is what is missing, and no figure runs wild. */
import { describe, expect, it } from 'vitest';
import { parseDocument } from '../../grammar/parse.ts';
import { vocabulary } from '../../server/kinds/vocabulary.ts';
import { analysedAs, systems, textOf } from './all-systems.ts';

/** What a missing cable never makes true. */
const nonsense: ReadonlySet<string> = new Set([
  'answers-failed',
  'case-unanswered',
  'coil-voltage',
  'fuse-never-blows',
  'fuse-voltage',
  'insulation-for-place',
  'load-above-highest-voltage',
  'rule-failed',
  'switch-voltage',
  'voltage-collapse',
  'voltages-joined',
]);

describe.each(systems)('%s', (name) => {
  const text = textOf(name);
  const whole = analysedAs(name, text);
  const before = new Set(whole.findings.map(({ slug, subject }) => `${slug} ${subject}`));
  const highest = (analysis: typeof whole) =>
    Math.max(...analysis.answers.cases.flatMap(({ volts }) => [...volts.values()].map(Math.abs)));
  const most = highest(whole);
  const runs = parseDocument(text, vocabulary).statements.filter(({ node }) => node.keyword?.value === 'run');

  it('tells of little where a run is missing', () => {
    expect(runs.length).toBeGreaterThan(0);
    for (const { node, offset } of runs) {
      const what = node.text.split('\n')[0];
      const without = analysedAs(name, text.slice(0, offset) + text.slice(offset + node.text.length));
      const more = without.findings.filter(({ slug, subject }) => !before.has(`${slug} ${subject}`));
      expect(
        more.filter(({ slug }) => nonsense.has(slug)).map(({ message }) => message),
        what,
      ).toEqual([]);
      // A common mend is told once.
      const joins = more.flatMap(({ slug, figures }) => (slug === 'no-return' ? [figures.join] : []));
      expect(new Set(joins).size, what).toBe(joins.length);
      expect(
        more.filter(({ slug, figures }) => slug === 'expect-not-met' && figures.value === 0),
        what,
      ).toEqual([]);
      expect(more.length, what).toBeLessThanOrEqual(7);
      // Panels that nothing takes from stand at their open-circuit voltage, beside a battery that hangs on its plus alone.
      expect(highest(without), what).toBeLessThan(3 * most);
    }
  });
});
