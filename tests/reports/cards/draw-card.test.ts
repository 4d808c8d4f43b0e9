import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Card } from '../../../server/reports/cards/card.ts';
import { layOutCard } from '../../../server/reports/cards/card-layout.ts';
import { cardOf, cardsOf } from '../../../server/reports/cards/card-of.ts';
import { type CardColours, cardPalettes } from '../../../server/reports/cards/colours.ts';
import { drawCard, drawnCard } from '../../../server/reports/cards/draw-card.ts';
import { lineHeight } from '../../../server/reports/cards/lines.ts';
import { textWidth } from '../../../server/reports/letters.ts';
import { analyseText } from '../../analysed.ts';
import { analyseFile, boxesOf, facesFile, parsed, sampleFiles, wordsOf } from './drawing.ts';

const full = { colours: 'print', size: 'full' } as const;

interface Box {
  readonly what: string;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

const overlap = (a: Box, b: Box) =>
  Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x) > 0.5 &&
  Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y) > 0.5;

/** What would lead a hand to the wrong terminal. */
function misleading(card: Card): string[] {
  const { terminals, body, bars, ways, width, height } = layOutCard(card);
  const words = terminals.flatMap(({ terminal, cores }) =>
    cores.map(
      (core): Box => ({
        what: `${terminal.name} ${core.core.run}`,
        ...core.words,
        width: core.width,
        height: core.lines.length * lineHeight,
      }),
    ),
  );
  const screws = terminals.map(
    ({ terminal, at }): Box => ({
      what: `screw ${terminal.name}`,
      x: at.x - 11,
      y: at.y - 11,
      width: 22,
      height: 22,
    }),
  );
  const boxes = [...words, ...screws];
  const inside = { what: 'body', x: body.x, y: body.y, width: body.width, height: body.height };
  const byName = new Map(terminals.map((one) => [one.terminal.name, one]));
  const near = (a: { x: number; y: number } | undefined, b: { x: number; y: number } | undefined, within: number) =>
    a !== undefined && b !== undefined && Math.hypot(a.x - b.x, a.y - b.y) <= within;
  return [
    ...boxes.flatMap((one, i) =>
      boxes.slice(i + 1).flatMap((other) => (overlap(one, other) ? [`${one.what} on ${other.what}`] : [])),
    ),
    ...words.filter((one) => overlap(one, inside)).map(({ what }) => `${what} on the body`),
    ...boxes
      .filter(({ x, y, width: w, height: h }) => x < -0.5 || y < -0.5 || x + w > width + 0.5 || y + h > height + 0.5)
      .map(({ what }) => `${what} outside`),
    ...bars
      .filter(
        ({ bar, points }) =>
          bar.is === 'link' &&
          !(near(points[0], byName.get(bar.from)?.at, 0) && near(points.at(-1), byName.get(bar.to)?.at, 0)),
      )
      .map(({ bar }) => `bar ${bar.from}-${bar.to} ends elsewhere`),
    ...ways
      .filter(
        ({ way, points }) =>
          !(near(points[0], byName.get(way.from)?.at, 43) && near(points.at(-1), byName.get(way.to)?.at, 43)),
      )
      .map(({ way }) => `way ${way.pole} ends elsewhere`),
    // A bar runs through no screw but its own.
    ...bars.flatMap(({ bar, points }) =>
      bar.is === 'inside'
        ? []
        : points.slice(1).flatMap((end, i) => {
            const start = points[i] ?? end;
            return screws
              .filter(({ what }) => what !== `screw ${bar.from}` && what !== `screw ${bar.to}`)
              .filter((one) =>
                overlap(one, {
                  what: '',
                  x: Math.min(start.x, end.x) - 4,
                  y: Math.min(start.y, end.y) - 4,
                  width: Math.abs(start.x - end.x) + 8,
                  height: Math.abs(start.y - end.y) + 8,
                }),
              )
              .map(({ what }) => `bar ${bar.from}-${bar.to} over ${what}`);
          }),
    ),
  ];
}

/** Words that lie on other words, or run out of the card. */
function unreadable(svg: string): string[] {
  const root = parsed(svg);
  const [width, height] = ['width', 'height'].map((name) => Number(root.getAttribute(name)));
  const boxes = boxesOf(root).map(({ words, ...box }): Box => ({ what: `“${words}”`, ...box }));
  return [
    ...boxes.flatMap((one, i) =>
      boxes.slice(i + 1).flatMap((other) => (overlap(one, other) ? [`${one.what} on ${other.what}`] : [])),
    ),
    ...boxes
      .filter((box) => box.x < 0 || box.y < 0 || box.x + box.width > (width ?? 0) || box.y + box.height > (height ?? 0))
      .map(({ what }) => `${what} out of the card`),
  ];
}

