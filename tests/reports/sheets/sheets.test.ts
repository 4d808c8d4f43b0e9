import { readFileSync } from 'node:fs';
import type { Element } from '@xmldom/xmldom';
import { describe, expect, it } from 'vitest';
import { cardsOf } from '../../../server/reports/cards/card-of.ts';
import { drawnCard } from '../../../server/reports/cards/draw-card.ts';
import { drawSvg } from '../../../server/reports/picture/draw-svg.ts';
import { inProcessEngine } from '../../../server/reports/picture/elk-engine.ts';
import { layOut } from '../../../server/reports/picture/lay-out.ts';
import { pictureOf } from '../../../server/reports/picture/picture-of.ts';
import { shelves } from '../../../server/reports/sheets/card-sheets.ts';
import { checkedWords } from '../../../server/reports/sheets/sheet.ts';
import { overlap } from '../../../server/reports/sheets/tiles.ts';
import { analyseText } from '../../analysed.ts';
import { analyseFile, facesFile, parsed, wordsOf } from '../cards/drawing.ts';
import { sheetsOfFile } from './sheets.ts';

const van = 'samples/spokewagon.amps';

describe('the title block', () => {
  it('tells title, file, revision, date, page of pages, and how many findings', async () => {
    const sheets = await sheetsOfFile(van, { paper: 'a4', cards: true });
    expect(sheets.length).toBeGreaterThan(4);
    for (const [index, { svg }] of sheets.entries()) {
      const words = wordsOf(parsed(svg));
      for (const one of ['Spokewagon', 'spokewagon.amps', 'revision 3f2a1c9', '2026-11-26', 'checked: no findings'])
        expect(words).toContain(one);
      expect(words).toContain(`page ${index + 1} of ${sheets.length}`);
      expect(words.join(' ')).toContain('Isolate and prove dead');
    }
  });

  it('counts what was found', () => {
    const told = (errors: number, warnings: number, advice: number) => checkedWords({ errors, warnings, advice });
    expect(told(0, 0, 0)).toBe('checked: no findings');
    expect(told(1, 2, 0)).toBe('checked: 1 error, 2 warnings');
    expect(told(2, 1, 3)).toBe('checked: 2 errors, 1 warning, 3 advice');
    expect(told(0, 0, 1)).toBe('checked: 1 advice');
  });

  it('names the case, and says that there is no revision', async () => {
    const [sheet] = await sheetsOfFile(van, { paper: 'a3', caseName: 'night', facts: { revision: undefined } });
    const words = wordsOf(parsed(sheet?.svg ?? ''));
    expect(words.some((one) => one.startsWith('wiring diagram, case night'))).toBe(true);
    expect(words).toContain('no revision');
  });

  it('tells a long title whole, on two lines where one is too short for it', async () => {
    const title = 'The Ferry Library, books and a reading room on wheels at 24 V';
    const sheets = await sheetsOfFile(van, { paper: 'a4', cards: true, facts: { title } });
    const upright = sheets.filter(({ width, height }) => height > width);
    expect(upright.length).toBeGreaterThan(0);
    for (const { svg } of upright) {
      const words = wordsOf(parsed(svg)).filter((one) => title.includes(one) && one.length > 12);
      expect(words).toHaveLength(2);
      expect(words.join(' ')).toBe(title);
      expect(wordsOf(parsed(svg))).toContain('spokewagon.amps');
    }
  });

  it('keeps to its cells whatever the names are', async () => {
    const long = `<script>${'W'.repeat(300)}`;
    const [sheet] = await sheetsOfFile('samples/first-lamp.amps', {
      paper: 'letter',
      facts: { title: long, file: long, revision: long },
    });
    const root = parsed(sheet?.svg ?? '');
    expect(root.getElementsByTagName('script')).toHaveLength(0);
    expect(wordsOf(root).filter((one) => one.includes('WWW') && one.endsWith('…')).length).toBe(3);
    expect(wordsOf(root).filter((one) => one.includes('WWW')).length).toBeLessThanOrEqual(5);
  });
});

