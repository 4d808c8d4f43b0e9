/** With a case chosen every contact stands as it does then; without one as drawings of the trade have it, at rest. */
import { describe, expect, it } from 'vitest';
import { drawElement } from '../../../server/reports/picture/draw-element.ts';
import { drawSvg } from '../../../server/reports/picture/draw-svg.ts';
import { figuresOf } from '../../../server/reports/picture/figures.ts';
import type { DrawnPart, Look } from '../../../server/reports/picture/scene.ts';
import { voltsPlaces } from '../../../server/reports/picture/volts-places.ts';
import { drawWithFigures, figuresSpoken } from '../../../server/reports/picture/with-figures.ts';
import { analyseText } from '../../analysed.ts';
import { drawn } from './drawn.ts';

const bench = analyseText(`system "Bench" 12 V
battery B1 agm, 12 V, 100 Ah
battery B2 agm, 12 V, 100 Ah
fuse F1 20 A, bolt-in, 58 V, breaks 5 kA
fuse F2 20 A, bolt-in, 58 V, breaks 5 kA
selector Q1 100 A, 48 V, positions 1 2
breaker Q2 20 A, 58 V
isolator Q3 2 poles, 40 A dc, 60 V
relay K1 coil 12 V 150 mA, contact 40 A
switch S1 1 pole, 10 A dc, 24 V
load LAMP 24 W
run W1 6 mm² red, 0.2 m, B1:+ to F1:in
run W2 6 mm² red, 0.2 m, B2:+ to F2:in
run W3 6 mm² red, 0.5 m, F1:out to Q1:1
run W4 6 mm² red, 0.5 m, F2:out to Q1:2
run W5 6 mm² red, 0.5 m, Q1:common to Q2:in
run W6 6 mm² red, 0.5 m, Q2:out to Q3:1
run W7 6 mm² red, 0.5 m, Q3:2 to K1:30
run W8 6 mm² red, 0.5 m, K1:87 to LAMP:+
run W9 6 mm² black, 0.5 m, LAMP:- to Q3:4
run W10 6 mm² black, 0.5 m, Q3:3 to B1:-
run W11 6 mm² black, 0.5 m, B2:- to B1:-
run W12 6 mm² red, 0.5 m, Q3:2 to S1:1
run W13 6 mm² red, 0.5 m, S1:2 to K1:86
run W14 6 mm² black, 0.5 m, K1:85 to Q3:4
case lit   LAMP on
case dark  S1 off, LAMP on
case apart Q2 and Q3 and F2 off
case second LAMP on, Q1 at 2
`);

async function standing(caseName: string) {
  const { elements } = await drawn(bench);
  const figures = figuresOf(bench, caseName);
  if (figures === undefined) throw new Error(`no case ${caseName}`);
  const look: Look = { colours: 'light', figures };
  const places = voltsPlaces(elements.values(), [], look);
  const part = (name: string): DrawnPart => {
    const found = elements.get(`part:${name}`);
    if (found?.is !== 'part') throw new Error(`no part ${name}`);
    return found;
  };
  /** Paths of its blades that are drawn, as whether each shows a contact that is closed. */
  const blades = (name: string): boolean[] => {
    const svg = drawWithFigures(part(name), look, places);
    return part(name).shapes.flatMap((shape) => {
      if (shape.is !== 'line' || shape.stands === undefined) return [];
      const d = shape.points.map(({ x, y }, i) => `${i === 0 ? 'M' : 'L'}${x} ${y}`).join('');
      return svg.includes(`"${d}"`) ? [shape.stands.closed] : [];
    });
  };
  const said = (name: string) => figuresSpoken(part(name), figures);
  return { blades, said, part, places };
}

describe('contacts on the drawing', () => {
  it('stand at rest where no case is chosen', async () => {
    const { part } = await standing('lit');
    const of = (name: string) => drawElement(part(name), { colours: 'light' });
    const open = ['Q1', 'Q2', 'Q3', 'K1', 'S1'];
    for (const name of open)
      expect(
        part(name).shapes.flatMap((one) => (one.is === 'line' && one.stands?.atRest === true ? one.stands.closed : [])),
      ).not.toContain(true);
    // Each pole has one blade and not two: as many paths are drawn as there are shapes that stand so.
    for (const name of [...open, 'F1']) {
      const seen = part(name).shapes.filter((one) => one.is === 'line' && one.stands?.atRest !== false);
      expect(of(name).match(/<path class="(?!terminal-spot)/g)).toHaveLength(seen.length);
    }
  });

  it('stand as they do in the case', async () => {
    const lit = await standing('lit');
    expect(lit.blades('Q1')).toEqual([true, false]);
    expect(lit.blades('Q2')).toEqual([true]);
    expect(lit.blades('Q3')).toEqual([true, true]);
    expect(lit.blades('K1')).toEqual([true]);
    expect(lit.blades('S1')).toEqual([true]);
    expect(lit.blades('F2')).toEqual([true]);
    expect((await standing('second')).blades('Q1')).toEqual([false, true]);
    const dark = await standing('dark');
    expect(dark.blades('S1')).toEqual([false]);
    expect(dark.blades('K1')).toEqual([false]);
    expect(dark.blades('Q3')).toEqual([true, true]);
    const apart = await standing('apart');
    expect(apart.blades('Q2')).toEqual([false]);
    expect(apart.blades('Q3')).toEqual([false, false]);
    // A fuse that is taken out has no wire, only its two leads.
    expect(apart.blades('F2')).toEqual([false, false]);
    expect(apart.blades('F1')).toEqual([true]);
  });

  it('are spoken', async () => {
    const { said } = await standing('lit');
    expect(said('Q3')).toMatch(/closed$/);
    expect(said('Q1')).toMatch(/pole 1 closed, pole 2 open$/);
    expect(said('K1')).toMatch(/coil fed$/);
    expect(said('LAMP')).not.toMatch(/closed|open/);
    expect((await standing('apart')).said('Q3')).toMatch(/open$/);
  });

  it('leave a terminal that hangs free without volts', async () => {
    const { places } = await standing('lit');
    expect(places.volts.get('part:K1')).toHaveLength(4);
    const terminals = figuresOf(bench, 'lit')?.terminals;
    for (const name of ['30', '85', '86', '87']) expect(terminals?.has(`terminal:K1:${name}`), name).toBe(true);
    expect(terminals?.has('terminal:K1:87a')).toBe(false);
    // With the coil at rest it is on 30.
    expect(figuresOf(bench, 'dark')?.terminals.get('terminal:K1:87a')).toBeCloseTo(12, 0);
  });

  it('say on the sheet that they stand as in the case', async () => {
    const figures = figuresOf(bench, 'lit');
    if (figures === undefined) throw new Error('no case');
    const drawing = await drawn(bench);
    expect(drawSvg(drawing, { colours: 'light', figures })).toContain('>Case lit<');
    expect(drawSvg(drawing, { colours: 'light' })).not.toContain('>Case lit<');
  });
});
