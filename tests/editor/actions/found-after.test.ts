/** A title says what is found once the action is done, where that is more than its edits show. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { codeActions } from '../../../server/editor/code-actions.ts';
import { analyseText } from '../../analysed.ts';
import { editedFiles } from '../editing.ts';
import { offering, optionsFor, titles } from './offering.ts';

const files = { 'stock.amps': readFileSync('samples/stock.amps', 'utf8') };
const isolator = 'refactor.rewrite.isolator';
const split = 'refactor.rewrite.split';

/** What is found, and the words of the title that tell of it. */
const told = {
  'battery-opened-before-panels': / leaves (\S+) with its panels and no battery/,
  'essential-load-isolated': / turns off (\S+), which is essential/,
  'blank-unfilled': /\? A dc/,
} as const;

describe.each(['spokewagon.amps', 'towpath-kiosk.amps', 'orchard-cabin.amps'])('an isolator anywhere in %s', (name) => {
  const text = readFileSync(`samples/${name}`, 'utf8');
  const before = analyseText(text, files);
  const slugs = new Set(before.findings.map(({ slug }) => slug));

  it('brings no more than its title says, and all that', () => {
    let asked = 0;
    for (const { index } of text.matchAll(/^run \S+/gm)) {
      const span = { start: index + 5, end: index + 5 };
      for (const { title, edit } of codeActions(before, span, { ...optionsFor(files), only: [isolator] })) {
        asked += 1;
        const after = analyseText(editedFiles({ ...files, 'spec.amps': text }, edit)['spec.amps'] ?? '', files);
        const fresh = new Set(after.findings.map(({ slug }) => slug).filter((slug) => !slugs.has(slug)));
        const said = Object.entries(told).flatMap(([slug, words]) => (words.test(title) ? [slug] : []));
        expect([title, [...fresh].sort()]).toEqual([title, said.filter((slug) => !slugs.has(slug)).sort()]);
      }
    }
    expect(asked).toBeGreaterThan(5);
  }, 60_000);
});

describe('halves that say where they lie', () => {
  const shed = (place: string, run: string) => `system "Shed" 12 V
place BAY engine space, 40 °C
${place}
battery B1 agm, 12 V, 60 Ah, at BAY
fuse F1 5 A, blade, 32 V, breaks 3 kA, at YARD
load LAMP 9 W, at BAY
enclosure BOX plastic, IP65, at BAY
run W1 1.5 mm² red, 0.2 m, B1:+ to F1:in
run W2 ${run}, 3 m, F1:out to LAMP:+|
run W3 1.5 mm² black, 3 m, LAMP:- to B1:-
`;
  const outdoors = 'place YARD outdoors, 50 °C';

  const outcome = (place: string, run: string, kind: string) => {
    const asked = offering(shed(place, run), kind);
    const [title = ''] = titles(asked);
    const found = (one: typeof asked.analysis) => one.findings.some(({ slug }) => slug === 'insulation-for-place');
    return { title, before: found(asked.analysis), now: found(analyseText(asked.chosen(title))) };
  };

  it('out of doors, in cable that is not made for it', () => {
    const { title, before, now } = outcome(outdoors, '1.5 mm² red', split);
    expect(title).toContain('; both then lie in YARD, out of doors, and are not said to be made for that');
    expect([before, now]).toEqual([false, true]);
  });

  it('where it is too warm for their insulation, and no capacity is known that says so', () => {
    const { title, before, now } = outcome('place YARD 75 °C', '? mm² red', split);
    expect(title).toContain('; both then lie in YARD at 75 °C, which their insulation does not stand');
    expect([before, now]).toEqual([false, true]);
  });

  it('an isolator stands at the end that counts, so that neither half says more than the whole', () => {
    const { title, before, now } = outcome(outdoors, '1.5 mm² red', isolator);
    expect(title).not.toContain('both then lie');
    expect([before, now]).toEqual([false, false]);
  });

  it('nothing is said of cable that is made for it', () => {
    const [title] = titles(offering(shed(outdoors, '1.5 mm² red, outdoors'), split));
    expect(title).not.toContain('out of doors');
  });

  it('nothing is said where no place is new', () => {
    const [title] = titles(offering(shed('place YARD indoors', '1.5 mm² red'), split));
    expect(title).not.toContain('both then lie');
  });
});

describe('an isolator', () => {
  const shed = (system: string, parts: string, where = '') => `system "Shed" 12 V${system}
battery B1 agm, 12 V, 60 Ah${where}
fuse F1 5 A, blade, 32 V, breaks 3 kA${where}
load LAMP 9 W
${parts}
run W1 1.5 mm² red, 0.2 m, B1:+ to F1:in
run W2 1.5 mm² red, 3 m, F1:out to LAMP:+
run W3 1.5 mm² black, 3 m, LAMP:- to B1:-
`;
  const outcome = (text: string, run: string, slug: string) => {
    const asked = offering(text.replace(run, `${run}|`), isolator);
    const [title = ''] = titles(asked);
    const found = (one: typeof asked.analysis) => one.findings.filter((finding) => finding.slug === slug).length;
    return { title, more: found(analyseText(asked.chosen(title))) - found(asked.analysis) };
  };

  it('where gas bottles are kept', () => {
    const { title, more } = outcome(shed('', 'place GAS gas locker', ', at GAS'), 'run W1', 'switch-in-gas-locker');
    expect(title).toContain('; Q1 may spark, and gas bottles are kept in GAS: move it out');
    expect(more).toBe(1);
  });

  it('in the box of a vented battery', () => {
    const text = shed('', 'enclosure CRATE plastic, IP20', ', in CRATE').replace('agm', 'lead-acid, vented');
    const { title, more } = outcome(text, 'run W1', 'ignition-near-vented-battery');
    expect(title).toContain('; Q1 may spark in CRATE, where B1 gives off gas: move it out');
    expect(more).toBe(1);
  });

  it('for one conductor where the system asks for both poles', () => {
    for (const [run, pole] of [
      ['run W2', 'positive'],
      ['run W3', 'negative'],
    ] as const) {
      const { title, more } = outcome(shed(', both poles', ''), run, 'one-conductor-switched');
      expect(title).toContain(`; Q1 opens only the ${pole}, and the system asks for both poles`);
      expect(more).toBe(1);
    }
    expect(outcome(shed('', ''), 'run W2', 'one-conductor-switched')).toMatchObject({ more: 0 });
  });
});
