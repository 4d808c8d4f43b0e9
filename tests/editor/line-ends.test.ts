/** A file with the line ends of Windows is answered as one without, place by place: `\r` belongs to no word and no range. */
import { readdirSync } from 'node:fs';
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Analysis, analyse } from '../../server/analysis.ts';
import { uriOf } from '../../server/cli/files.ts';
import { atPlace, disk, ofFile } from './every-feature.ts';

const windows = (text: string) => text.replaceAll('\n', '\r\n');

function read(name: string, change: (text: string) => string): Analysis {
  const uri = uriOf(resolve('samples', name));
  return analyse(uri, {
    ...disk,
    read: (one) => {
      const file = disk.read(one);
      return one === uri && 'text' in file ? { text: change(String(file.text)) } : file;
    },
  });
}

/** An answer with the line ends of what would be written as the others are, and without offsets of the server’s own. */
function plain(answer: unknown): unknown {
  return JSON.parse(
    JSON.stringify(answer, (key, value) =>
      key === 'span' ? undefined : typeof value === 'string' ? value.replaceAll('\r\n', '\n') : value,
    ),
  );
}

const samples = readdirSync('samples').filter((name) => name.endsWith('.amps'));
const places = 200;

describe.each(samples)('samples/%s', (name) => {
  const [usual, other] = [read(name, (text) => text), read(name, windows)];
  const { text } = usual;

  it('as a whole', () => {
    expect(plain(ofFile(other))).toEqual(plain(ofFile(usual)));
  }, 60_000);

  it('at places all through it', () => {
    const stride = Math.max(1, Math.floor(text.length / places));
    for (let offset = 0; offset <= text.length; offset += stride) {
      const before = text.slice(0, offset).split('\n').length - 1;
      expect([offset, plain(atPlace(other, offset + before))]).toEqual([offset, plain(atPlace(usual, offset))]);
    }
  }, 60_000);
});
