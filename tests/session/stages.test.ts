/** When the server may be asked, and small clients that say little of what they can do. */
import { describe, expect, it } from 'vitest';
import {
  type CompletionItem,
  type DocumentSymbol,
  type Location,
  type ProtocolConnection,
  ResponseError,
  type SymbolInformation,
} from 'vscode-languageserver/node';
import { completionKinds, symbolKinds } from '../../server/session/kinds-known.ts';
import { Stages } from '../../server/session/stages.ts';
import { connect, pulling } from './client.ts';
import { lamp } from './specs.ts';

const asking = { textDocument: { uri: 'file:///van/lamp.amps' }, position: { line: 3, character: 6 } };
const code = (connection: ProtocolConnection, method: string, params?: object) =>
  connection.sendRequest(method, params).then(
    () => 'answered',
    (error: unknown) => (error instanceof ResponseError ? error.code : error),
  );

describe('a request that does not come at its time', () => {
  it('is refused before the server is initialized, and what is only told is let go', () => {
    const stages = new Stages();
    const heard: object[] = [];
    const tell = (message: object) =>
      stages.handleMessage({ jsonrpc: '2.0', ...message }, (one) => void heard.push(one));
    tell({ id: 1, method: 'textDocument/hover', params: asking });
    tell({ method: 'textDocument/didOpen', params: {} });
    tell({ method: 'exit' });
    tell({ id: 2, method: 'initialize', params: {} });
    tell({ id: 3, method: 'textDocument/hover', params: asking });
    tell({ id: 4, result: null });
    expect(heard).toMatchObject([
      { id: 1, method: 'ampscribe/refused', params: { code: -32002 } },
      { method: 'exit' },
      { id: 2, method: 'initialize' },
      { id: 3, method: 'textDocument/hover' },
      { id: 4, result: null },
    ]);
  });

  it('is refused after shutdown, and so is a second initialize', async () => {
    const client = await connect();
    client.open('lamp.amps', lamp());
    expect(await code(client.connection, 'textDocument/hover', asking)).toBe('answered');
    expect(await code(client.connection, 'initialize', { processId: null, rootUri: null, capabilities: {} })).toBe(
      -32600,
    );
    await client.shutdown();
    expect(await code(client.connection, 'textDocument/hover', asking)).toBe(-32600);
    expect(await code(client.connection, 'shutdown')).toBe(-32600);
    expect(client.logged).toEqual([]);
  });
});

describe('a client that says nothing of folders', () => {
  it('has references, renames and symbols of what it has opened', async () => {
    const client = await connect({ folder: null });
    client.open('lamp.amps', lamp());
    const found = await client.ask<Location[]>('textDocument/references', 'lamp.amps', {
      position: asking.position,
      context: { includeDeclaration: true },
    });
    expect(found.length).toBeGreaterThan(1);
    expect(
      await client.ask('textDocument/rename', 'lamp.amps', { position: asking.position, newName: 'BULB' }),
    ).not.toBeNull();
    const symbols = await client.connection.sendRequest<SymbolInformation[]>('workspace/symbol', { query: 'LAMP' });
    expect(symbols.map(({ name }) => name)).toContain('LAMP');
    expect(client.logged).toEqual([]);
  });
});

describe('kinds of the protocol’s first version', () => {
  const text = `${lamp()}case night sun 0 %, LAMP on\nexpect LAMP voltage at least 11 V in `;
  const whole = Array.from({ length: 26 }, (_, index) => index + 1);
  const kinds = async (valueSet: number[] | undefined) => {
    const client = await connect({
      capabilities: {
        ...pulling,
        textDocument: {
          ...pulling.textDocument,
          ...(valueSet === undefined
            ? {}
            : {
                completion: { completionItemKind: { valueSet: valueSet as never } },
                documentSymbol: {
                  hierarchicalDocumentSymbolSupport: true,
                  symbolKind: { valueSet: valueSet as never },
                },
              }),
        },
        workspace: valueSet === undefined ? {} : { symbol: { symbolKind: { valueSet: valueSet as never } } },
      },
    });
    client.open('lamp.amps', text);
    const position = { line: 99, character: 99 };
    const items = await client.ask<CompletionItem[]>('textDocument/completion', 'lamp.amps', { position });
    const outline = await client.ask<DocumentSymbol[]>('textDocument/documentSymbol', 'lamp.amps');
    const found = await client.connection.sendRequest<SymbolInformation[]>('workspace/symbol', { query: '' });
    const all = [outline.flatMap((one) => [one, ...(one.children ?? [])]), found].map((symbols) =>
      symbols.map(({ kind }) => kind),
    );
    expect(client.logged).toEqual([]);
    return [items.map(({ kind }) => kind ?? 0), ...all];
  };

  it('are all that a client gets which names no others', async () => {
    const few = await kinds(undefined);
    const all = await kinds(whole);
    expect(few.map((some) => some.length)).toEqual(all.map((some) => some.length));
    for (const some of few) expect(Math.max(...some)).toBeLessThanOrEqual(18);
    for (const some of all) expect(Math.max(...some)).toBeGreaterThan(18);
  });

  it('stand for every other one that is used', () => {
    const few = [completionKinds(undefined), symbolKinds([])];
    for (const kindFor of few) expect(kindFor).toBeDefined();
    expect([completionKinds(whole as never), symbolKinds(whole as never)]).toEqual([undefined, undefined]);
  });
});
