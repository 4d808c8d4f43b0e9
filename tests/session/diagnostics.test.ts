import { describe, expect, it } from 'vitest';
import { connect, pulling, pushed, readFrom, settle, until, uri } from './client.ts';
import { lamp, lampFromPiece, lampFromStock, piece, stock } from './specs.ts';

const withoutWatching = (capabilities: typeof pushed) => ({ ...capabilities, workspace: {} });

describe('findings', () => {
  it('are pulled by a client that pulls, and never pushed to it', async () => {
    const client = await connect({ capabilities: pulling });
    expect(client.result?.capabilities.diagnosticProvider).toEqual({
      identifier: 'ampscribe',
      interFileDependencies: true,
      workspaceDiagnostics: false,
    });
    client.open('lamp.amps', lamp('0.5 mm²'));
    expect(await client.codes('lamp.amps')).toContain('cable-too-small');
    client.change('lamp.amps', { text: lamp() });
    expect(await client.codes('lamp.amps')).toEqual([]);
    client.close('lamp.amps');
    await settle();
    expect(client.published).toEqual([]);
  });

  it('are pushed to a client that does not pull, and cannot be pulled', async () => {
    const client = await connect({ capabilities: pushed });
    expect(client.result?.capabilities.diagnosticProvider).toBeUndefined();
    client.open('lamp.amps', lamp('0.5 mm²'));
    await until('findings come', () => client.published.length > 0);
    expect(client.newest('lamp.amps')).toMatchObject({ uri: uri('lamp.amps'), version: 1 });
    expect(client.newest('lamp.amps')?.diagnostics.map(({ code }) => code)).toContain('cable-too-small');
    client.change('lamp.amps', { text: lamp() });
    await until('findings go', () => client.newest('lamp.amps')?.version === 2);
    expect(client.newest('lamp.amps')?.diagnostics).toEqual([]);
    await settle();
    // One message a version: what was true already is not said again.
    expect(client.published.map(({ version }) => version)).toEqual([1, 2]);
    expect(client.refreshes).toBe(0);
    await expect(client.pull('lamp.amps')).rejects.toThrow();
  });

  it('reach both clients alike', async () => {
    const pulls = await connect({ capabilities: pulling });
    const pushes = await connect({
      capabilities: { textDocument: { publishDiagnostics: pulling.textDocument?.publishDiagnostics ?? {} } },
    });
    const text = `${lamp('0.5 mm²')}allow drop-over-limit on W9 "no such run"\n`;
    pulls.open('lamp.amps', text);
    pushes.open('lamp.amps', text);
    await until('findings come', () => pushes.published.length > 0);
    const pulled = await pulls.items('lamp.amps');
    expect(pulled.length).toBeGreaterThan(1);
    expect(pushes.newest('lamp.amps')?.diagnostics).toEqual(pulled);
  });

  it('are not sent again to a client that holds them', async () => {
    const client = await connect();
    client.open('lamp.amps', lamp('0.5 mm²'));
    const first = await client.pull('lamp.amps');
    expect(first).toMatchObject({ kind: 'full', resultId: expect.any(String) });
    const again = await client.pull('lamp.amps', first.resultId);
    expect(again).toEqual({ kind: 'unchanged', resultId: first.resultId });
    client.change('lamp.amps', { text: lamp('0.75 mm²') });
    expect((await client.pull('lamp.amps', first.resultId)).kind).toBe('full');
  });

  it('end with the document: a closed one shows none', async () => {
    const client = await connect({ capabilities: pushed });
    client.open('lamp.amps', lamp('0.5 mm²'));
    await until('findings come', () => (client.newest('lamp.amps')?.diagnostics.length ?? 0) > 0);
    client.close('lamp.amps');
    await until('findings go', () => client.newest('lamp.amps')?.diagnostics.length === 0);
    await settle();
    expect(client.newest('lamp.amps')?.diagnostics).toEqual([]);
  });

  it('of a document closed while they are worked out are not shown', async () => {
    const client = await connect({ capabilities: pushed });
    client.open('lamp.amps', lamp('0.5 mm²'));
    client.close('lamp.amps');
    await settle();
    expect(client.newest('lamp.amps')?.diagnostics).toEqual([]);
  });

  it('of a document closed while its files are read are not shown, and it uses nothing any more', async () => {
    const text = `use "slow.amps"\n${lampFromPiece}`;
    const disk = { 'slow.amps': stock('4 mm²'), 'lamp.amps': text };
    const reading: (() => void)[] = [];
    const client = await connect({
      capabilities: pushed,
      environment: {
        readFile: (address) =>
          address.endsWith('slow.amps')
            ? new Promise((resolve) => {
                reading.push(() => resolve(readFrom(disk, address)));
              })
            : Promise.resolve(readFrom(disk, address)),
      },
    });
    const whole = () =>
      client.newest('parts.amps')?.diagnostics.some(({ code }) => code === 'terminal-unconnected') === true;
    client.open('parts.amps', piece);
    await until('it is checked whole', whole);
    client.open('lamp.amps', text);
    await until('the slow file is asked for', () => reading.length > 0);
    client.close('lamp.amps');
    await until('its findings are cleared', () => client.newest('lamp.amps') !== undefined);
    for (const answer of reading) answer();
    await settle();
    expect(client.published.filter((one) => one.uri === uri('lamp.amps'))).toEqual([
      { uri: uri('lamp.amps'), diagnostics: [] },
    ]);
    client.change('parts.amps', { text: `${piece}# more\n` });
    await until('the edit is told of', () => client.newest('parts.amps')?.version === 2);
    expect(whole()).toBe(true);
  });

  it('are those of the last of many edits', async () => {
    const client = await connect({ capabilities: pushed });
    client.open('lamp.amps', lamp());
    for (let n = 0; n < 20; n += 1) client.change('lamp.amps', { text: lamp(n % 2 === 0 ? '0.5 mm²' : '4 mm²') });
    await until('the last is told of', () => client.newest('lamp.amps')?.version === 21);
    expect(client.newest('lamp.amps')?.diagnostics).toEqual([]);
    expect(client.published.map(({ version }) => version)).toEqual(
      [...client.published.map(({ version }) => version)].sort((a, b) => (a ?? 0) - (b ?? 0)),
    );
  });

  it('open their page at the address the process or the client gives', async () => {
    const own = await connect();
    own.open('lamp.amps', lamp('0.5 mm²'));
    const [first] = await own.items('lamp.amps');
    expect(first?.codeDescription?.href).toBe(`file:///pages/${first?.code}.md`);
    const told = await connect({ options: { pages: 'ampscribe-page:/' } });
    told.open('lamp.amps', lamp('0.5 mm²'));
    const [second] = await told.items('lamp.amps');
    expect(second?.codeDescription?.href).toBe(`ampscribe-page:/${second?.code}.md`);
    const none = await connect({ environment: { pageUri: () => undefined }, options: { pages: 7 } });
    none.open('lamp.amps', lamp('0.5 mm²'));
    const [third] = await none.items('lamp.amps');
    expect(third?.code).toBe(first?.code);
    expect(third).not.toHaveProperty('codeDescription');
  });

  it('count a carriage return alone as a line end, as edits do', async () => {
    const client = await connect();
    client.open('lamp.amps', '# a\rload B 3 W\nload C 4 Q\nload D 5 Q\n');
    const lines = async () =>
      (await client.items('lamp.amps'))
        .filter(({ message }) => String(message).includes('“Q”'))
        .map(({ range }) => range.start.line);
    expect(await lines()).toEqual([2, 3]);
    const at = { line: 2, character: 9 };
    client.change('lamp.amps', { range: { start: at, end: { ...at, character: 10 } }, text: 'W' });
    expect(await lines()).toEqual([3]);
  });

  it('of a document nobody opened are none', async () => {
    const client = await connect({ disk: { 'lamp.amps': lamp('0.5 mm²') } });
    expect(await client.pull('lamp.amps')).toEqual({ kind: 'full', items: [] });
  });
});