describe('the diagram on pages', () => {
  it('says at each edge on which page it goes on, and there it is', async () => {
    const sheets = (await sheetsOfFile(van, { paper: 'a4' })).map(({ svg }) => parsed(svg));
    const references = sheets.map((root) =>
      wordsOf(root)
        .flatMap((one) => /^page (\d+)$/.exec(one)?.[1] ?? [])
        .map(Number),
    );
    expect(references.some((pages) => pages.length > 1)).toBe(true);
    references.forEach((pages, index) => {
      for (const page of pages) expect(references[page - 1], `page ${index + 1}`).toContain(index + 1);
    });
  });

  it('is the drawing itself, looked at through a window', async () => {
    const analysis = analyseFile(van);
    const drawing = await layOut(pictureOf(analysis), inProcessEngine());
    const svg = drawSvg(drawing, { colours: 'print' });
    for (const sheet of await sheetsOfFile(van, { paper: 'a4' })) expect(sheet.svg).toContain(svg.trim());
    const [bare, ...more] = await sheetsOfFile(van);
    expect(more).toEqual([]);
    expect(bare?.svg).toBe(svg);
  });

  it('shows every part whole on some page', async () => {
    const drawing = await layOut(pictureOf(analyseFile(van)), inProcessEngine());
    const windows = (await sheetsOfFile(van, { paper: 'a4' })).map(({ svg }) => {
      const inner = [...parsed(svg).getElementsByTagName('svg')][0] as Element;
      const [x = 0, y = 0, width = 0, height = 0] = (inner.getAttribute('viewBox') ?? '').split(' ').map(Number);
      return { x, y, width, height };
    });
    const cut = [...drawing.elements.values()].flatMap((element) =>
      element.is === 'part' &&
      !windows.some(
        (page) =>
          element.box.x >= page.x &&
          element.box.y >= page.y &&
          element.box.x + element.box.width <= page.x + page.width &&
          element.box.y + element.box.height <= page.y + page.height,
      )
        ? [element]
        : [],
    );
    // Only what is larger than the overlap can be cut, and then it is on both pages.
    for (const { box } of cut) expect(Math.max(box.width, box.height)).toBeGreaterThan(overlap);
    expect(cut.length).toBeLessThan(5);
  });
});

describe('the cards on pages', () => {
  const cards = [...cardsOf(analyseFile(van)), ...cardsOf(analyseFile(facesFile))].map((card) =>
    drawnCard(card, { colours: 'print', size: 'full' }),
  );

  it.each([
    [718, 985],
    [1000, 700],
    [300, 300],
  ])('are all there, apart from each other and within %i by %i', (width, height) => {
    const pages = shelves(cards, { width, height });
    expect(new Set(pages.flat().map(({ card }) => card)).size).toBe(cards.length);
    for (const page of pages)
      for (const [index, one] of page.entries()) {
        const box = ({ card, x, y, scale }: typeof one) => ({
          x,
          y,
          right: x + card.width * scale,
          bottom: y + card.height * scale,
        });
        const here = box(one);
        expect(here.right).toBeLessThanOrEqual(width + 0.1);
        expect(here.bottom).toBeLessThanOrEqual(height + 0.1);
        for (const other of page.slice(index + 1).map(box))
          expect(
            here.right <= other.x || other.right <= here.x || here.bottom <= other.y || other.bottom <= here.y,
          ).toBe(true);
      }
    expect(pages.every((page) => page.length > 0)).toBe(true);
  });

  it('come below the diagram where there is no paper', async () => {
    const [one, ...more] = await sheetsOfFile(van, { cards: true });
    expect(more).toEqual([]);
    const words = wordsOf(parsed(one?.svg ?? ''));
    expect(words).toContain('W11 RD');
    expect(words.filter((word) => word === 'Dead test, cores off: what beeps').length).toBeGreaterThan(5);
  });
});

it('a sheet is drawn alike every time', async () => {
  const [sheet] = await sheetsOfFile('samples/first-lamp.amps', {
    paper: 'a4',
    facts: { title: 'First lamp', file: 'first-lamp.amps' },
  });
  const svg = sheet?.svg ?? '';
  // The diagram has golden files of its own: here the page round it, whatever the size of what it shows.
  const page = svg
    .replace(/<svg [^>]*class="diagram"[\s\S]*?<\/svg>/, '<g class="diagram"/>')
    .replace(/viewBox="-[^"]*"/, 'viewBox="0 0 1 1"');
  await expect(`${page.replaceAll('><', '>\n<')}\n`).toMatchFileSnapshot('golden/first-lamp-a4.svg');
  expect(analyseText(readFileSync('samples/first-lamp.amps', 'utf8')).findings).toEqual([]);
});
