/** Files that are moved or renamed: the specs that use them are told where they are, and they themselves what they use. */
import { describe, expect, it } from 'vitest';
import type { WorkspaceEdit } from 'vscode-languageserver/node';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { connect, pulling, uri } from './client.ts';

const capabilities = { ...pulling, workspace: { ...pulling.workspace, fileOperations: { willRename: true } } };

/** What each spec says once files are moved: those of `disk`, all but `open` closed. */
async function moved(disk: Record<string, string>, moves: readonly (readonly [string, string])[], open: string[] = []) {
  const client = await connect({
    capabilities,
    disk,
    folder: 'file:///van',
    environment: { specsIn: async () => Object.keys(disk).map((name) => uri(name)) },
  });
  for (const name of open) client.open(name, disk[name] ?? '');
  const edit = await client.connection.sendRequest<WorkspaceEdit | null>('workspace/willRenameFiles', {
    files: moves.map(([from, to]) => ({ oldUri: uri(from), newUri: uri(to) })),
  });
  expect(client.logged).toEqual([]);
  const after = Object.entries(edit?.changes ?? {}).map(([address, edits]) => {
    const name = decodeURIComponent(address.replace('file:///van/', ''));
    return [name, TextDocument.applyEdits(TextDocument.create('', '', 0, disk[name] ?? ''), edits)];
  });
  return Object.fromEntries(after) as Record<string, string>;
}

const disk = {
  'stock.amps': 'stock thin  cable 4 mm²\n',
  'van.amps': '# "stock.amps" is named\nuse "stock.amps"  # "stock.amps"\nuse "galley/sink.amps"\nsystem "Van" 12 V\n',
  'galley/sink.amps': 'use "./tap.amps"\r\nuse "../stock.amps"\r\n',
  'galley/tap.amps': 'load TAP  9 W\n',
  'apart.amps': 'use "nowhere.amps"\nload LAMP  9 W\n',
};

describe('the paths of use', () => {
  it('are asked for by clients that tell before they move a file', async () => {
    const { result } = await connect({ capabilities });
    expect(result?.capabilities.workspace?.fileOperations?.willRename?.filters).toEqual([
      { pattern: { glob: '**/*.amps', matches: 'file' } },
      { pattern: { glob: '**', matches: 'folder' } },
    ]);
    const other = await connect();
    expect(other.result?.capabilities.workspace?.fileOperations).toBeUndefined();
  });

  it('follow a file that is renamed, in open specs and in others', async () => {
    expect(await moved(disk, [['stock.amps', 'my store.amps']], ['van.amps'])).toEqual({
      'van.amps': disk['van.amps'].replace('use "stock', 'use "my store'),
      'galley/sink.amps': disk['galley/sink.amps'].replace('stock', 'my store'),
    });
  });

  it('are written anew in a file that moves, where they would lead elsewhere', async () => {
    expect(await moved(disk, [['galley/sink.amps', 'wash/deep/sink.amps']])).toEqual({
      'van.amps': disk['van.amps'].replace('galley/', 'wash/deep/'),
      'galley/sink.amps': 'use "../../galley/tap.amps"\r\nuse "../../stock.amps"\r\n',
    });
  });

  it('stay in files that move together', async () => {
    expect(await moved(disk, [['galley', 'kitchen']])).toEqual({
      'van.amps': disk['van.amps'].replace('galley/', 'kitchen/'),
    });
  });

  it('lead to a file that is missing yet and comes', async () => {
    expect(await moved(disk, [['other.amps', 'nowhere.amps']])).toEqual({});
  });

  it('are nothing of a move that concerns no spec', async () => {
    expect(await moved(disk, [['notes.txt', 'old/notes.txt']])).toEqual({});
    expect(await moved(disk, [['gall', 'x']])).toEqual({});
  });
});
