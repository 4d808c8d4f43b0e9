/** What is to be drawn of a spec, what is not and why, where it is written, and the figures of a case beside it. */
import { describe, expect, it } from 'vitest';
import { allKinds } from '../../../server/kinds/all.ts';
import { figuresOf } from '../../../server/reports/picture/figures.ts';
import { pictureOf } from '../../../server/reports/picture/picture-of.ts';
import { planOf, symbols } from '../../../server/reports/picture/symbols/all.ts';
import { analyseText } from '../../analysed.ts';
import { sample } from './drawn.ts';

const text = `system "Lamp" 12 V
battery B1 agm, 12 V, 100 Ah
enclosure BOX plastic, IP44
fuse F1 10 A, in BOX
load LAMP "Reading lamp" 12 W
run W1 2.5 mm² red, 1 m, B1:+ to F1:in
    enters BOX by gland M20
run W2 3 x 1.5 mm², 2 m
    brown         F1:out to LAMP:+
    blue          B1:- to LAMP:-
    green/yellow  spare
run W3 1 mm² black, 1 m, LAMP:- to NOWHERE
`;

describe('what is to be drawn', () => {
  const analysis = analyseText(text);
  const picture = pictureOf(analysis);

  it('is every part but boxes, which stand round others', () => {
    expect(picture.parts.map(({ name, group }) => [name, group])).toEqual([
      ['B1', undefined],
      ['F1', 'enclosure:BOX'],
      ['LAMP', undefined],
    ]);
    expect(picture.groups.map(({ id, note }) => [id, note])).toEqual([['enclosure:BOX', 'plastic, IP44']]);
    expect(picture.parts.map(({ ratings }) => ratings)).toEqual([['12 V, 100 Ah'], ['10 A'], ['12 W']]);
  });

  it('is every core with two ends, named with its colour’s letters, and its polarity', () => {
    expect(picture.cores.map(({ id, label, polarity }) => [id, ...label, polarity])).toEqual([
      ['core:W1/0', 'W1 RD', '2.5 mm² 1 m', '+'],
      ['core:W2/0', 'W2 BN', '3 × 1.5 mm² 2 m', '+'],
      ['core:W2/1', 'W2 BU', '3 × 1.5 mm² 2 m', '-'],
    ]);
    expect(picture.cores[0]?.passages).toEqual([{ enclosure: 'BOX', how: 'gland', label: 'M20' }]);
  });

  it('tells which cores cannot be drawn', () => {
    expect(picture.cables.flatMap(({ undrawn }) => undrawn)).toEqual([
      'green/yellow: spare',
      'black: leaves LAMP:-, other end not known',
    ]);
  });

  it('knows where each is written', () => {
    const words = (id: string) => {
      const source = picture.sources.get(id);
      return source === undefined ? undefined : text.slice(source.start, source.end);
    };
    expect(words('part:LAMP')).toBe('load LAMP "Reading lamp" 12 W');
    expect(words('core:W2/1')).toBe('blue          B1:- to LAMP:-');
    expect(words('enclosure:BOX')).toBe('enclosure BOX plastic, IP44');
    for (const { id } of picture.cores) expect(words(id)).toBeDefined();
  });

  it('puts every finding on what it is about', () => {
    const { findings } = analysis;
    expect(picture.marks.length).toBe(findings.length);
    expect(new Set(picture.marks.map(({ id }) => id)).size).toBe(findings.length);
    const about = picture.marks.find(({ slug }) => slug === 'unknown-name');
    expect(about).toMatchObject({ element: '', message: expect.stringContaining('NOWHERE') });
    const drawn = new Set([...picture.parts.map(({ name }) => `part:${name}`), ...picture.cores.map(({ id }) => id)]);
    const marks = pictureOf(sample('spokewagon-as-found.amps')).marks.filter(({ element }) => element !== '');
    expect(marks.length).toBeGreaterThan(80);
    for (const { element } of picture.marks)
      expect(element === '' || drawn.has(element) || element.startsWith('enclosure:')).toBe(true);
  });

  it('may be a few parts alone, with what their cables lead to', () => {
    const only = pictureOf(analysis, { only: ['LAMP'] });
    expect(only.parts.map(({ name }) => name)).toEqual(['B1', 'F1', 'LAMP']);
    expect(only.cores.map(({ id }) => id)).toEqual(['core:W2/0', 'core:W2/1']);
    // What is found about the rest is not put on that sheet.
    expect(picture.marks.some(({ element }) => element === '')).toBe(true);
    const shown = new Set([...only.parts.map(({ name }) => `part:${name}`), ...only.cores.map(({ id }) => id)]);
    for (const { id } of only.groups) shown.add(id);
    expect(only.marks.length).toBeGreaterThan(0);
    expect(only.marks.filter(({ element }) => !shown.has(element))).toEqual([]);
  });
});

