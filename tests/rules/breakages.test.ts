/**
 * Mistakes that happen while a person writes, each made in a clean van: one finding of the language tells of it, in words that
 * say what to do, and the rest of the file keeps its findings, its outline and its hovers.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { MarkupContent } from 'vscode-languageserver';
import { type Analysis, analyse } from '../../server/analysis.ts';
import { hover } from '../../server/editor/hover.ts';
import { outline } from '../../server/editor/outline.ts';
import { allRules } from '../../server/rules/all.ts';
import { memorySource } from '../analysed.ts';
import { applied } from './applied.ts';
import { capitals } from './breakages/capitals.ts';
import { characters } from './breakages/characters.ts';
import { circuits } from './breakages/circuits.ts';
import { cutShort } from './breakages/cut-short.ts';
import { figures } from './breakages/figures.ts';
import { habits } from './breakages/habits.ts';
import { harmless } from './breakages/harmless.ts';
import { heads } from './breakages/heads.ts';
import { lines } from './breakages/lines.ts';
import { others } from './breakages/others.ts';
import { parts } from './breakages/parts.ts';
import { pasted } from './breakages/pasted.ts';
import { saidOtherwise } from './breakages/said-otherwise.ts';
import { turnsOfPhrase } from './breakages/turns-of-phrase.ts';
import { units } from './breakages/units.ts';
import { words } from './breakages/words.ts';

const breakages = [
  ...cutShort,
  ...lines,
  ...words,
  ...characters,
  ...pasted,
  ...capitals,
  ...units,
  ...figures,
  ...heads,
  ...habits,
  ...parts,
  ...others,
  ...circuits,
  ...turnsOfPhrase,
  ...saidOtherwise,
];

const read = (name: string) => readFileSync(`samples/${name}`, 'utf8');
const stock = read('stock.amps');
const uri = 'memory:///van.amps';

/** Faults that stand in the file all the while, two before every breakage and one behind. */
const van = `allow drop-over-limit on W1 "short"
fuse F96  20 A, bolt-in, 58 V, breaks 5 kA, at GARAGE
load ODDER  6 W, lowest 10.8 V
run W94  = lead-35 red, 0.2 m, along GARAGE, POS to F96:in
run W95  0.5 mm² red, 0.7 m, along GARAGE, F96:out to ODDER:+
run W96  = feed-6 black, 0.7 m, along GARAGE, NEG to ODDER:-
${read('spokewagon.amps')}
fuse F99  20 A, bolt-in, 58 V, breaks 5 kA, at GARAGE
load ODD  6 W, lowest 10.8 V
run W97  = lead-35 red, 0.2 m, along GARAGE, POS to F99:in
run W98  0.5 mm² red, 0.7 m, along GARAGE, F99:out to ODD:+
run W99  = feed-6 black, 0.7 m, along GARAGE, NEG to ODD:-
`;

const analysed = (text: string): Analysis => analyse(uri, memorySource({ 'van.amps': text, 'stock.amps': stock }));
const language = new Set(allRules.filter(({ group }) => group === 'language').map(({ slug }) => slug));
const told = ({ findings }: Analysis) => findings.map(({ slug, message }) => `${slug}: ${message}`);
const names = (analysis: Analysis) => outline(analysis).map(({ name }) => name);

const before = analysed(van);
const clean = told(before);
/** Whatever cannot be read may be what the `allow` accepts, so that it is not told to be of no use. */
const faults = told(before).filter((one) => !one.startsWith('allow-unused'));

/** Named far from each other, so that no breakage is at all of them. */
const landmarks = ['LOFT', 'W11', 'PUMP', 'ODD'];

function broken(find: string, put: string): Analysis {
  expect(van.split(find).length, `“${find}” stands once`).toBeGreaterThan(1);
  return analysed(van.replace(find, () => put));
}

/** What was there before and is not now. */
function missing<T>(earlier: readonly T[], now: readonly T[]): T[] {
  const left = [...now];
  return earlier.filter((one) => {
    const at = left.indexOf(one);
    if (at !== -1) left.splice(at, 1);
    return at === -1;
  });
}

function keepsTheRest(find: string, now: Analysis): void {
  expect(missing(faults, told(now))).toEqual([]);
  for (const gone of missing(names(before), names(now))) expect(find).toContain(gone.split(' ')[0]);
  for (const name of landmarks.filter((one) => !find.includes(one))) {
    const at = String(now.text).search(new RegExp(`(?<=^(?:\\w+) )${name}\\b`, 'm'));
    const shown = hover(now, at + 1, { markdown: true });
    expect((shown?.contents as MarkupContent | undefined)?.value, name).toContain(`**${name}**`);
  }
}

describe('one mistake', () => {
  it('is tried in more than sixty ways, with faults beside it', () => {
    expect(breakages.length).toBeGreaterThanOrEqual(60);
    expect(new Set(breakages.map(([what]) => what)).size).toBe(breakages.length);
    expect(before.findings.map(({ slug }) => slug)).toEqual(['allow-unused', 'cable-too-small', 'cable-too-small']);
  });

  it.each(breakages)('%s: is told of once', (_, find, put, slug, at, message) => {
    const now = broken(find, put);
    const more = now.findings.filter((one) => !faults.includes(`${one.slug}: ${one.message}`));
    expect(more.map(({ slug, message }) => `${slug}: ${message}`)).toEqual([`${slug}: ${message}`]);
    expect(language).toContain(slug);
    const { start, end } = more[0]?.place.span ?? { start: 0, end: 0 };
    expect(now.text.slice(start, end)).toBe(at);
    keepsTheRest(find, now);
    for (const fix of more[0]?.fixes.filter(({ safe }) => safe) ?? []) {
      const mended = told(analysed(applied({ 'van.amps': String(now.text) }, fix.edits)['van.amps'] ?? ''));
      // What was cut off is still not there.
      if (slug === 'unclosed-text') expect(mended).not.toContain(`${slug}: ${message}`);
      else expect(mended, fix.title).toEqual(clean);
    }
  });

  it.each(harmless)('%s: is none', (_, find, put) => {
    const now = broken(find, put);
    expect(told(now)).toEqual(clean);
    keepsTheRest(find, now);
  });
});
