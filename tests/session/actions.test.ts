/** Code actions over the protocol: offered without their edits to a client that asks for those, and never for another text. */
import { describe, expect, it } from 'vitest';
import type { CodeAction, TextEdit } from 'vscode-languageserver/node';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { TextInBlocks } from '../../grammar/text-in-blocks.ts';
import { features } from '../../server/session/features.ts';
import { connect, pulling, type TestClient } from './client.ts';
import { lamp, lampFromPiece, piece } from './specs.ts';

const lazy = {
  ...pulling,
  textDocument: {
    ...pulling.textDocument,
    codeAction: { dataSupport: true, resolveSupport: { properties: ['edit'] } },
  },
};
const name = 'file:///van/my%2Dlamp.amps';
const place = (text: string, word: string) => {
  const start = TextDocument.create('', '', 0, text).positionAt(text.indexOf(word));
  return { start, end: start };
};
const ask = (client: TestClient, text: string, word: string, only: string[]) =>
  client.ask<CodeAction[]>('textDocument/codeAction', name, {
    range: place(text, word),
    context: { diagnostics: [], only },
  });
const resolve = (client: TestClient, action: CodeAction | undefined) =>
  client.connection.sendRequest<CodeAction>('codeAction/resolve', action);
const applied = (text: string, action: CodeAction | undefined) =>
  TextDocument.applyEdits(TextDocument.create(name, '', 1, text), action?.edit?.changes?.[name] as TextEdit[]);

/** Each kind of action with a text that has it, and the words where. */
const offers: readonly (readonly [string, string, string])[] = [
  ['refactor.extract.stock', lamp('4 mm²'), 'W2'],
  ['refactor.rewrite.size', lamp('4 mm²'), '4 mm²'],
  ['refactor.rewrite.isolator', lamp('4 mm²'), 'W2'],
  ['refactor.inline.stock', `stock thin  cable 4 mm²\n${lamp('4 mm²').replace('W2  4 mm²', 'W2  = thin')}`, '= thin'],
  ['source.sort.ampscribe', `load LATE  9 W\n${lamp('4 mm²')}`, 'load'],
  ['source.fixAll.ampscribe', lamp('2,5 mm²'), 'W2'],
];

describe('a used file that is not there', () => {
  const specs = ['stock.amps', 'old/stock.amps', 'rack.amps'].map((one) => `file:///van/${one}`);
  const titles = async (path: string, environment: object) => {
    const client = await connect({ folder: 'file:///van', environment });
    const text = `use "${path}"\nload LAMP 9 W\n`;
    client.open(name, text);
    await client.items(name);
    const actions = await ask(client, text, path, ['quickfix']);
    expect(client.logged).toEqual([]);
    return actions.map((one) => [one.title, applied(text, one).split('\n')[0]]);
  };

  it('is mended to one of nearly its name, or of its name in another folder', async () => {
    const environment = { specsIn: async () => specs };
    expect(await titles('stok.amps', environment)).toEqual([
      ['Write “old/stock.amps”, which is there', 'use "old/stock.amps"'],
      ['Write “stock.amps”, which is there', 'use "stock.amps"'],
    ]);
    expect(await titles('sub/rack.amps', environment)).toEqual([
      ['Write “rack.amps”, which is there', 'use "rack.amps"'],
    ]);
    expect(await titles('./rak', environment)).toEqual([['Write “./rack.amps”, which is there', 'use "./rack.amps"']]);
    expect(await titles('hull.amps', environment)).toEqual([]);
  });

  it('is looked for beside the file where no folder is open', async () => {
    expect(await titles('stok.amps', { specsBeside: async () => specs.slice(0, 1) })).toEqual([
      ['Write “stock.amps”, which is there', 'use "stock.amps"'],
    ]);
  });
});

it('a file that was never saved is asked to be saved before it uses another', async () => {
  const client = await connect();
  client.open('untitled:Untitled-1', 'use "stock.amps"\n');
  expect((await client.items('untitled:Untitled-1')).map(({ message }) => message)).toEqual([
    '“stock.amps” cannot be looked for yet, since this file has no place of its own: save it first.',
  ]);
});

