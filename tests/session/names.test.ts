/** What follows names beyond the open documents: rename and the symbols of the folders that are open. */
import { describe, expect, it } from 'vitest';
import {
  type CodeAction,
  type Location,
  LSPErrorCodes,
  type ResponseError,
  type SymbolInformation,
  type WorkspaceEdit,
} from 'vscode-languageserver/node';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { analyseInSteps } from '../../server/analysis.ts';
import { listSpecsRequest } from '../../server/session/protocol.ts';
import { connect, pulling, readFrom, type Setting, settle, until, uri } from './client.ts';
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

/** A client whose other spec is read only when the test says so. */
async function readingSlowly() {
  let read = () => {};
  const reading = new Promise<void>((resolve) => {
    read = resolve;
  });
  let asked = false;
  const readFile = async (address: string) => {
    if (address.endsWith('other.amps')) {
      asked = true;
      await reading;
    }
    return readFrom(disk, address);
  };
  const client = await connect({ ...here, environment: { ...here.environment, readFile } });
  return { client, isAsked: () => asked, read: () => read() };
}

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

  it('counts the characters of a closed file without its byte order mark, as an editor does that opens it', async () => {
    const marked = new TextEncoder().encode(`\uFEFF${stock('4 mm²')}`);
    const client = await connect({ ...here, disk: { 'stock.amps': marked } });
    client.open('lamp.amps', lampFromStock);
    const position = at(lampFromStock, 'thin');
    const thin = { start: { line: 0, character: 6 }, end: { line: 0, character: 10 } };
    const edit = await client.ask<WorkspaceEdit>('textDocument/rename', 'lamp.amps', { position, newName: 'lead' });
    expect(edit.changes?.[uri('stock.amps')]).toEqual([{ range: thin, newText: 'lead' }]);
    expect(await client.ask('textDocument/definition', 'lamp.amps', { position })).toEqual([
      { uri: uri('stock.amps'), range: thin },
    ]);
    const symbols = await client.connection.sendRequest<SymbolInformation[]>('workspace/symbol', { query: 'thin' });
    expect(symbols).toMatchObject([{ name: 'thin', location: { range: thin } }]);
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

describe('edits of several files', () => {
  const versioned = {
    ...pulling,
    workspace: { ...pulling.workspace, workspaceEdit: { documentChanges: true } },
  };
  const renaming = { position: at(lampFromStock, 'thin'), newName: 'lead' };

  it('are for the very versions of open documents where the client can tell', async () => {
    const client = await connect({ ...here, capabilities: versioned });
    client.open('lamp.amps', lampFromStock);
    client.change('lamp.amps', { text: lampFromStock });
    const { changes, documentChanges } = await client.ask<WorkspaceEdit>('textDocument/rename', 'lamp.amps', renaming);
    expect(changes).toBeUndefined();
    const edited = (documentChanges ?? []).map((one) => {
      if (!('textDocument' in one)) throw new Error('no edit of a text');
      return [one.textDocument.uri, one.textDocument.version, one.edits.length];
    });
    expect(edited.sort()).toEqual([
      [uri('lamp.amps'), 2, 3],
      [uri('other.amps'), null, 3],
      [uri('stock.amps'), null, 1],
    ]);
  });

  it('of an action are too', async () => {
    const client = await connect({ ...here, capabilities: versioned });
    client.open('lamp.amps', lamp('2,5 mm²'));
    const [action] = await client.ask<CodeAction[]>('textDocument/codeAction', 'lamp.amps', {
      range: { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } },
      context: { diagnostics: [], only: ['source.fixAll'] },
    });
    expect(action?.edit?.documentChanges).toMatchObject([
      { textDocument: { uri: uri('lamp.amps'), version: 1 }, edits: [{ newText: '2.5' }] },
    ]);
  });

  it('are refused when the text changed while they were worked out', async () => {
    const { client, isAsked, read } = await readingSlowly();
    client.open('lamp.amps', lampFromStock);
    const renamed = client.ask<WorkspaceEdit>('textDocument/rename', 'lamp.amps', renaming).then(
      () => 'renamed',
      ({ code }: ResponseError) => code,
    );
    await until('the other file is read', isAsked);
    client.change('lamp.amps', { text: `# One line more\n${lampFromStock}` });
    await client.codes('lamp.amps');
    read();
    expect(await renamed).toBe(LSPErrorCodes.ContentModified);
  });
});

describe('a definition', () => {
  it('is a link for a client that knows links, by its own addresses', async () => {
    const linking = { ...pulling, textDocument: { ...pulling.textDocument, definition: { linkSupport: true } } };
    const position = at(lampFromStock, 'thin');
    const target = { start: { line: 0, character: 6 }, end: { line: 0, character: 10 } };
    const stockUri = 'file:///van/stock%2Eamps';
    const asked = async (method: string) => {
      const client = await connect({ disk, capabilities: linking });
      client.open('lamp.amps', lampFromStock);
      client.open(stockUri, stock('4 mm²'));
      return client.ask(`textDocument/${method}`, 'lamp.amps', { position });
    };
    expect(await asked('definition')).toEqual([
      {
        originSelectionRange: { start: { ...position, character: 10 }, end: { ...position, character: 14 } },
        targetUri: stockUri,
        targetRange: { start: { line: 0, character: 0 }, end: { line: 0, character: stock('4 mm²').trimEnd().length } },
        targetSelectionRange: target,
      },
    ]);
    expect(await asked('declaration')).toEqual([{ uri: stockUri, range: target }]);
  });
});

describe('references', () => {
  const found = async (name: string, text: string, word: string, includeDeclaration = true) => {
    const client = await connect(here);
    client.open(name, text);
    const locations = await client.ask<Location[]>('textDocument/references', name, {
      position: at(text, word),
      context: { includeDeclaration },
    });
    const counts = new Map<string, number>();
    for (const one of locations) counts.set(one.uri, (counts.get(one.uri) ?? 0) + 1);
    expect(client.logged).toEqual([]);
    return [...counts].map(([address, count]) => `${address.replace('file:///van/', '')} ${count}`).sort();
  };

  it('are those of specs that are not open as well, as a rename would change them', async () => {
    expect(await found('stock.amps', stock('4 mm²'), 'thin')).toEqual(['other.amps 3', 'stock.amps 1']);
    expect(await found('lamp.amps', lampFromStock, 'thin', false)).toEqual(['lamp.amps 3', 'other.amps 3']);
    expect(await found('lamp.amps', lampFromStock, 'stock.amps')).toEqual(['lamp.amps 1', 'other.amps 1']);
  });

  it('are looked for only in specs that have the file which declares the name', async () => {
    const worked: string[] = [];
    const whole: string[] = [];
    const client = await connect({
      ...here,
      workings: {
        analyse: function* (...given) {
          worked.push(given[0]);
          const analysis = yield* analyseInSteps(...given);
          whole.push(given[0]);
          return analysis;
        },
      },
    });
    client.open('lamp.amps', lampFromStock);
    const ask = (word: string) =>
      client.ask<Location[]>('textDocument/references', 'lamp.amps', {
        position: at(lampFromStock, word),
        context: { includeDeclaration: true },
      });
    expect(await ask('LAMP')).toHaveLength(3);
    expect(worked).not.toContain(uri('other.amps'));
    expect(await ask('thin')).toHaveLength(7);
    expect(worked).toContain(uri('other.amps'));
    // Nobody waits for the electrics of what is closed.
    await client.codes('lamp.amps');
    await settle();
    expect(whole).toEqual([uri('lamp.amps')]);
  });

  it('leave out what has the same name in a spec of its own', async () => {
    expect(await found('lamp.amps', lampFromStock, 'LAMP')).toEqual(['lamp.amps 3']);
  });

  it('are of the newest text when it changes while they are looked for', async () => {
    const { client, isAsked, read } = await readingSlowly();
    client.open('lamp.amps', lampFromStock);
    const position = { line: 0, character: 0 };
    const asking = client.ask<Location[]>('textDocument/references', 'lamp.amps', {
      position: at(lampFromStock, 'LAMP'),
      context: { includeDeclaration: true },
    });
    await until('the other file is read', isAsked);
    client.change('lamp.amps', { range: { start: position, end: position }, text: 'load FAN  5 W\n' });
    await client.codes('lamp.amps');
    read();
    const text = `load FAN  5 W\n${lampFromStock}`;
    const document = TextDocument.create('', '', 0, text);
    const words = (await asking).map(({ range }) => document.getText(range));
    expect(new Set(words)).toEqual(new Set([words[0]]));
    expect(words[0]).toMatch(/^[\w-]+$/u);
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
    // Systems are found by their title, parts by their name.
    expect((await found('lamp')).sort()).toEqual(['LAMP other.amps', 'Lamp apart.amps', 'Lamp other.amps']);
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

  it('are the nearest of all files first, and those alone of more than anybody reads', async () => {
    const client = await connect({ folder: 'memfs:/van' });
    client.open('a.amps', Array.from({ length: 600 }, (_, n) => `load B1-${n}  1 W\n`).join(''));
    client.open('b.amps', lamp());
    const found = await client.connection.sendRequest<SymbolInformation[]>('workspace/symbol', { query: 'b1' });
    expect(found).toHaveLength(500);
    expect(found[0]).toMatchObject({ name: 'B1', location: { uri: uri('b.amps') } });
  });

  it('are looked for once, and again when files come or go', async () => {
    let looked = 0;
    const names = ['stock.amps', 'sub/other.amps'];
    const client = await connect({
      disk: { ...disk, 'sub/other.amps': lampFromStock },
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
    expect([await found(), await found(), looked]).toEqual([1, 1, 1]);
    names.push('apart.amps');
    client.fileChanged('apart.amps', 1);
    expect([await found(), looked]).toEqual([2, 2]);
    client.fileChanged('notes.txt', 3);
    expect([await found(), looked]).toEqual([2, 2]);
    names.splice(1, 1);
    client.fileChanged('sub', 3);
    expect([await found(), looked]).toEqual([1, 3]);
  });
});