describe('a used file', () => {
  const disk = () => ({ 'stock.amps': stock('4 mm²') });

  it('is read from the disk', async () => {
    const client = await connect({ disk: disk() });
    client.open('lamp.amps', lampFromStock);
    expect(await client.codes('lamp.amps')).toEqual([]);
    expect(client.readForServer).toEqual([]);
  });

  it('is read by the client for a server without a disk, once', async () => {
    const client = await connect({ disk: disk(), clientReads: true });
    client.open('lamp.amps', lampFromStock);
    expect(await client.codes('lamp.amps')).toEqual([]);
    client.change('lamp.amps', { text: `${lampFromStock}\n` });
    expect(await client.codes('lamp.amps')).toEqual([]);
    expect(client.readForServer).toEqual([uri('stock.amps')]);
  });

  it('is read by the client where this process cannot reach it', async () => {
    const client = await connect({ disk: disk(), environment: { readFile: async () => undefined } });
    client.open('lamp.amps', lampFromStock);
    expect(await client.codes('lamp.amps')).toEqual([]);
    expect(client.readForServer).toEqual([uri('stock.amps')]);
  });

  it('that changes on the disk changes the findings of its users', async () => {
    const files = disk();
    const client = await connect({ disk: files });
    client.open('lamp.amps', lampFromStock);
    expect(await client.codes('lamp.amps')).toEqual([]);
    expect(client.registered).toEqual(['workspace/didChangeWatchedFiles']);
    files['stock.amps'] = stock('0.5 mm²');
    client.fileChanged('stock.amps');
    await until('the client is asked to pull', () => client.refreshes > 0);
    expect(await client.codes('lamp.amps')).toContain('cable-too-small');
  });

  it('is missing once its folder is gone, and there again with it, though the client tells of the folder alone', async () => {
    const there = { 'sub/deep/stock.amps': stock('4 mm²') };
    const files: Record<string, string> = { ...there };
    const client = await connect({ disk: files });
    client.open('lamp.amps', lampFromStock.replace('stock.amps', 'sub/deep/stock.amps'));
    const { resultId } = (await client.pull('lamp.amps')) as { resultId: string };
    // Whatever is deleted may be a folder.
    expect(client.watchers).toEqual([
      { globPattern: '**/*.amps', kind: 3 },
      { globPattern: '**/*', kind: 4 },
    ]);
    // Folders whose names begin alike hold other files.
    for (const other of ['su', 'sub/dee', 'deep']) client.fileChanged(other, 3);
    expect(await client.pull('lamp.amps', resultId)).toMatchObject({ kind: 'unchanged' });
    delete files['sub/deep/stock.amps'];
    client.fileChanged('sub', 3);
    await until('the client is asked to pull', () => client.refreshes > 0);
    expect(await client.codes('lamp.amps')).toEqual(['use-missing']);
    Object.assign(files, there);
    client.fileChanged('sub', 1);
    expect(await client.codes('lamp.amps')).toEqual([]);
  });

  it('that changes in the editor changes the findings of its users, open text before the disk', async () => {
    const client = await connect({ disk: disk(), capabilities: pushed });
    client.open('lamp.amps', lampFromStock);
    await until('clean', () => client.newest('lamp.amps')?.diagnostics.length === 0);
    client.open('stock.amps', stock('0.5 mm²'));
    const codes = () => client.newest('lamp.amps')?.diagnostics.map(({ code }) => code);
    await until('findings come', () => codes()?.includes('cable-too-small') === true);
    // What is written to the disk meanwhile does not count while the editor holds another text.
    const told = client.published.length;
    client.fileChanged('stock.amps');
    await settle();
    expect(codes()).toContain('cable-too-small');
    expect(client.published).toHaveLength(told);
    client.change('stock.amps', { text: stock('4 mm²') });
    await until('findings go', () => codes()?.length === 0);
    client.change('stock.amps', { text: stock('0.5 mm²') });
    await until('findings come again', () => codes()?.includes('cable-too-small') === true);
    client.close('stock.amps');
    await until('the disk counts again', () => codes()?.length === 0);
  });

  it('is read anew at every saving for a client that does not say when files change', async () => {
    const files = disk();
    const client = await connect({ disk: files, capabilities: withoutWatching(pushed) });
    expect(client.result?.capabilities.textDocumentSync).toMatchObject({ save: { includeText: false } });
    client.open('lamp.amps', lampFromStock);
    await until('clean', () => client.newest('lamp.amps')?.diagnostics.length === 0);
    files['stock.amps'] = stock('0.5 mm²');
    void client.connection.sendNotification('textDocument/didSave', { textDocument: { uri: uri('lamp.amps') } });
    await until('findings come', () => (client.newest('lamp.amps')?.diagnostics.length ?? 0) > 0);
    expect(client.registered).toEqual([]);
  });

  it('that is missing gives one finding, which says so; it goes when the file comes', async () => {
    const files: Record<string, string> = {};
    const client = await connect({ disk: files });
    client.open('lamp.amps', lampFromStock);
    const [only, ...more] = await client.items('lamp.amps');
    expect(more).toEqual([]);
    expect(only).toMatchObject({
      code: 'use-missing',
      range: { start: { line: 0, character: 4 }, end: { line: 0, character: 16 } },
    });
    expect(only?.message).toContain('stock.amps');
    expect(only?.message).toContain('there is no such file');
    files['stock.amps'] = stock('4 mm²');
    client.fileChanged('stock.amps', 1);
    await until('the client is asked to pull', () => client.refreshes > 0);
    expect(await client.codes('lamp.amps')).toEqual([]);
  });

  it('that is not UTF-8 gives one finding, which says so', async () => {
    const client = await connect({ disk: { 'stock.amps': Uint8Array.of(0x73, 0x74, 0xb0, 0xff) } });
    client.open('lamp.amps', lampFromStock);
    const [only, ...more] = await client.items('lamp.amps');
    expect(more).toEqual([]);
    expect(only?.code).toBe('use-missing');
    expect(only?.message).toBe('“stock.amps” cannot be used, since it is not UTF-8 text: save it as UTF-8.');
  });

  it.each([
    ['a folder', { code: 'EISDIR' }, 'it is a folder'],
    [
      'forbidden',
      { code: 'NoPermissions' },
      '“stock.amps” cannot be used, since its permissions forbid reading it: change them.',
    ],
    ['broken', new Error('EIO: a long tale\n    at trace'), 'it could not be read'],
  ])('that is %s gives one finding in plain words', async (_, error, words) => {
    const client = await connect({ environment: { readFile: () => Promise.reject(error) } });
    client.open('lamp.amps', lampFromStock);
    const [only, ...more] = await client.items('lamp.amps');
    expect(more).toEqual([]);
    expect(only?.message).toContain(words);
    expect(only?.message).not.toContain('\n');
  });

  it('may be several deep, and use its user', async () => {
    const client = await connect({
      disk: { 'stock.amps': 'use "deep/more.amps"\n', 'deep/more.amps': stock('4 mm²') },
    });
    client.open('lamp.amps', lampFromStock);
    expect(await client.codes('lamp.amps')).toEqual([]);
    const round = await connect({ disk: { 'stock.amps': `use "lamp.amps"\n${stock('4 mm²')}` } });
    round.open('lamp.amps', lampFromStock);
    expect(await round.codes('lamp.amps')).toEqual(['circle-of-use']);
  });

  it('without a system of its own is checked for its language alone, while an open spec uses it', async () => {
    const client = await connect({ capabilities: pushed });
    const codes = () => client.newest('parts.amps')?.diagnostics.map(({ code }) => code);
    const whole = () => codes()?.includes('terminal-unconnected') === true;
    client.open('parts.amps', piece.replace('80 Ah', '80,5 Ah'));
    await until('it is checked whole', whole);
    expect(codes()).toContain('decimal-comma');
    client.open('lamp.amps', lampFromPiece);
    await until('it is a piece', () => !whole());
    expect(codes()).toEqual(['decimal-comma']);
    client.change('lamp.amps', { text: lampFromPiece.replace('parts', 'other') });
    await until('it is whole again', whole);
    client.change('lamp.amps', { text: lampFromPiece });
    await until('it is a piece again', () => !whole());
    client.close('lamp.amps');
    await until('its user is closed', whole);
  });

  it('that others begin to use makes a pulling client pull again', async () => {
    const client = await connect();
    client.open('parts.amps', piece);
    expect(await client.codes('parts.amps')).toContain('terminal-unconnected');
    client.open('lamp.amps', lampFromPiece);
    expect(await client.codes('lamp.amps')).toEqual([]);
    await until('the client is asked to pull', () => client.refreshes > 0);
    expect(await client.codes('parts.amps')).toEqual([]);
  });

  it('has its related places under the address the client knows it by', async () => {
    const client = await connect();
    const written = 'file:///van/stock%2Eamps';
    client.open(written, `${stock('4 mm²')}fuse F9  4 volts\n`);
    client.open('lamp.amps', lampFromStock);
    const items = await client.items('lamp.amps');
    const places = items.flatMap(({ relatedInformation = [] }) =>
      relatedInformation.map(({ location }) => location.uri),
    );
    expect(places.filter((place) => place.includes('stock'))).not.toEqual([]);
    expect(places.filter((place) => place.includes('stock') && place !== written)).toEqual([]);
    const position = { line: lampFromStock.split('\n').findIndex((line) => line.includes('= thin')), character: 11 };
    expect(await client.ask('textDocument/definition', 'lamp.amps', { position })).toMatchObject([{ uri: written }]);
  });
});