describe('the drawing of a card', () => {
  it.each([...sampleFiles, facesFile])('puts nothing of %s on anything else', (file) => {
    for (const card of cardsOf(analyseFile(file))) {
      expect(misleading(card), card.part).toEqual([]);
      expect(unreadable(drawCard(card, full)), card.part).toEqual([]);
    }
  });

  it('nor for any face, bars and number of cores', () => {
    const spec = fc
      .record({
        poles: fc.integer({ min: 1, max: 8 }),
        seed: fc.array(fc.nat(1000), { minLength: 40, maxLength: 40 }),
        stated: fc.boolean(),
        bars: fc.array(fc.tuple(fc.nat(15), fc.nat(15)), { maxLength: 4 }),
        cores: fc.array(fc.tuple(fc.nat(15), fc.constantFrom('red', 'black', 'green/yellow', '')), { maxLength: 20 }),
      })
      .map(({ poles, seed, stated, bars, cores }) => {
        const numbers = Array.from({ length: 2 * poles }, (_, i) => i + 1);
        const mixed = [...numbers].sort((a, b) => (seed[a] ?? 0) - (seed[b] ?? 0));
        const cut = Math.max(1, Math.min(2 * poles - 1, (seed[0] ?? 0) % (2 * poles)));
        const face = stated ? `, face ${mixed.slice(0, cut).join(' ')} over ${mixed.slice(cut).join(' ')}` : '';
        const pick = (n: number) => (n % (2 * poles)) + 1;
        const links = bars.filter(([a, b]) => pick(a) !== pick(b)).map(([a, b]) => `${pick(a)}-${pick(b)}`);
        return [
          `isolator Q1 "Any" ${poles} poles, 25 A dc${face}`,
          ...(links.length === 0 ? [] : [`link Q1 ${links.join(', ')}`]),
          'splice FAR-AWAY-SPLICE',
          ...cores.map(([n, colour], i) => `run W${i} 6 mm² ${colour}, 1 m, FAR-AWAY-SPLICE to Q1:${pick(n)}`),
          '',
        ].join('\n');
      });
    fc.assert(
      fc.property(spec, (text) => {
        const analysis = analyseText(text);
        const part = analysis.model.parts.get('Q1');
        if (part === undefined) throw new Error('no Q1');
        const card = cardOf(analysis, part);
        expect(misleading(card)).toEqual([]);
        // Every core of every terminal is drawn, as many as stand on it.
        const svg = drawCard(card, full);
        expect(unreadable(svg)).toEqual([]);
        const root = parsed(svg);
        const drawn = [...root.getElementsByTagName('g')].filter((one) => one.hasAttribute('data-run')).length;
        const most = card.terminals.reduce((sum, { cores }) => sum + Math.min(12, cores.length), 0);
        expect(drawn).toBe(most);
      }),
      { numRuns: 150 },
    );
  });

  it('says at each terminal what is on it, and that it is empty', () => {
    const analysis = analyseFile('samples/spokewagon.amps');
    for (const card of cardsOf(analysis)) {
      const root = parsed(drawCard(card, full));
      const groups = [...root.getElementsByTagName('g')].filter((one) => one.hasAttribute('data-terminal'));
      expect(groups.map((one) => one.getAttribute('data-terminal')).sort()).toEqual(
        card.terminals.map(({ id }) => id).sort(),
      );
      for (const group of groups) {
        const terminal = card.terminals.find(({ id }) => id === group.getAttribute('data-terminal'));
        const words = wordsOf(group);
        expect(words).toContain(terminal?.name);
        expect(words.includes('empty')).toBe(terminal?.empty);
        for (const core of terminal?.cores ?? []) {
          expect(words.some((one) => one.startsWith(core.run))).toBe(true);
          expect(words).toContain(core.colour);
          expect(words).toContain(core.size);
          expect(words).toContain(`to ${core.other}`);
        }
      }
    }
  });

  it('keeps a hostile name as text', () => {
    const title = `<img src=x onerror='alert(1)'> & "]]> <script>alert(2)</script>`;
    const analysis = analyseText(
      `isolator Q1 "${title.replaceAll('"', '')}" 2 poles, 25 A dc\nload L1 "<b>" 5 W\nrun W1 1 mm² red, 1 m, Q1:1 to L1:+\n`,
    );
    for (const card of cardsOf(analysis)) {
      const svg = drawCard(card, full);
      const root = parsed(svg);
      const tags = new Set([...root.getElementsByTagName('*')].map(({ tagName }) => tagName));
      expect([...tags].sort()).toEqual(['circle', 'g', 'path', 'rect', 'text', 'title']);
      expect(root.textContent).toContain('<script>alert(2)</script>');
      expect(root.textContent).toContain('<b>');
    }
  });

  it('has no script, no style, nothing from elsewhere, and every word as text', () => {
    for (const file of [...sampleFiles, facesFile])
      for (const card of cardsOf(analyseFile(file))) {
        const svg = drawCard(card, full);
        const root = parsed(svg);
        const elements = [...root.getElementsByTagName('*')];
        const attributes = elements.flatMap((one) => [...one.attributes].map(({ name }) => name));
        expect(elements.filter(({ tagName }) => !/^(?:circle|g|path|rect|text|title)$/.test(tagName))).toEqual([]);
        expect(attributes.filter((name) => /^on|href|^style$/.test(name))).toEqual([]);
        expect(svg).not.toMatch(/NaN|undefined|Infinity/);
        const words = wordsOf(root).join(' ');
        expect(words).toContain(card.part);
        for (const { name } of card.terminals.filter(({ name: one }) =>
          card.spots.some(({ terminal }) => terminal === one),
        ))
          expect(words).toContain(name.slice(0, 5));
      }
  });

  it('is drawn alike every time', async () => {
    const sample = cardsOf(analyseFile('samples/spokewagon.amps'));
    const faces = cardsOf(analyseFile(facesFile));
    for (const [folder, cards, names] of [
      ['spokewagon', sample, ['Q1', 'FB', 'K1', 'U1']],
      ['faces', faces, ['Q1', 'Q2', 'Q3', 'Q4', 'S9']],
    ] as const)
      for (const name of names) {
        const card = cards.find(({ part }) => part === name);
        if (card === undefined) throw new Error(name);
        await expect(`${drawCard(card, full).replaceAll('><', '>\n<')}\n`).toMatchFileSnapshot(
          `golden/${folder}-${name}.svg`,
        );
      }
  });

  it('is smaller where words stand beside it', () => {
    for (const card of cardsOf(analyseFile('samples/spokewagon.amps'))) {
      const [small, whole] = [drawnCard(card, { ...full, size: 'small' }), drawnCard(card, full)];
      expect(small.height).toBeLessThan(whole.height - 120);
      expect(small.width).toBeLessThan(whole.width);
      const words = wordsOf(parsed(drawCard(card, { ...full, size: 'small' })));
      for (const { run, other } of card.terminals.flatMap(({ cores }) => cores))
        expect(words.some((one) => one.startsWith(run)) && words.includes(`to ${other}`)).toBe(true);
    }
  });
});

