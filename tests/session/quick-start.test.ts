/** The server as the extension starts it: what is compiled of it is kept for the next start. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { withTheVan } from './own-server.ts';

let folder: string;
let kept: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'ampscribe-start-'));
  kept = join(folder, 'storage', 'server.compiled');
});

afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** One start with three edits: how many findings the last brought, and the process's exit code. */
async function once(...args: readonly string[]) {
  const { edit, end } = await withTheVan(['dist/server.quick.js', ...args, '--stdio']);
  return { findings: await edit(3), code: await end() };
}

const well = { findings: 1, code: 0 };

describe('a start', () => {
  it('keeps what it compiled, whole, and the next uses it', async () => {
    expect(await once('--compiled', kept)).toEqual(well);
    const first = readFileSync(kept);
    expect(first.length).toBeGreaterThan(1e6);
    expect(readdirSync(join(folder, 'storage'))).toEqual(['server.compiled']);
    // It would be written anew if it could not be used.
    expect(await once('--compiled', kept)).toEqual(well);
    expect(readFileSync(kept).equals(first)).toBe(true);
  });

  it('writes anew what cannot be used', async () => {
    await once('--compiled', kept);
    const length = readFileSync(kept).length;
    writeFileSync(kept, Buffer.alloc(5000, 7));
    expect(await once('--compiled', kept)).toEqual(well);
    expect(readFileSync(kept).length).toBeGreaterThan(length / 2);
  });

  it('does as well where nothing can be kept, or nobody says where', async () => {
    // A file stands where the folder would be.
    writeFileSync(join(folder, 'storage'), '');
    expect(await once('--compiled', kept)).toEqual(well);
    expect(await once()).toEqual(well);
    expect(readdirSync(folder)).toEqual(['storage']);
  });
});
