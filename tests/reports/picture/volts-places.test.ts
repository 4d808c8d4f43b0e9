/** Volts of a case on every sample: over no words, no part and no wall, near their terminal, and hardly any left out. */
import { describe, expect, it } from 'vitest';
import { areasOf } from '../../../server/reports/picture/areas.ts';
import { withCurrent } from '../../../server/reports/picture/current-at.ts';
import { figuresOf } from '../../../server/reports/picture/figures.ts';
import { overlaps } from '../../../server/reports/picture/polyline.ts';
import type { Box, Look } from '../../../server/reports/picture/scene.ts';
import { isBar } from '../../../server/reports/picture/symbols/bars.ts';
import { noVolts, voltsPlaces } from '../../../server/reports/picture/volts-places.ts';
import { drawn, sample, samples } from './drawn.ts';

describe.each(samples)('the volts on samples/%s', (name) => {
  it('stand over nothing, near their terminals', async () => {
    const analysis = sample(name);
    const drawing = await drawn(analysis);
    const elements = [...drawing.elements.values()];
    const parts = elements.filter((one) => one.is === 'part');
    const cores = elements.filter((one) => one.is === 'core');
    const joined = new Set(cores.flatMap(({ from, to }) => [from, to]));
    for (const { name: caseName } of analysis.answers.cases) {
      const figures = figuresOf(analysis, caseName);
      if (figures === undefined || figures.trouble !== undefined) continue;
      const look: Look = { colours: 'light', figures, shade: 'capacity' };
      const { volts, signs } = voltsPlaces(elements, drawing.marks, look);
      const texts = [...volts].flatMap(([part, some]) => some.map((one) => ({ part, ...one })));
      const others: { readonly of: string; readonly box: Box }[] = [
        ...parts.flatMap((part) => areasOf(part).map((box) => ({ of: part.id, box }))),
        ...cores.flatMap((core) => [
          ...withCurrent(core, look).label.lines.map(({ box }) => ({ of: `words of ${core.id}`, box })),
          ...(signs.get(core.id) ?? []).map(({ box }) => ({ of: `sign of ${core.id}`, box })),
        ]),
        ...elements.flatMap((one) =>
          one.is === 'passage' && one.text !== undefined ? { of: `words of ${one.id}`, box: one.text.box } : [],
        ),
        ...texts.map(({ part, text, box }) => ({ of: `${text} of ${part}`, box })),
      ];
      const over = texts.flatMap(({ part, text, box }) =>
        others
          .filter((other) => other.box !== box && overlaps(other.box, box))
          .map(({ of }) => `${text} of ${part} lies on ${of}`),
      );
      expect(over, caseName).toEqual([]);
      const wanted = parts.flatMap(({ symbol, terminals }) =>
        isBar(symbol) ? terminals.slice(0, 1) : terminals.filter(({ terminal }) => joined.has(terminal)),
      );
      expect(texts.length / wanted.length, caseName).toBeGreaterThan(0.75);
    }
  });
});

describe('volts', () => {
  it('are none where no case is chosen, and where it has no answer', async () => {
    const analysis = sample('first-lamp.amps');
    const { elements } = await drawn(analysis);
    const figures = figuresOf(analysis, analysis.answers.cases[0]?.name ?? '');
    if (figures === undefined) throw new Error('no case');
    expect(voltsPlaces(elements.values(), [], { colours: 'light' })).toBe(noVolts);
    const look: Look = { colours: 'light', figures: { ...figures, trouble: 'none' } };
    expect(voltsPlaces(elements.values(), [], look)).toBe(noVolts);
  });

  it('give way to the mark of a finding', async () => {
    const analysis = sample('first-lamp.amps');
    const { elements } = await drawn(analysis);
    const figures = figuresOf(analysis, analysis.answers.cases[0]?.name ?? '');
    if (figures === undefined) throw new Error('no case');
    const look: Look = { colours: 'light', figures };
    const [first] = voltsPlaces(elements.values(), [], look).volts.get('part:LAMP') ?? [];
    if (first === undefined) throw new Error('no volts');
    const mark = { at: { x: first.box.x + first.box.width / 2, y: first.box.y } };
    const moved = voltsPlaces(elements.values(), [mark], look).volts.get('part:LAMP') ?? [];
    expect(moved.map(({ at }) => at)).not.toContainEqual(first.at);
  });
});
