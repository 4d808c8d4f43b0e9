/** What is shown beside the text, over the protocol: tokens by what changed, hints and lenses as settings say. */
import { describe, expect, it } from 'vitest';
import type {
  CallHierarchyIncomingCall,
  CallHierarchyItem,
  CallHierarchyOutgoingCall,
  CodeLens,
  InlayHint,
  SemanticTokens,
  SemanticTokensDelta,
} from 'vscode-languageserver/node';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { showCaseCommand, showFindingsCommand } from '../../server/session/protocol.ts';
import { connect, pulling, settle, type TestClient, until, uri } from './client.ts';
import { lamp, lampFromPiece, lampFromStock, piece, stock } from './specs.ts';

const range = { start: { line: 0, character: 0 }, end: { line: 100, character: 0 } };
const at = (text: string, word: string) => TextDocument.create('', '', 0, text).positionAt(text.indexOf(word) + 1);
const hints = (client: TestClient, name = 'lamp.amps') =>
  client.ask<InlayHint[]>('textDocument/inlayHint', name, { range });
const lenses = (client: TestClient) => client.ask<CodeLens[]>('textDocument/codeLens', 'lamp.amps');

describe('semantic tokens', () => {
  const full = (client: TestClient) => client.ask<SemanticTokens>('textDocument/semanticTokens/full', 'lamp.amps');
  const delta = (client: TestClient, previousResultId = '') =>
    client.ask<SemanticTokens | SemanticTokensDelta>('textDocument/semanticTokens/full/delta', 'lamp.amps', {
      previousResultId,
    });

  it('come as what changed, and whole for one who holds others', async () => {
    const client = await connect();
    client.open('lamp.amps', lamp());
    const before = await full(client);
    expect(before.data.length).toBeGreaterThan(100);
    client.change('lamp.amps', { text: lamp().replace('24 W', '240 W') });
    const change = (await delta(client, before.resultId)) as SemanticTokensDelta;
    const [edit, ...more] = change.edits;
    expect(more).toEqual([]);
    expect(edit?.data?.length ?? 0).toBeLessThan(10);
    const after = [...before.data];
    after.splice(edit?.start ?? 0, edit?.deleteCount ?? 0, ...(edit?.data ?? []));
    expect(after).toEqual((await full(client)).data);
    // That name is old now.
    expect(await delta(client, before.resultId)).toMatchObject({ data: after });
    const newest = await full(client);
    expect(await delta(client, newest.resultId)).toMatchObject({ edits: [] });
  });
});

