/** Trace and staircase: every step is named with its volts, and the stairs add up. */
import { DOMParser } from '@xmldom/xmldom';
import { describe, expect, it } from 'vitest';
import { drawStaircase, stairsOf } from '../../../server/reports/picture/staircase.ts';
import { type TraceWay, traceOf } from '../../../server/reports/picture/trace.ts';
import { analyseText } from '../../analysed.ts';
import { lamp } from '../../session/specs.ts';

const traced = () => {
  const analysis = analyseText(lamp());
  const trace = traceOf(analysis, 'LAMP', analysis.answers.cases[0]?.name ?? '');
  const [way] = trace?.ways ?? [];
  if (trace === undefined || way === undefined) throw new Error('no way');
  return { trace, way };
};

const lossless = (way: TraceWay): TraceWay => ({
  ...way,
  steps: way.steps.map((step) => ({ ...step, dropVolts: 0 })),
});

describe('a trace', () => {
  it('names every step with its place and what it costs', () => {
    const { trace, way } = traced();
    expect(way.steps.map(({ name, detail, element, side }) => [name, detail, element, side])).toEqual([
      ['W1 red', '4 mm², 0.1 m', 'core:W1/0', 'out'],
      ['F1', 'fuse', 'part:F1', 'out'],
      ['W2 red', '4 mm², 1.2 m', 'core:W2/0', 'out'],
      ['W3 black', '4 mm², 1.4 m', 'core:W3/0', 'back'],
    ]);
    expect(trace.elements).toEqual(['part:B1', 'core:W1/0', 'part:F1', 'core:W2/0', 'part:LAMP', 'core:W3/0']);
    expect(trace.trouble).toBeUndefined();
    expect(way.lostPercent).toBeCloseTo((100 * way.lostVolts) / 12, 9);
  });

  it('says in words why there is none', () => {
    const switched = lamp().replace(
      'F1:out to LAMP:+',
      'F1:out to S1:1\nswitch S1  1 pole, 10 A dc, 24 V\nrun W4  4 mm² red, 1 m, S1:2 to LAMP:+',
    );
    const analysis = analyseText(`${switched}case parked S1 off, all loads on\n`);
    const names = analysis.answers.cases.map(({ name }) => name);
    expect(traceOf(analysis, 'LAMP', names[0] ?? '')).toMatchObject({ ways: [], elements: [] });
    expect(traceOf(analysis, 'LAMP', names[0] ?? '')?.trouble).toMatch(/^Nothing feeds LAMP in the case /);
    expect(traceOf(analysis, 'NOBODY', names[0] ?? '')).toBeUndefined();
    expect(traceOf(analysis, 'LAMP', 'no such case')).toBeUndefined();
  });
});

describe('a staircase', () => {
  it('goes from left to right, each step from where the last one ended', () => {
    const stairs = stairsOf(traced().way);
    expect(stairs[0]?.begins).toBe(0);
    expect(stairs.at(-1)?.ends).toBeCloseTo(1, 12);
    for (const [index, { begins }] of stairs.entries()) if (index > 0) expect(begins).toBe(stairs[index - 1]?.ends);
  });

  it('stays in its room when nothing is lost or a step gains', () => {
    const { way } = traced();
    for (const { begins, ends } of stairsOf(lossless(way))) expect([begins, ends]).toEqual([0, 0]);
    const [first, ...others] = way.steps;
    if (first === undefined) throw new Error('no step');
    const gaining = { ...way, steps: [{ ...first, dropVolts: -0.2 }, ...others] };
    for (const { begins, ends } of stairsOf(gaining))
      for (const share of [begins, ends]) expect(share >= 0 && share <= 1).toBe(true);
  });

  it('is XML whose every text stays text, within its width', () => {
    const { way } = traced();
    const hostile = '<img src=x onerror=alert(1)> "of an uncommonly long name & such"';
    const [first, ...others] = way.steps;
    if (first === undefined) throw new Error('no step');
    const named = { ...way, load: hostile, steps: [{ ...first, name: hostile, detail: hostile }, ...others] };
    const { xml } = drawStaircase(named, 300);
    const { documentElement } = new DOMParser({
      onError: (level, message) => {
        throw new Error(`${level}: ${message}`);
      },
    }).parseFromString(xml, 'text/xml');
    expect(documentElement?.getElementsByTagName('img').length).toBe(0);
    const texts = [...(documentElement?.getElementsByTagName('text') ?? [])];
    expect(texts.some((one) => one.textContent?.startsWith('<img src=x'))).toBe(true);
    const figures = texts.filter((one) => one.getAttribute('class') === 'stair-volts').map((one) => one.textContent);
    expect(figures).toHaveLength(way.steps.length + 3);
    for (const figure of figures) expect(figure).toMatch(/^−?\d+(?:\.\d+)? V/);
    for (const rect of documentElement?.getElementsByTagName('rect') ?? []) {
      const [x, width] = ['x', 'width'].map((name) => Number(rect.getAttribute(name)));
      expect((x ?? -1) >= 0 && (x ?? 0) + (width ?? 0) <= 300.01).toBe(true);
    }
  });
});
