/** The picture keeps its shape while one types: what did not change is the same object, and what is new finds room beside it. */
import { beforeAll, describe, expect, it } from 'vitest';
import { AnalysisCache, analyse } from '../../../server/analysis.ts';
import { layOut } from '../../../server/reports/picture/lay-out.ts';
import { patchesBetween } from '../../../server/reports/picture/patches.ts';
import { pictureOf } from '../../../server/reports/picture/picture-of.ts';
import type { Drawing, DrawnElement } from '../../../server/reports/picture/scene.ts';
import { analyseText, memorySource, specUri } from '../../analysed.ts';
import { Chance } from '../../oracle/random.ts';
import { drawnText, engine } from './drawn.ts';
import { faults, sorted } from './geometry.ts';
import { systemOf } from './systems.ts';

const sixty = systemOf(60, 3);
const next = (text: string, before: Drawing) => layOut(pictureOf(analyseText(text)), engine, before);

/** Elements that are not the very objects they were. */
function changed(before: Drawing, after: Drawing): string[] {
  return [...after.elements].filter(([id, element]) => before.elements.get(id) !== element).map(([id]) => id);
}

function movements(before: Drawing, after: Drawing): number[] {
  const old = new Map(sorted(before).parts.map(({ id, body }) => [id, body]));
  return sorted(after)
    .parts.flatMap(({ id, body }) => {
      const was = old.get(id);
      return was === undefined ? [] : [Math.hypot(body.x - was.x, body.y - was.y)];
    })
    .sort((a, b) => a - b);
}

const circuit = `fuse NEW-FUSE 5 A
load NEW-LOAD 12 W
run NEW1 2.5 mm² red, 2 m, POS1 to NEW-FUSE:in
run NEW2 2.5 mm² red, 2 m, NEW-FUSE:out to NEW-LOAD:+
run NEW3 2.5 mm² black, 2 m, NEW-LOAD:- to NEG1
`;
const load = `load NEW-LOAD 12 W
run NEW1 2.5 mm² red, 2 m, POS1 to NEW-LOAD:+
run NEW2 2.5 mm² black, 2 m, NEW-LOAD:- to NEG1
`;

