import { describe, expect, it } from 'vitest';
import { findingLines, findingPages } from '../../../server/reports/sheets/finding-sheets.ts';
import { analyseText } from '../../analysed.ts';
import { analyseFile, parsed, wordsOf } from '../cards/drawing.ts';
import { sheetsOfFile } from './sheets.ts';

const asFound = 'samples/spokewagon-as-found.amps';

describe('what was found, on paper', () => {
  it('comes behind the drawing, every finding once, the worst first', async () => {
    const { findings, accepted } = analyseFile(asFound);
    const sheets = await sheetsOfFile(asFound, { paper: 'a4' });
    const pages = sheets.map(({ svg }) => wordsOf(parsed(svg))).filter((words) => words.includes('what was found'));
    expect(pages.length).toBeGreaterThan(1);
    const heads = pages.flat().filter((word) => /^(?:error|warning|advice) · /.test(word));
    expect(heads).toHaveLength(findings.length + accepted.length);
    expect(heads.slice(findings.length).every((word) => word.endsWith(' · accepted'))).toBe(true);
    const levels = heads.slice(0, findings.length).map((word) => word.split(' ')[0]);
    expect(levels).toEqual(
      [...levels].sort(
        (a, b) => ['error', 'warning', 'advice'].indexOf(a ?? '') - ['error', 'warning', 'advice'].indexOf(b ?? ''),
      ),
    );
    // Word for word, however the lines are broken.
    const all = pages.flat().join(' ');
    for (const { message } of findings)
      expect(all.replaceAll(/\s+/g, ' ')).toContain(message.replaceAll(/\s+/g, ' ').slice(0, 60));
    expect(pages.at(-1)).toContain(`page ${sheets.length} of ${sheets.length}`);
  });

  it('takes no page where there is nothing', async () => {
    for (const { svg } of await sheetsOfFile('samples/spokewagon.amps', { paper: 'a4', cards: true }))
      expect(wordsOf(parsed(svg))).not.toContain('what was found');
  });

  it('tells what was accepted last, and why', () => {
    const lines = findingLines(
      analyseText(
        'system "Bench" 12 V\nbattery B1 agm, 12 V, 60 Ah\nfuse F1 30 A, blade, 32 V, breaks 5 kA\nload L1 12 W\n' +
          'run W1 6 mm² red, 0.1 m, B1:+ to F1:in\nrun W2 0.5 mm² red, 9 m, F1:out to L1:+\nrun W3 6 mm² black, 9 m, L1:- to B1:-\n' +
          'load L2 5 W\nallow cable-too-small on W2 "on the bench only"\n',
      ),
    );
    expect(lines.length).toBeGreaterThan(1);
    expect(lines.at(-1)).toMatchObject({
      severity: 'error',
      about: 'W2',
      accepted: 'on the bench only',
      where: 'line 6',
    });
    expect(lines.slice(0, -1).every(({ accepted }) => accepted === undefined)).toBe(true);
  });

  it('never runs over a page, whatever is found', () => {
    const long = {
      severity: 'error',
      accepted: undefined,
      about: 'X'.repeat(200),
      message: 'word '.repeat(3000),
      where: '',
    } as const;
    const { pages } = findingPages([long, { ...long, message: 'short' }, long, long, long, long], 'letter');
    for (const page of pages) expect(page.reduce((sum, { height }) => sum + height + 9, 0)).toBeLessThan(960);
    expect(pages.flat()).toHaveLength(6);
  });
});