describe('an action', () => {
  it.each(offers)('%s is the same, asked for with its edit or without', async (kind, text, word) => {
    const [eager, late] = [await connect(), await connect({ capabilities: lazy })];
    expect([eager, late].map(({ result }) => result?.capabilities.codeActionProvider)).toMatchObject([
      { resolveProvider: false },
      { resolveProvider: true },
    ]);
    for (const client of [eager, late]) client.open(name, text);
    const [whole] = await ask(eager, text, word, [kind]);
    const [offered] = await ask(late, text, word, [kind]);
    expect([whole?.kind, offered?.kind, offered?.title]).toEqual([kind, kind, whole?.title]);
    expect(whole?.data).toBeUndefined();
    const resolved = offered?.edit === undefined ? await resolve(late, offered) : offered;
    expect(applied(text, resolved)).toBe(applied(text, whole));
    expect(applied(text, resolved)).not.toBe(text);
    expect([...eager.logged, ...late.logged]).toEqual([]);
  });

  it('in a file that a spec uses takes no name of that spec, and sees what is wired there', async () => {
    const client = await connect({ capabilities: lazy, disk: { 'parts.amps': piece } });
    const at = (text: string, word: string) => ({
      range: place(text, word),
      context: { diagnostics: [], only: ['refactor'] },
    });
    const offered = async () =>
      (await client.ask<CodeAction[]>('textDocument/codeAction', 'parts.amps', at(piece, 'W1'))).map(
        ({ title }) => title,
      );
    client.open('parts.amps', piece);
    expect(await offered()).toContainEqual(
      expect.stringMatching(/^Add isolator Q1 in the middle of W1: .*; W2 carries on/u),
    );
    client.open('lamp.amps', `${lampFromPiece}isolator Q1  1 pole, 10 A dc\n`);
    await client.items('lamp.amps');
    expect(await offered()).toContainEqual(
      expect.stringMatching(/^Add isolator Q2 in the middle of W1: .*; W4 carries on/u),
    );
    // What the spec says of the run would be said of half of it.
    client.change('lamp.amps', { text: `${lampFromPiece}expect W1 drop at most 2 %\n` });
    await client.items('lamp.amps');
    expect((await offered()).filter((title) => title.startsWith('Add isolator'))).toEqual([]);
    expect(client.logged).toEqual([]);
  });

  it('offered for a text that has changed is done to the new one, or not at all', async () => {
    const client = await connect({ capabilities: lazy });
    const text = lamp('4 mm²');
    client.open(name, text);
    const [isolator] = await ask(client, text, 'W2', ['refactor.rewrite.isolator']);
    expect(isolator).toMatchObject({ title: expect.stringContaining('W2'), data: expect.anything() });
    expect(isolator?.edit).toBeUndefined();
    const longer = `${text}# a remark\n`;
    client.change(name, { text: longer });
    expect(applied(longer, await resolve(client, isolator))).toContain('# a remark');
    client.change(name, { text: '# nothing left\n' });
    await expect(resolve(client, isolator)).rejects.toThrow('The text has changed since: ask for it again.');
    expect(client.logged).toEqual([]);
  });

  it('whose edit comes to nothing is answered with an empty one, and with no error', async () => {
    const action = { title: 'Mend', kind: 'source.fixAll.ampscribe' };
    const resolveCodeAction: typeof features.resolveCodeAction = (analysis, _, span, options) => {
      const [own] = analysis.findings;
      if (own === undefined) throw new Error('nothing is found');
      // A mend that calls for the other one for ever.
      const place = { uri: analysis.uri, span: { start: 0, end: 1 } };
      const again = (text: string) => ({
        ...analysis,
        text: TextInBlocks.of(text),
        findings: [
          {
            ...own,
            fixes: [{ title: 'x', safe: true, edits: [{ place, newText: text.startsWith('a') ? 'b' : 'a' }] }],
          },
        ],
      });
      return features.resolveCodeAction(
        again(String(analysis.text)),
        { ...action, title: 'Mend all that needs no decision (1)' },
        span,
        { ...options, again },
      );
    };
    const client = await connect({ capabilities: lazy, workings: { features: { ...features, resolveCodeAction } } });
    client.open(name, lamp('0.5 mm²'));
    const data = { spec: name, span: { start: 0, end: 0 } };
    expect(await resolve(client, { ...action, data })).toMatchObject({ edit: { changes: {} } });
    expect(client.logged).toEqual([]);
  });

  it('with data that are none of ours comes back as it is', async () => {
    const client = await connect({ capabilities: lazy });
    client.open(name, lamp('4 mm²'));
    for (const data of [undefined, 7, 'x', {}, { spec: name }, { spec: name, span: { start: 'x' } }])
      expect(await resolve(client, { title: 'Something else', data })).toEqual({ title: 'Something else', data });
    await expect(
      resolve(client, { title: 'Gone', data: { spec: 'file:///nowhere.amps', span: { start: 0, end: 0 } } }),
    ).rejects.toThrow('The text has changed since');
    expect(client.logged).toEqual([]);
  });
});