describe('a system of sixty parts', () => {
  let before: Drawing;

  beforeAll(async () => {
    before = await drawnText(sixty);
  }, 60_000);

  it('is the same object by object when nothing changed', async () => {
    const after = await next(sixty, before);
    expect(changed(before, after)).toEqual([]);
    expect(patchesBetween(before, after)).toEqual([]);
  });

  it.each([
    ['a load on the bars', load],
    ['a fuse and a load', circuit],
    ['a part that nothing is joined to', 'load NEW-LOAD 12 W\n'],
  ])('keeps its shape when %s is added', async (_what, added) => {
    const after = await next(sixty + added, before);
    expect(after.made).toMatchObject({ how: 'kept', moved: 0 });
    expect(faults(after)).toEqual([]);
    const far = movements(before, after);
    expect(far[far.length >> 1]).toBe(0);
    expect(far.filter((one) => one > 0).length).toBeLessThanOrEqual(far.length / 10);
    // The new ones, and the two bars, which have more cores on them.
    const others = changed(before, after).filter((id) => !/NEW/.test(id));
    expect(others.filter((id) => !/^part:(?:POS|NEG)1$/.test(id))).toEqual([]);
  });

  it.each(['F3', 'POS1', 'FB1', 'LAMP1'])('moves nothing when %s is renamed', async (name) => {
    const text = sixty.replaceAll(new RegExp(`\\b${name}\\b(?!-)`, 'g'), `OTHER-${name}`);
    expect(text).not.toBe(sixty);
    const after = await next(text, before);
    expect(after.made).toMatchObject({ how: 'kept', moved: 0 });
    expect(faults(after)).toEqual([]);
    const part = sorted(before).parts.find((one) => one.name === name);
    const renamed = sorted(after).parts.find((one) => one.name === `OTHER-${name}`);
    expect(renamed?.body).toEqual(part?.body);
    expect(sorted(after).cores.map(({ points }) => points)).toEqual(sorted(before).cores.map(({ points }) => points));
  });

  it('moves nothing when a part is renamed where it is declared and not yet where it is used', async () => {
    const after = await next(sixty.replace('fuse F3 ', 'fuse F33 '), before);
    expect(after.made).toMatchObject({ how: 'kept', moved: 0 });
    const body = (drawing: Drawing, id: string) => sorted(drawing).parts.find((one) => one.id === id)?.body;
    expect(body(after, 'part:F33')).toEqual(body(before, 'part:F3'));
  });

  it('changes a label and nothing else when a length is written', async () => {
    const after = await next(sixty.replace(/(run W3 .*?, )[\d.]+ m,/, '$19.9 m,'), before);
    expect(changed(before, after)).toEqual(['core:W3/0']);
    expect(faults(after)).toEqual([]);
  });

  it('changes no element when text above is added', async () => {
    const after = await next(`# A note.\n${sixty}`, before);
    expect(changed(before, after)).toEqual([]);
    expect(after.sources.get('part:F3')?.start).toBe((before.sources.get('part:F3')?.start ?? 0) + 10);
  });

  it('keeps what is left when something is taken away, and takes it back', async () => {
    const without = sixty.replace(/^run W9 .*\n(?: {4}.*\n)*/m, '');
    const after = await next(without, before);
    expect(after.made.how).toBe('kept');
    expect(
      sorted(after).parts.every(({ id, body }) => (before.elements.get(id) as { body?: unknown }).body === body),
    ).toBe(true);
    const again = await next(sixty, after);
    expect(again.made).toMatchObject({ how: 'kept', moved: 0 });
    expect(faults(again)).toEqual([]);
  });

  it.each([
    ['a part is put into a box', /^(fuse F1 .*)$/m, '$1, in BOX1'],
    ['a box gets a long title', /^(enclosure BOX1) (.*)$/m, '$1 "In the locker under the bench, behind the board" $2'],
    ['a part is taken out of its box', /^(\w+ \S+ .*), in BOX1$/m, '$1'],
    ['a part is put into a new box', /^(fuse F1 .*)$/m, '$1, in NEW-BOX\nenclosure NEW-BOX plastic, IP44'],
    [
      'a new box with a fuse and a switch is joined',
      /^(fuse F1 .*)$/m,
      [
        '$1',
        'enclosure NEW-BOX "Beside the door" plastic, IP44',
        'fuse NEW-FUSE 5 A, in NEW-BOX',
        'switch NEW-SWITCH 1 pole, 10 A dc, 24 V, in NEW-BOX',
        'run NEW1 2.5 mm² red, 2 m, POS1 to NEW-FUSE:in',
        'run NEW2 2.5 mm² red, 0.2 m, NEW-FUSE:out to NEW-SWITCH:1',
      ].join('\n'),
    ],
  ])('lets the others stand where they are when %s', async (_what, line, written) => {
    const text = sixty.replace(line, written);
    expect(text).not.toBe(sixty);
    const after = await next(text, before);
    expect(after.made).toMatchObject({ how: 'kept' });
    expect(faults(after)).toEqual([]);
    expect(movements(before, after).filter((one) => one > 0).length).toBeLessThanOrEqual(1);
  });

  it('is laid out whole, and says why, when much is new', async () => {
    const many = Array.from({ length: 9 }, (_, i) => `load MANY${i} 5 W\n`).join('');
    const after = await next(sixty + many, before);
    expect(after.made).toMatchObject({ how: 'whole', why: '9 parts are new' });
    expect(faults(after)).toEqual([]);
  });
});

/** What a drawing shows, wherever it stands. */
function content({ elements, cables, marks }: Drawing): unknown {
  const words = (element: DrawnElement): readonly unknown[] => {
    switch (element.is) {
      case 'part':
        return [
          element.terminals.map(({ id }) => id).sort(),
          element.texts.map(({ text }) => text).sort(),
          element.group,
        ];
      case 'core':
        return [
          element.from,
          element.to,
          element.colours,
          element.polarity,
          element.label.lines.map(({ text }) => text),
        ];
      case 'passage':
        return [element.core, element.enclosure, element.how, element.label];
      default:
        return [element.texts.map(({ text }) => text), element.parent];
    }
  };
  const one = (element: DrawnElement) => [
    element.is,
    element.id,
    'spoken' in element ? element.spoken : '',
    ...words(element),
  ];
  return {
    elements: [...elements.values()].map(one).sort((a, b) => String(a[1]).localeCompare(String(b[1]))),
    cables: [...cables.values()].map(({ ordinal, ...cable }) => cable),
    marks: marks.map(({ id, element, message }) => [id, element, message]),
  };
}

