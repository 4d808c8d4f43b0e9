/** A part that is called otherwise where it is declared than where it is used is one mistake, and no figure is made of what is left. */
import { describe, expect, it } from 'vitest';
import { analyse } from '../../server/analysis.ts';
import { specUri } from '../analysed.ts';
import { sampleFiles, sourceOf } from '../mutation/checks.ts';

const declared =
  /^((?:battery|busbar|fuse|isolator|shunt|fusebox|controller|block|chassis|load|switch|enclosure|inverter|charger|converter|alternator|panel|relay|splice)\s+)(\S+)/gm;

it('a name written wrong in two places is told once, with the other place, and mended in both', () => {
  const text = sampleFiles['first-lamp.amps'] ?? '';
  const wrong = text.replaceAll('LAMP:', 'LAMPE:');
  const [found, ...others] = analyse(specUri, sourceOf(wrong)).findings;
  expect(others).toEqual([]);
  expect(found).toMatchObject({
    slug: 'unknown-name',
    message: 'There is no part “LAMPE”: did you mean LAMP? 2 places name it.',
    related: [{ message: 'It is named here too' }],
    fixes: [{ title: 'Write LAMP in both places', safe: false }],
  });
  const edits = [...(found?.fixes[0]?.edits ?? [])].sort((a, b) => b.place.span.start - a.place.span.start);
  const mended = edits.reduce(
    (written, { place: { span }, newText }) => written.slice(0, span.start) + newText + written.slice(span.end),
    wrong,
  );
  expect(mended).toBe(text);
});

it.each([
  [', ', 'P2', '“P2” stands by itself: names that belong together are joined with “and”.'],
  [', and ', 'and', 'Names that belong together are joined with “and” alone: take the comma before it out.'],
  [' & ', '&', 'Names that belong together are joined with “and”.'],
  [' AND ', 'AND', 'Names that belong together are joined with “and”.'],
  ['/', 'P1/P2', 'Names that belong together are joined with “and”: write P1 and P2.'],
])('a second name behind “%s” is not unknown where it is used', (between, at, message) => {
  const text = (sampleFiles['spokewagon.amps'] ?? '').replace('panel P1 and P2', `panel P1${between}P2`);
  const { findings } = analyse(specUri, sourceOf(text));
  const told = findings.filter(({ slug }) => slug.startsWith('unknown') || slug === 'bad-name');
  expect(told.map((one) => [text.slice(one.place.span.start, one.place.span.end), one.message])).toEqual([
    [at, message],
  ]);
});

describe.each([
  'spokewagon.amps',
  'orchard-cabin.amps',
  'tuning-van.amps',
  'ridge-hut.amps',
  'towpath-kiosk.amps',
  'whetstone.amps',
])('in %s', (sample) => {
  const text = sampleFiles[sample] ?? '';
  const found = (written: string) =>
    analyse(specUri, sourceOf(written)).findings.map(({ slug, message }) => ({ slug, message }));
  const clean = new Set(found(text).map(({ message }) => message));
  const parts = [...text.matchAll(declared)].map(({ index, 1: before = '', 2: name = '' }) => ({
    name,
    at: index + before.length,
  }));

  it('there are parts to lose', () => expect(parts.length).toBeGreaterThan(5));

  it.each(parts)('$name is missed once', ({ name, at }) => {
    const lost = found(`${text.slice(0, at)}ZZ9${text.slice(at + name.length)}`);
    const now = lost.filter(({ message }) => !clean.has(message));
    const others = now.filter(({ slug }) => slug !== 'unknown-name');
    expect(now.length - others.length).toBeLessThanOrEqual(1);
    expect(now.some(({ message }) => message.includes(name))).toBe(true);
    expect(others.map(({ slug }) => slug)).toEqual([]);
  });
});