describe('the colours of a card', () => {
  const channel = (value: number) => (value <= 0.03928 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4);
  const light = (colour: string) => {
    const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => channel(Number.parseInt(colour.slice(at, at + 2), 16) / 255));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const contrast = (one: string, other: string) => {
    const [a, b] = [light(one), light(other)];
    return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
  };

  it.each(['light', 'dark', 'contrast', 'print'] satisfies CardColours[])('can be read on %s', (name) => {
    const { paper, ink, quiet, body, metal, warning } = cardPalettes[name];
    for (const ground of [paper, body, warning]) expect(contrast(ink, ground)).toBeGreaterThan(7);
    expect(contrast(quiet, paper)).toBeGreaterThan(4.5);
    // Screws and their slots, and the outline of every insulation.
    expect(contrast(ink, metal)).toBeGreaterThan(2.5);
  });
});

describe('a terminal with nothing on it', () => {
  it('has room for saying so, on whichever side of a board it stands', () => {
    const analysis = analyseText(
      'fusebox FB 4 ways\n    ways 1 to 4 fuse 5 A\nload L1 5 W\nrun W1 1 mm² red, 1 m, FB:1 to L1:+\n',
    );
    const part = analysis.model.parts.get('FB');
    if (part === undefined) throw new Error('no FB');
    const { terminals, width } = layOutCard(cardOf(analysis, part));
    const beside = terminals.filter(({ terminal, side }) => terminal.empty && (side === 'left' || side === 'right'));
    expect(beside.map(({ side }) => side)).toEqual(['left', 'right', 'right']);
    for (const { side, at } of beside) {
      const room = (side === 'left' ? at.x : width - at.x) - 18 - textWidth('empty', 11);
      expect(room).toBeGreaterThanOrEqual(4);
    }
  });
});