describe('hints and lenses', () => {
  it('are shown as the settings say, and anew when these change', async () => {
    const client = await connect({
      capabilities: {
        ...pulling,
        workspace: {
          ...pulling.workspace,
          inlayHint: { refreshSupport: true },
          codeLens: { refreshSupport: true },
          semanticTokens: { refreshSupport: true },
        },
      },
    });
    const refreshed: string[] = [];
    for (const what of ['inlayHint', 'codeLens', 'semanticTokens'])
      client.connection.onRequest(`workspace/${what}/refresh`, () => {
        refreshed.push(what);
        return null;
      });
    const change = (settings: object) =>
      client.connection.sendNotification('workspace/didChangeConfiguration', { settings });
    client.open('lamp.amps', lamp());
    expect((await hints(client)).map(({ label }) => String(label).replaceAll(/[\d.]+/gu, '#'))).toEqual([
      '# A of # A, # V lost',
      '# A of # A, # V lost',
      '# A of # A, # V lost',
    ]);
    expect((await lenses(client)).length).toBeGreaterThan(0);
    await change({ hints: { runs: false }, lenses: false });
    await until('asked to ask again', () => refreshed.length >= 3);
    expect([...new Set(refreshed)].sort()).toEqual(['codeLens', 'inlayHint', 'semanticTokens']);
    expect(await hints(client)).toEqual([]);
    expect(await lenses(client)).toEqual([]);
    await change({ hints: { runs: 'yes please' } });
    expect(await hints(client)).toHaveLength(3);
    expect(client.logged).toEqual([]);
  });

  it('follow a file that the spec uses', async () => {
    const disk = { 'stock.amps': stock('4 mm²') };
    const client = await connect({ disk });
    client.open('lamp.amps', lampFromStock);
    const before = await hints(client);
    client.open('stock.amps', stock('16 mm²'));
    const after = await hints(client);
    expect(after).toHaveLength(before.length);
    expect(after).not.toEqual(before);
  });

  it('offer a command only where the client has it', async () => {
    const short = lamp('0.5 mm²').replace('load LAMP', 'load IDLE  5 W\nload LAMP');
    const found = async (options: object) => {
      const client = await connect({ options });
      client.open('lamp.amps', short);
      return (await lenses(client)).filter(({ command }) => command?.title.includes('finding'));
    };
    expect((await found({ commands: [showFindingsCommand] })).map(({ command }) => command?.command)).toEqual([
      showFindingsCommand,
    ]);
    expect((await found({})).map(({ command }) => command?.command)).toEqual(['']);
  });

  it('show a case in the picture where the client can, by its own address', async () => {
    const client = await connect({ options: { commands: [showCaseCommand] } });
    const spaced = 'file:///van/my%2Dlamp.amps';
    client.open(spaced, `${lamp()}case night  LAMP on\n`);
    const found = await client.ask<CodeLens[]>('textDocument/codeLens', spaced);
    expect(found.filter(({ command }) => command?.command === showCaseCommand)).toMatchObject([
      { command: { title: 'Show this case in the picture', arguments: [spaced, 'night'] } },
    ]);
  });

  it('do not ask a client again that cannot', async () => {
    const client = await connect();
    client.open('lamp.amps', lamp());
    await hints(client);
    await client.connection.sendNotification('workspace/didChangeConfiguration', { settings: { lenses: false } });
    await settle();
    expect(client.logged).toEqual([]);
  });
});

describe('supply', () => {
  it('is followed from file to file, each under the address of the client', async () => {
    const client = await connect({ disk: { 'parts.amps': piece } });
    const spaced = 'file:///van/my%2Dlamp.amps';
    client.open(spaced, lampFromPiece);
    const [lampItem] = await client.ask<CallHierarchyItem[]>('textDocument/prepareCallHierarchy', spaced, {
      position: at(lampFromPiece, 'LAMP'),
    });
    expect(lampItem).toMatchObject({ name: 'LAMP', uri: spaced });
    const calls = (item: unknown) =>
      client.connection.sendRequest<CallHierarchyIncomingCall[]>('callHierarchy/incomingCalls', { item });
    const [fuse, ...none] = await calls(lampItem);
    expect(none).toEqual([]);
    expect(fuse?.from).toMatchObject({ name: 'F1', uri: uri('parts.amps') });
    expect(fuse?.from.detail).toMatch(/^fuse, by W2 red, [\d.]+ A, protected by F1 \(20 A\)$/);
    expect((await calls(fuse?.from)).map(({ from }) => from.name)).toEqual(['B1']);
    const onward = await client.connection.sendRequest<CallHierarchyOutgoingCall[]>('callHierarchy/outgoingCalls', {
      item: { ...fuse?.from, data: { spec: spaced, name: 'F1' } },
    });
    expect(onward.map(({ to }) => [to.name, to.uri])).toEqual([['LAMP', spaced]]);
    expect(client.logged).toEqual([]);
  });

  it.each([
    [undefined],
    [null],
    ['F1'],
    [{ spec: 7 }],
    [{ spec: 'x', name: 'F1', by: 1 }],
    [{ spec: 'x', name: 'F1' }],
  ])('of an item that is none of ours (%j) is empty', async (data) => {
    const client = await connect();
    client.open('lamp.amps', lamp());
    const item = { name: 'F1', kind: 1, uri: uri('lamp.amps'), range, selectionRange: range, data };
    for (const calls of ['incomingCalls', 'outgoingCalls'])
      expect(await client.connection.sendRequest(`callHierarchy/${calls}`, { item })).toEqual([]);
    expect(client.logged).toEqual([]);
  });
});
