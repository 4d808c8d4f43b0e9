/** What follows names beyond the open documents: rename and the symbols of the folders that are open. */
import { describe, expect, it } from 'vitest';
import type { SymbolInformation, WorkspaceEdit } from 'vscode-languageserver/node';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { listSpecsRequest } from '../../server/session/protocol.ts';
import { connect, pulling, type Setting, uri } from './client.ts';
import { lamp, lampFromStock, stock } from './specs.ts';

const at = (text: string, word: string) => TextDocument.create('', '', 0, text).positionAt(text.indexOf(word) + 1);
const disk = { 'stock.amps': stock('4 mm²'), 'other.amps': lampFromStock, 'apart.amps': lamp() };
const here: Setting = {
  disk,
  folder: 'file:///van',
  environment: {
    specsIn: async (folder) => (folder === 'file:///van' ? Object.keys(disk).map((name) => uri(name)) : undefined),
  },
};
const preparing = { ...pulling, textDocument: { ...pulling.textDocument, rename: { prepareSupport: true } } };

describe('rename', () => {
  it('changes what is open and what is not, under the addresses of the client', async () => {
    const client = await connect(here);
    const spaced = 'file:///van/my%2Dlamp.amps';
    client.open(spaced, lampFromStock);
    const edit = await client.ask<WorkspaceEdit>('textDocument/rename', spaced, {
      position: at(lampFromStock, 'thin'),
      newName: 'lead',
    });
    const counts = Object.entries(edit.changes ?? {}).map(([address, edits]) => [address, edits.length]);
    expect(counts.sort()).toEqual([
      [spaced, 3],
      [uri('other.amps'), 3],
      [uri('stock.amps'), 1],
    ]);
    expect(client.logged).toEqual([]);
  });

  it('asks the client for specs that the server cannot look for', async () => {
    const client = await connect({ disk, clientReads: true, folder: 'memfs:/van' });
    let asked = 0;
    client.connection.onRequest(listSpecsRequest, () => {
      asked += 1;
      return Object.keys(disk).map((name) => uri(name));
    });
    client.open('stock.amps', stock('4 mm²'));
    const edit = await client.ask<WorkspaceEdit>('textDocument/rename', 'stock.amps', {
      position: at(stock(''), 'thin'),
      newName: 'lead',
    });
    expect(asked).toBe(1);
    expect(Object.keys(edit.changes ?? {}).sort()).toEqual([uri('other.amps'), uri('stock.amps')]);
  });

  it('that is refused says why, and nothing goes to the log', async () => {
    const client = await connect({ ...here, capabilities: preparing });
    expect(client.result?.capabilities.renameProvider).toEqual({ prepareProvider: true });
    client.open('lamp.amps', lamp());
    const ask = (newName: string) =>
      client.ask('textDocument/rename', 'lamp.amps', { position: at(lamp(), 'F1'), newName });
    await expect(ask('LAMP')).rejects.toThrow('“LAMP” is the name of a load already: choose another.');
    await expect(ask('sun')).rejects.toThrow('“sun” is a word of the notation');
    const position = at(lamp(), 'F1:in');
    const terminal = { line: position.line, character: position.character + 3 };
    await expect(client.ask('textDocument/prepareRename', 'lamp.amps', { position: terminal })).rejects.toThrow(
      'F1:in is named as a fuse has it marked',
    );
    expect(await client.ask('textDocument/prepareRename', 'lamp.amps', { position: at(lamp(), 'F1') })).toMatchObject({
      placeholder: 'F1',
    });
    expect(client.logged).toEqual([]);
  });
});

describe('the symbols of the workspace', () => {
  it('are those of every spec in the open folders, as open ones are now', async () => {
    const client = await connect(here);
    client.open('apart.amps', lamp().replace('load LAMP', 'load TORCH'));
    const found = async (query: string) =>
      (await client.connection.sendRequest<SymbolInformation[]>('workspace/symbol', { query })).map(
        ({ name, location }) => `${name} ${location.uri.replace('file:///van/', '')}`,
      );
    expect(await found('thin')).toEqual(['thin stock.amps']);
    expect(await found('lamp')).toEqual(['LAMP other.amps']);
    expect(await found('torch')).toEqual(['TORCH apart.amps']);
    expect(client.logged).toEqual([]);
  });

  it('are those of the open documents where nobody can look into folders', async () => {
    const client = await connect({ folder: 'memfs:/van' });
    client.open('lamp.amps', lamp());
    const found = await client.connection.sendRequest<SymbolInformation[]>('workspace/symbol', { query: 'W' });
    expect(found.map(({ name }) => name)).toEqual(['W1', 'W2', 'W3']);
    expect(client.logged).toEqual([]);
  });

  it('are looked for once, and again when files come or go', async () => {
    let looked = 0;
    const names = ['stock.amps'];
    const client = await connect({
      disk,
      folder: 'file:///van',
      environment: {
        specsIn: async () => {
          looked += 1;
          return names.map((name) => uri(name));
        },
      },
    });
    const found = async () =>
      (await client.connection.sendRequest<SymbolInformation[]>('workspace/symbol', { query: 'B1' })).length;
    expect([await found(), await found(), looked]).toEqual([0, 0, 1]);
    names.push('apart.amps');
    client.fileChanged('apart.amps', 1);
    expect([await found(), looked]).toEqual([1, 2]);
  });
});
