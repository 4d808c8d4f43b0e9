import { describe, expect, it } from 'vitest';
import { analyse } from '../../../server/analysis.ts';
import { codeActions } from '../../../server/editor/code-actions.ts';
import { analyseText, memorySource } from '../../analysed.ts';
import { offering, optionsFor, titles } from './offering.ts';

const kind = 'refactor.rewrite.size';
const held = 'system "Hut" 12 V\n    limits iec-60364-5-52';
const hut = (run: string, stock = '', system = held) => `${system}
${stock}
battery B1  agm, 12 V, 60 Ah
fuse F1     5 A, blade, 32 V, breaks 2 kA
load LAMP   9 W

run W1  ${run} red, 0.1 m, B1:+ to F1:in  # by hand
run W2  1.5 mm² red, 2 m, F1:out to LAMP:+
run W3  1.5 mm² black, 2 m, LAMP:- to B1:-
`;

describe('a size in the other system', () => {
  it('is the nearest standard one that is not thinner, and its title says what changes', () => {
    const found = offering(hut('2.5 |mm²'), kind);
    expect(titles(found)).toEqual([
      'Write 12 AWG for 2.5 mm²: 3.3 mm² of conductor instead of 2.5 mm²; 33 % less resistance; good for 32.6 A where it lies instead of 27 A',
    ]);
    expect(found.chosen('Write')).toBe(hut('12 AWG'));
    const back = offering(hut('|10 AWG'), kind);
    expect(back.chosen('Write')).toBe(hut('6 mm²'));
    expect(titles(back)[0]).toMatch(
      /^Write 6 mm² for 10 AWG: 6 mm² of conductor instead of 5.3 mm²; \d+ % less resist/u,
    );
  });

  it('tells sizes apart that are nearly alike', () => {
    expect(titles(offering(hut('0.75| mm²'), kind))[0]).toContain(
      ': 0.82 mm² of conductor instead of 0.75 mm²; 18 % less resistance',
    );
  });

  it('of a selection is that of every run in it, system by system', () => {
    const text = hut('2.5 mm²').replace('run W3  1.5 mm²', 'run W3  14 AWG');
    const found = offering(text.replace('run W1', '|run W1').replace('B1:-\n', 'B1:-|\n'), kind);
    expect(titles(found)).toEqual([
      'Write W1 and W2 in AWG: 12 AWG for 2.5 mm², 14 AWG for 1.5 mm²; none is thinner',
      expect.stringMatching(/^Write 2.5 mm² for 14 AWG in W3: 2.5 mm² of conductor instead of 2.1 mm²; /u),
    ]);
    const after = found.chosen('Write W1 and W2');
    expect(after).toBe(text.replace('run W1  2.5 mm²', 'run W1  12 AWG').replace('run W2  1.5 mm²', 'run W2  14 AWG'));
    // Three quarters of the sizes are gauges then.
    const open = offering(
      hut('2.5 mm²', '', 'system "Hut" 12 V').replace('run W1', '|run W1').replace('to LAMP:+', 'to LAMP:+|'),
      kind,
    );
    expect(titles(open)).toEqual([
      expect.stringMatching(/none is thinner; .*their limits are then those of 33 CFR 183/u),
    ]);
  });

  it('of a selection that begins above and reaches one size is that of the run in it', () => {
    const found = offering(hut('2.5 mm²').replace('\nrun W1', '|\nrun W1').replace('run W2', 'run W|2'), kind);
    expect(titles(found)).toHaveLength(1);
    expect(found.chosen('Write 12 AWG for 2.5 mm² in W1: ')).toBe(hut('12 AWG'));
    expect(titles(offering(hut('2.5 mm²').replace('\nrun W1', '|\nrun W1'), kind))).toEqual([]);
  });

  it('says when other limits hold then', () => {
    const all = hut('1.5 mm²', '', 'system "Hut" 12 V').replaceAll('1.5 mm²', '16 AWG');
    expect(titles(offering(all.replace('run W1  16', 'run W1  |16'), kind))[0]).not.toContain('limits');
    const one = hut('|1.5 mm²', '', 'system "Hut" 12 V').replace('run W2  1.5 mm²', 'run W2  16 AWG');
    expect(titles(offering(one, kind))[0]).toContain('; its limits are then those of 33 CFR 183');
  });

  it('says of what it is good for only what there is to say', () => {
    // That table goes by the thickest gauge that is not thicker.
    const marine = hut('8 |AWG', '', 'system "Hut" 12 V, limits cfr-33-183');
    expect(titles(offering(marine, kind))[0]).toContain('; good for 55 A where it lies, as before');
    const oven = hut('8 |AWG', '', 'system "Hut" 12 V, ambient 70 °C, limits cfr-33-183');
    expect(titles(offering(oven, kind))[0]).not.toContain('good for');
  });

  it('in stock tells who takes it, and that its diameter is another', () => {
    const found = offering(hut('= thin', 'stock thin  cable 4| mm², od 4.8 mm\n'), kind);
    expect(titles(found)).toEqual([
      'Write 10 AWG for 4 mm²: 5.3 mm² of conductor instead of 4 mm²; 32 % less resistance; in W1; correct its od too',
    ]);
    expect(found.chosen('Write')).toBe(hut('= thin', 'stock thin  cable 10 AWG, od 4.8 mm\n'));
  });

  it('in stock counts those that take it in specs that use its file', () => {
    const files = {
      'spec.amps': 'stock thin  cable 4 mm²\nstock same  cable = thin\n',
      'hut.amps': 'use "spec.amps"\nbusbar A\nbusbar B\nrun W1  = thin, 1 m, A to B\nrun W2  = same, 1 m, A to B\n',
      'shed.amps': 'use "spec.amps"\nbusbar A\nbusbar B\nrun W1  = thin, 1 m, A to B\n',
    };
    const users = ['hut', 'shed'].map((name) => analyse(`memory:///${name}.amps`, memorySource(files)));
    const start = files['spec.amps'].indexOf('4');
    const actions = codeActions(
      analyseText(files['spec.amps']),
      { start, end: start },
      { ...optionsFor(), users, only: [kind] },
    );
    expect(actions[0]?.title).toMatch(/; in 3 runs$/u);
  });

  it('is not offered beside the size, for a blank, nor above the largest gauge', () => {
    for (const run of ['2.5 mm²  |', '? |mm²', '120 |mm²', '2.5 |metres'])
      expect(titles(offering(hut(run), kind))).toEqual([]);
  });
});
