/** What a person who types is helped with, over the protocol, as each client can take it. */
import { describe, expect, it } from 'vitest';
import type { ClientCapabilities, CompletionItem, SignatureHelp, TextEdit } from 'vscode-languageserver/node';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { connect, pulling, type TestClient, uri } from './client.ts';
import { lamp, piece, stock } from './specs.ts';

const open = async (marked: string, capabilities: ClientCapabilities = pulling) => {
  const client = await connect({ capabilities });
  const text = marked.replace('|', '');
  client.open('lamp.amps', text);
  const position = TextDocument.create('', '', 0, text).positionAt(marked.indexOf('|'));
  return { client, text, position };
};

describe('signature help', () => {
  const helping = (signatureInformation: object): ClientCapabilities => ({
    ...pulling,
    textDocument: { ...pulling.textDocument, signatureHelp: { signatureInformation } },
  });
  const ask = (client: TestClient, position: object, context?: object) =>
    client.ask<SignatureHelp>('textDocument/signatureHelp', 'lamp.amps', { position, context });
  const behindComma = `${lamp()}run W9  4 mm² red, 1 m, F1:out to LAMP:+, |\n`;

  it('says that no parameter is next to a client that would show the first', async () => {
    const { client, position } = await open(behindComma, helping({ noActiveParameterSupport: true }));
    const help = await ask(client, position);
    expect([help.activeParameter, help.signatures[0]?.activeParameter]).toEqual([null, null]);
    const plain = await open(behindComma);
    expect(await ask(plain.client, position)).not.toHaveProperty('activeParameter');
  });

  it('names parameters by their words to a client that knows no places in a label', async () => {
    const marked = `${lamp()}run W9  4 mm² red, 1 m, F1:out to |\n`;
    const words = async (capabilities: ClientCapabilities) => {
      const { client, position } = await open(marked, capabilities);
      return (await ask(client, position)).signatures[0]?.parameters?.map(({ label }) => label);
    };
    expect(await words(pulling)).toEqual(['‹from›', '‹to›']);
    expect(await words(helping({ parameterInformation: { labelOffsetSupport: true } }))).toEqual([
      [0, 6],
      [10, 14],
    ]);
  });

  it('keeps the form in front that somebody went to', async () => {
    const { client, position } = await open(`${lamp()}case noon  B1 |\n`);
    const first = await ask(client, position);
    expect([first.activeSignature, first.signatures.length]).toEqual([0, 3]);
    const went = { ...first, activeSignature: 2 };
    const again = { triggerKind: 3, isRetrigger: true, activeSignatureHelp: went };
    expect((await ask(client, position, again)).activeSignature).toBe(2);
    client.change('lamp.amps', { range: { start: position, end: position }, text: 'and ' });
    const next = { line: position.line, character: position.character + 4 };
    expect(await ask(client, next, again)).toMatchObject({
      activeSignature: 0,
      signatures: [{ label: went.signatures[2]?.label }],
    });
  });
});

describe('between the quotes of a use', () => {
  const disk = { 'stock.amps': stock('4 mm²'), 'old/my lamp.amps': lamp(), 'parts.amps': piece, 'note.amps': '' };
  const offered = async (marked: string, name = 'lamp.amps') => {
    const client = await connect({
      disk,
      folder: 'file:///van',
      environment: { specsIn: async () => Object.keys(disk).map((file) => uri(file.replace(' ', '%20'))) },
    });
    const text = marked.replace('|', '');
    client.open(name, text);
    const document = TextDocument.create('', '', 0, text);
    const position = document.positionAt(marked.indexOf('|'));
    const items = await client.ask<CompletionItem[]>('textDocument/completion', name, { position });
    expect(client.logged).toEqual([]);
    return items.map(({ label, textEdit }) => [label, TextDocument.applyEdits(document, [textEdit as TextEdit])]);
  };

  it('the specs of the open folders are offered that are not used yet, the nearest first', async () => {
    const labels = async (marked: string, name?: string) => (await offered(marked, name)).map(([label]) => label);
    expect(await labels('use "|"\n')).toEqual(['note.amps', 'parts.amps', 'stock.amps', 'old/my lamp.amps']);
    expect(await labels('use "stock.amps"\nuse "p|"\n')).toEqual(['note.amps', 'parts.amps', 'old/my lamp.amps']);
    expect(await labels('use "./|"\n', 'old/new.amps')).toEqual([
      './my lamp.amps',
      '../note.amps',
      '../parts.amps',
      '../stock.amps',
    ]);
    expect(await labels('system "|" 12 V\n')).toEqual([]);
    expect(await labels('use |\n')).toEqual(['"…"']);
  });

  it('those beside it are offered where no folder is open', async () => {
    const client = await connect({
      environment: { specsBeside: async (folder) => (folder === 'file:///van' ? [uri('stock.amps')] : undefined) },
    });
    client.open('lamp.amps', 'use "');
    client.open('file:///shed/lamp.amps', 'use "');
    const at = { position: { line: 0, character: 5 } };
    const labels = async (name: string) =>
      (await client.ask<CompletionItem[]>('textDocument/completion', name, at)).map(({ label }) => label);
    // What is open is known wherever it is.
    expect(await labels('lamp.amps')).toEqual(['stock.amps', '../shed/lamp.amps']);
    expect(await labels('file:///shed/lamp.amps')).toEqual(['../van/lamp.amps']);
  });

  it('one is written over the path that stands there, with the quote that is missing', async () => {
    const taken = async (marked: string) => new Map((await offered(marked)) as [string, string][]).get('parts.amps');
    expect(await taken('use "sto|ck.amps"  # all\n')).toBe('use "parts.amps"  # all\n');
    expect(await taken('use "pa|\nload L1  5 W\n')).toBe('use "parts.amps"\nload L1  5 W\n');
  });
});

describe('a line end typed', () => {
  it('within a statement keeps its second half in it', async () => {
    const { client, text, position } = await open(`${lamp()}battery B2  agm,\n|12 V, 60 Ah\n`);
    expect(await client.codes('lamp.amps')).not.toEqual([]);
    const edits = await client.ask<TextEdit[]>('textDocument/onTypeFormatting', 'lamp.amps', {
      position,
      ch: '\n',
      options: { tabSize: 4, insertSpaces: true },
    });
    const after = TextDocument.applyEdits(TextDocument.create('', '', 0, text), edits);
    expect(after).toBe(`${lamp()}battery B2  agm,\n    12 V, 60 Ah\n`);
  });
});

it('a place beyond the end of a line is its end, with Windows line ends too', async () => {
  for (const newline of ['\n', '\r\n']) {
    const client = await connect();
    client.open('lamp.amps', lamp().replaceAll('\n', newline));
    // A hover before that may have no figures yet.
    await client.items('lamp.amps');
    const at = (character: number) =>
      client.ask('textDocument/hover', 'lamp.amps', { position: { line: 3, character } });
    expect(await at(999)).toEqual(await at('load LAMP  24 W'.length));
    expect(await at(999)).not.toBeNull();
  }
});