describe('figures of a case', () => {
  it('equal the answers', () => {
    const analysis = sample('spokewagon.amps');
    const answer = analysis.answers.cases.find(({ name }) => name === 'working');
    const figures = figuresOf(analysis, 'working');
    expect(figures?.trouble).toBeUndefined();
    expect(figures?.cores.size).toBe(answer?.cores.length);
    for (const { core, amps, dropVolts, capacityAmps } of answer?.cores ?? []) {
      const figure = figures?.cores.get(`core:${core.run.name}/${core.index}`);
      expect(figure).toMatchObject({ amps, dropVolts });
      expect(figure?.share).toBeCloseTo(Math.abs(amps) / (capacityAmps ?? Number.NaN), 12);
    }
    // The coil of K1 is fed: 87a has no core on it and hangs free.
    for (const [id, volts] of answer?.volts ?? [])
      expect(figures?.terminals.get(`terminal:${id}`), id).toBe(id === 'K1:87a' ? undefined : volts);
  });

  it('are none for a case that is not there, and say why one has no answer', () => {
    expect(figuresOf(sample('spokewagon.amps'), 'nothing')).toBeUndefined();
    const analysis = sample('spokewagon-as-found.amps');
    const unfed = figuresOf(analysis, 'burglar');
    expect(unfed?.trouble).toMatch(/\w/);
    // What has no answer is left out; the rest of the spec keeps its figures.
    expect(unfed?.cores.size).toBeLessThan(pictureOf(analysis).cores.length);
  });
});

describe('symbols', () => {
  const drawn = allKinds.filter(({ family }) => !['enclosure', 'material', 'limits'].includes(family));

  it.each(drawn.map((kind) => [kind.word, kind] as const))('there is one of its own for %s', (word, kind) => {
    expect(symbols.has(kind.symbol)).toBe(true);
    const [part] = pictureOf(analyseText(`system "One" 12 V\n${kind.example}\n`)).parts;
    expect(part?.kindWord).toBe(word);
    if (part === undefined) return;
    for (const wants of ['left', 'right'] as const) {
      const ends = new Map(part.terminals.map(({ name, id }) => [name, [{ key: id, wants }]]));
      const plan = planOf({ part, ends });
      const { terminals, texts, shapes } = plan.finish(
        new Map(plan.ports.map(({ key, y = plan.head + 8 }) => [key, y])),
      );
      expect(terminals.map(({ name }) => name).sort()).toEqual(part.terminals.map(({ name }) => name).sort());
      expect(plan.ports.length).toBe(part.terminals.length);
      expect(texts.map(({ text: words }) => words)).toContain(part.name);
      for (const { box } of texts) {
        expect(box.x).toBeGreaterThanOrEqual(-0.01);
        expect(box.x + box.width).toBeLessThanOrEqual(plan.width + 0.01);
      }
      expect(JSON.stringify(shapes)).not.toContain('null');
    }
  });

  it('show the solid bars of a switch, joined where they end and nowhere between', () => {
    const text = `system "Roof" 12 V
isolator Q1 4 poles, 25 A dc, 300 V
link Q1 2-6, 4-8, 5-3
`;
    const [part] = pictureOf(analyseText(text)).parts;
    if (part === undefined) throw new Error('nothing is drawn');
    const plan = planOf({ part, ends: new Map() });
    const { terminals, shapes, texts } = plan.finish(new Map());
    const at = (name: string) => terminals.find((one) => one.name === name);
    const bars = shapes.flatMap((shape) => (shape.is === 'line' && shape.stroke === 'heavy' ? [shape.points] : []));
    const ends = bars.map((points) => [points[0]?.y, points.at(-1)?.y]);
    const wanted = part.links.map((names) => names.map((name) => at(name)?.level));
    expect(wanted.flat()).not.toContain(undefined);
    expect(ends).toEqual(wanted);
    const joints = shapes.flatMap((shape) => (shape.is === 'circle' && shape.radius === 3 ? [shape.at] : []));
    expect(joints).toEqual(bars.flatMap((points) => [points[0], points.at(-1)]));
    // 2-6 crosses the lead of 4, and 4-8 that of 6: both are parted there.
    const gaps = shapes.flatMap((shape) =>
      shape.is === 'rect' && shape.stroke === 'none' ? [shape.box.y + shape.box.height / 2] : [],
    );
    expect(gaps).toEqual([at('4')?.level, at('6')?.level]);
    // Side by side, within the part, and over no number.
    expect(new Set(bars.map(([first]) => first?.x)).size).toBe(3);
    for (const { x, y } of bars.flat()) {
      expect(x > 0 && x < plan.width && y < plan.height).toBe(true);
      for (const { box } of texts) expect(x < box.x - 1.5 || x > box.x + box.width + 1.5 || y > box.y + 8).toBe(true);
    }
  });

  it('take a bar from one side of a switch to the other between its poles', () => {
    const [part] = pictureOf(
      analyseText('system "Row" 12 V\nisolator Q1 2 poles, 25 A dc, 300 V, 2 in series 600 V\nlink Q1 2-3\n'),
    ).parts;
    if (part === undefined) throw new Error('nothing is drawn');
    const { terminals, shapes } = planOf({ part, ends: new Map() }).finish(new Map());
    const level = (name: string) => terminals.find((one) => one.name === name)?.level ?? Number.NaN;
    const [bar] = shapes.flatMap((shape) => (shape.is === 'line' && shape.stroke === 'heavy' ? [shape.points] : []));
    expect(bar?.map(({ y }) => y)).toEqual([level('2'), level('2') + 12, level('2') + 12, level('3')]);
    expect(level('2') + 12).toBeLessThan(level('3') - 12);
  });
});