describe('five hundred edits by chance', () => {
  it.each(Array.from({ length: 20 }, (_, i) => i + 1))(
    'leave a picture that shows what one drawn afresh shows, and is as sound (%i)',
    async (seed) => {
      const chance = new Chance(seed);
      const cache = new AnalysisCache();
      let text = systemOf(chance.whole(6, 16), seed);
      let drawing = await drawnText(text);
      for (let count = 1; count <= 25; count += 1) {
        const next = edited(text, chance, count);
        // Half a statement, as while typing, is there once and then whole again.
        if (!next.isBroken) text = next.text;
        const graph = pictureOf(analyse(specUri, memorySource({ 'spec.amps': next.text }), cache));
        drawing = await layOut(graph, engine, drawing);
        expect(faults(drawing), next.text).toEqual([]);
        expect(content(drawing), next.text).toEqual(content(await layOut(graph, engine)));
      }
    },
  );
});

interface Edited {
  readonly text: string;
  readonly isBroken: boolean;
}

function edited(text: string, chance: Chance, count: number): Edited {
  const lines = text.trimEnd().split('\n');
  const at = chance.whole(1, lines.length - 1);
  const line = lines[at] ?? '';
  const kind = chance.whole(0, 11);
  const broken = () => text.replace(`${line}\n`, `${line.slice(0, chance.whole(0, line.length))}\n`);
  return kind === 7 || kind === 8 ? { text: broken(), isBroken: true } : { text: whole(), isBroken: false };

  function whole(): string {
    switch (kind) {
      case 0:
        return lines.length > 24 ? [...lines.slice(0, at), ...lines.slice(at + 1), ''].join('\n') : text;
      case 1:
        return `${text}fuse FX${count} 5 A\nload LX${count} ${chance.whole(1, 60)} W\nrun RX${count} 2.5 mm² red, 2 m, POS1 to FX${count}:in\n`;
      case 2:
        return `${text}run RY${count} 4 mm² blue, 1 m, POS1 to NEG1\n`;
      case 3:
        return `${text}load LZ${count} 12 W\nrun RZ${count} 2 x 1.5 mm², 3 m\n    red POS1 to LZ${count}:+\n    black NEG1 to LZ${count}:-\n`;
      case 4: {
        const [name] = /\b(?:[A-Z]+\d+)\b/.exec(line) ?? [];
        return name === undefined || /^(?:POS|NEG)1$/.test(name)
          ? text
          : text.replaceAll(new RegExp(`\\b${name}\\b`, 'g'), `N${count}`);
      }
      case 5:
        return text.replace(line, line.replace(/\d+(?:\.\d+)? (m|W|A)\b/, `${chance.whole(1, 30)} $1`));
      case 9:
        return `${text}enclosure BX${count} "Box ${count}" plastic, IP44\nfuse FB${count} 5 A, in BX${count}\nrun RB${count} 2.5 mm² red, 2 m, POS1 to FB${count}:in\n`;
      case 10: {
        const boxes = [...text.matchAll(/^enclosure (\S+)/gm)].map(([, name]) => name);
        const into = boxes[chance.whole(0, boxes.length - 1)];
        const part = /^(?:load|fuse|switch|busbar) \S+ (?!.*, in ).*$/.test(line);
        return into === undefined || !part ? text : text.replace(line, `${line}, in ${into}`);
      }
      case 11:
        return text.replace(line, line.replace(/, in \S+$/, ''));
      default:
        return text.replace(line, line.replace(/^((?:load|fuse|switch) \S+)( "[^"]*")?/, `$1 "Title ${count}"`));
    }
  }
}
