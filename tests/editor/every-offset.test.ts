/**
 * Every feature over every sample, at places all through the text: none throws, every range lies in its file, and an edit
 * that is taken back changes no answer. Whole samples, and samples as they stand while a person is writing.
 */
import { readdirSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Analysis, AnalysisCache, analyse, type FileSource } from '../../server/analysis.ts';
import { uriOf } from '../../server/cli/files.ts';
import { features } from '../../server/session/features.ts';
import { atPlace, disk, ofFile } from './every-feature.ts';

interface Place {
  readonly line: number;
  readonly character: number;
}

/** Places that stand in no file, or ranges that end before they begin, anywhere in an answer. */
function misplaced(analysis: Analysis, answer: unknown): unknown[] {
  const linesOf = new Map(analysis.files.map(({ uri, text }) => [uri, String(text).split('\n')]));
  const wrong: unknown[] = [];
  const isPlace = (value: unknown): value is Place =>
    typeof value === 'object' && value !== null && 'line' in value && 'character' in value;
  const check = (value: unknown, lines: readonly string[]): void => {
    if (typeof value !== 'object' || value === null) return;
    if (isPlace(value)) {
      const line = lines[value.line];
      if (line === undefined || value.character < 0 || value.character > line.length) wrong.push(value);
      return;
    }
    const { start, end, uri, changes } = value as Record<string, unknown>;
    if (isPlace(start) && isPlace(end) && (start.line - end.line || start.character - end.character) > 0)
      wrong.push(value);
    const here = typeof uri === 'string' ? (linesOf.get(uri) ?? lines) : lines;
    if (typeof changes === 'object' && changes !== null)
      for (const [file, edits] of Object.entries(changes)) check(edits, linesOf.get(file) ?? lines);
    else
      for (const [key, inner] of Object.entries(value)) {
        // Ranges of an incoming step stand in the file of the one it comes from.
        const { from, targetUri } = value as { from?: { uri?: string }; targetUri?: string };
        // Of a link all but the words that lead there stand where it leads.
        const there = key === 'fromRanges' ? from?.uri : key.startsWith('target') ? targetUri : undefined;
        check(inner, (there === undefined ? undefined : linesOf.get(there)) ?? here);
      }
  };
  check(answer, linesOf.get(analysis.uri) ?? []);
  return wrong;
}

/** Analyses of a sample under its own address, whatever its text is meanwhile. */
function reading(name: string) {
  const uri = uriOf(resolve('samples', name));
  const cache = new AnalysisCache();
  return (text?: string): Analysis => {
    const source: FileSource = {
      ...disk,
      read: (one) => (one === uri && text !== undefined ? { text } : disk.read(one)),
    };
    return analyse(uri, source, cache);
  };
}

const samples = readdirSync('samples').filter((name) => name.endsWith('.amps'));
/** Places looked at in a sample, however long it is. */
const places = 800;

it('a place beyond its line or file would be seen', () => {
  const analysis = reading('first-lamp.amps')();
  const range = (startLine: number, endCharacter: number) => ({
    start: { line: startLine, character: 0 },
    end: { line: 0, character: endCharacter },
  });
  expect(misplaced(analysis, [{ range: range(0, 3) }])).toEqual([]);
  expect(misplaced(analysis, [{ deep: { range: range(0, 9999) } }])).toHaveLength(1);
  expect(misplaced(analysis, { range: range(1, 3) })).toHaveLength(1);
  expect(misplaced(analysis, { changes: { [analysis.uri]: [{ range: range(0, 9999) }] } })).toHaveLength(1);
});

describe.each(samples)('over samples/%s', (name) => {
  const read = reading(name);
  const analysis = read();
  const text = String(analysis.text);
  const stride = Math.max(1, Math.floor(text.length / places));
  const offsets = Array.from({ length: Math.ceil(text.length / stride) }, (_, n) => n * stride).concat(text.length);

  it('every answer is well placed', () => {
    expect(offsets.length).toBeGreaterThanOrEqual(Math.min(places, text.length));
    expect(misplaced(analysis, ofFile(analysis))).toEqual([]);
    for (const offset of offsets)
      expect([offset, misplaced(analysis, atPlace(analysis, offset))]).toEqual([offset, []]);
  }, 60_000);

  it('every name there is can be renamed, or it is said why not', () => {
    for (const offset of offsets.filter((_, n) => n % 8 === 0)) {
      const prepared = features.prepareRename(analysis, offset);
      const renamed = features.rename(analysis, offset, 'NEW-NAME');
      expect([offset, renamed === undefined]).toEqual([offset, prepared === undefined]);
      if (prepared === undefined || renamed === undefined) continue;
      expect([offset, 'refused' in renamed]).toEqual([offset, 'refused' in prepared]);
      expect([offset, misplaced(analysis, renamed)]).toEqual([offset, []]);
    }
  }, 60_000);

  it('an edit that is taken back changes no answer', () => {
    const cut = text.indexOf('\n', text.length / 2);
    const some = offsets.filter((_, n) => n % 60 === 0);
    // Asked before the edit: what was analysed then is not looked at again afterwards.
    const before = { file: ofFile(analysis), places: some.map((offset) => atPlace(analysis, offset)) };
    read(`${text.slice(0, cut)}\nfuse F-NEW  5 A${text.slice(cut)}`);
    const again = read(text);
    expect(again).not.toBe(analysis);
    expect(ofFile(again)).toEqual(before.file);
    expect(some.map((offset) => atPlace(again, offset))).toEqual(before.places);
  }, 60_000);

  it('while a line of it is being written, every answer is well placed', () => {
    for (const end of offsets.filter((_, n) => n % 80 === 5)) {
      const next = text.indexOf('\n', end);
      const half = read(text.slice(0, end) + (next === -1 ? '' : text.slice(next)));
      expect([
        end,
        misplaced(half, [ofFile(half), atPlace(half, end), features.rename(half, end, 'NEW-NAME')]),
      ]).toEqual([end, []]);
    }
  }, 60_000);
});
