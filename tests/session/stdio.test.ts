/** The server as editors start it, a process of its own over standard input and output: each capability asked once, files from the disk. */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  type CallHierarchyItem,
  type CodeAction,
  createProtocolConnection,
  type InitializeResult,
  type ProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
  type SymbolInformation,
  type WorkspaceEdit,
} from 'vscode-languageserver/node';
import { TextDocument } from 'vscode-languageserver-textdocument';
import {
  type ExportAnswer,
  openPictureRequest,
  pictureExportRequest,
  type WholePicture,
} from '../../server/session/picture-protocol.ts';
import { lampFromStock, stock } from './specs.ts';

let folder: string;
let server: ChildProcess;
let connection: ProtocolConnection;
let started: InitializeResult;
const logged: string[] = [];
const address = (name: string) => pathToFileURL(join(folder, name)).toString();
const text = `${lampFromStock}allow drop-over-limit on W3 "short"\n# a remark\n# of two lines\n`;
const at = (word: string, within = 1) => {
  const document = TextDocument.create('', '', 0, text);
  return document.positionAt(text.indexOf(word) + within);
};

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'ampscribe-van-'));
  const files = {
    'stock.amps': stock('4 mm²'),
    'lamp.amps': text,
    'side/other.amps': lampFromStock.replace('stock.amps', '../stock.amps'),
    '.old/hidden.amps': lampFromStock.replace('stock.amps', '../stock.amps'),
    'node_modules/packed.amps': lampFromStock.replace('stock.amps', '../stock.amps'),
  };
  for (const [name, content] of Object.entries(files)) {
    mkdirSync(join(folder, name, '..'), { recursive: true });
    writeFileSync(join(folder, name), content);
  }
  server = spawn(process.execPath, ['dist/cli.js', 'serve', '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
  if (server.stdin === null || server.stdout === null) throw new Error('no pipes');
  connection = createProtocolConnection(new StreamMessageReader(server.stdout), new StreamMessageWriter(server.stdin));
  connection.onNotification('window/logMessage', ({ message }: { message: string }) => {
    logged.push(message);
  });
  connection.listen();
  started = await connection.sendRequest<InitializeResult>('initialize', {
    processId: process.pid,
    rootUri: pathToFileURL(folder).toString(),
    capabilities: {
      textDocument: {
        diagnostic: {},
        hover: { contentFormat: ['markdown'] },
        codeAction: { dataSupport: true, resolveSupport: { properties: ['edit'] } },
      },
    },
  });
  await connection.sendNotification('initialized', {});
  await connection.sendNotification('textDocument/didOpen', {
    textDocument: { uri: address('lamp.amps'), languageId: 'ampscribe', version: 1, text },
  });
}, 60_000);

afterAll(async () => {
  const ended = new Promise((done) => server.once('exit', done));
  await connection.sendRequest('shutdown');
  await connection.sendNotification('exit');
  await ended;
  connection.dispose();
  rmSync(folder, { recursive: true, force: true });
});

const ask = <T>(method: string, more: object = {}) =>
  connection.sendRequest<T>(method, { textDocument: { uri: address('lamp.amps') }, ...more });

const whole = { start: { line: 0, character: 0 }, end: { line: 100, character: 0 } };
const options = { tabSize: 4, insertSpaces: true };

/** What each capability that the server names is asked with; all of them have something to say. */
const asked: Readonly<Record<string, readonly (readonly [string, object])[]>> = {
  hoverProvider: [['textDocument/hover', { position: at('F1') }]],
  completionProvider: [['textDocument/completion', { position: at('load', 0) }]],
  codeActionProvider: [['textDocument/codeAction', { range: whole, context: { diagnostics: [] } }]],
  documentSymbolProvider: [['textDocument/documentSymbol', {}]],
  definitionProvider: [['textDocument/definition', { position: at('thin') }]],
  declarationProvider: [['textDocument/declaration', { position: at('F1:in') }]],
  referencesProvider: [['textDocument/references', { position: at('F1'), context: { includeDeclaration: true } }]],
  documentHighlightProvider: [['textDocument/documentHighlight', { position: at('F1') }]],
  renameProvider: [['textDocument/rename', { position: at('F1'), newName: 'F2' }]],
  linkedEditingRangeProvider: [['textDocument/linkedEditingRange', { position: at('LAMP') }]],
  foldingRangeProvider: [['textDocument/foldingRange', {}]],
  selectionRangeProvider: [['textDocument/selectionRange', { positions: [at('F1')] }]],
  documentLinkProvider: [['textDocument/documentLink', {}]],
  colorProvider: [['textDocument/documentColor', {}]],
  documentFormattingProvider: [['textDocument/formatting', { options }]],
  documentRangeFormattingProvider: [['textDocument/rangeFormatting', { options, range: whole }]],
  documentOnTypeFormattingProvider: [
    ['textDocument/onTypeFormatting', { options, position: at('\nload', 1), ch: '\n' }],
  ],
  signatureHelpProvider: [['textDocument/signatureHelp', { position: at('20 A') }]],
  semanticTokensProvider: [
    ['textDocument/semanticTokens/full', {}],
    ['textDocument/semanticTokens/range', { range: whole }],
  ],
  inlayHintProvider: [['textDocument/inlayHint', { range: whole }]],
  codeLensProvider: [['textDocument/codeLens', {}]],
  callHierarchyProvider: [['textDocument/prepareCallHierarchy', { position: at('LAMP') }]],
  workspaceSymbolProvider: [['workspace/symbol', { query: '' }]],
  diagnosticProvider: [['textDocument/diagnostic', {}]],
};

describe('over standard input and output', () => {
  it('every capability that the server names is answered', async () => {
    const named = Object.keys(started.capabilities).filter((name) => name.endsWith('Provider'));
    expect(named.sort()).toEqual(Object.keys(asked).sort());
    // Formatting has nothing to do in tidy text, and there is nothing to mend.
    const mayBeEmpty = ['codeActionProvider', 'documentFormattingProvider', 'documentRangeFormattingProvider'];
    for (const name of named)
      for (const [method, more] of asked[name] ?? []) {
        const answer = await ask<unknown>(method, more);
        expect([method, answer === null]).toEqual([method, false]);
        if (!mayBeEmpty.includes(name) && name !== 'documentOnTypeFormattingProvider' && Array.isArray(answer))
          expect([method, answer.length > 0]).toEqual([method, true]);
      }
    expect(logged).toEqual([]);
  }, 60_000);

  it('a rename reaches files of the folder that are not open, and leaves hidden and package folders', async () => {
    const edit = await ask<WorkspaceEdit>('textDocument/rename', { position: at('thin'), newName: 'lead' });
    expect(Object.keys(edit.changes ?? {}).sort()).toEqual(
      ['lamp.amps', 'side/other.amps', 'stock.amps'].map(address).sort(),
    );
  });

  it('a file that is renamed is followed in open specs and in others', async () => {
    const edit = await connection.sendRequest<WorkspaceEdit>('workspace/willRenameFiles', {
      files: [{ oldUri: address('stock.amps'), newUri: address('shelf/stock.amps') }],
    });
    const written = Object.entries(edit.changes ?? {}).map(([file, edits]) => [
      file,
      edits.map(({ newText }) => newText),
    ]);
    expect(written.sort()).toEqual([
      [address('lamp.amps'), ['shelf/stock.amps']],
      [address('side/other.amps'), ['../shelf/stock.amps']],
    ]);
  });

  it('the edit of an action comes when it is chosen', async () => {
    const found = await ask<CodeAction[]>('textDocument/codeAction', {
      range: { start: at('W2'), end: at('W2') },
      context: { diagnostics: [], only: ['refactor'] },
    });
    expect(found.map(({ title, edit }) => [title.split(':')[0], edit])).toContainEqual([
      'Add isolator Q1 in the middle of W2',
      undefined,
    ]);
    const isolator = found.find(({ title }) => title.startsWith('Add isolator'));
    const chosen = await connection.sendRequest<CodeAction>('codeAction/resolve', isolator);
    const changed = TextDocument.applyEdits(
      TextDocument.create('', '', 0, text),
      chosen.edit?.changes?.[address('lamp.amps')] ?? [],
    );
    expect(changed).toContain('isolator Q1  1 pole, 20 A dc, 60 V\nrun W2  = thin red, 0.6 m, F1:out to Q1:1\n');
    expect(changed).toContain('run W4  = thin red, 0.6 m, Q1:2 to LAMP:+\n');
  });

  it('the symbols of the workspace are those of its files', async () => {
    const found = await connection.sendRequest<SymbolInformation[]>('workspace/symbol', { query: 'LAMP' });
    // Systems are found by their title, parts by their name.
    const parts = found.filter(({ name }) => name === 'LAMP');
    expect(parts.map(({ location }) => location.uri).sort()).toEqual(
      ['lamp.amps', 'side/other.amps'].map(address).sort(),
    );
  });

  it('supply is followed to the battery', async () => {
    let [item] = await ask<CallHierarchyItem[]>('textDocument/prepareCallHierarchy', { position: at('LAMP') });
    const names: string[] = [];
    while (item !== undefined && names.length < 9) {
      names.push(item.name);
      const calls: { from: CallHierarchyItem }[] = await connection.sendRequest('callHierarchy/incomingCalls', {
        item,
      });
      item = calls[0]?.from;
    }
    expect(names).toEqual(['LAMP', 'F1', 'B1']);
  });

  it('draws the picture in a thread of its own, as PNG and PDF too, and answers meanwhile', async () => {
    const params = { uri: address('lamp.amps') };
    const opening = connection.sendRequest<WholePicture>(openPictureRequest, params);
    expect(await ask('textDocument/hover', { position: at('F1') })).not.toBeNull();
    const { elements } = await opening;
    expect(elements.map(({ id }) => id)).toContain('part:LAMP');
    for (const [format, start] of [
      ['svg', '<svg'],
      ['png', '\u0089PNG'],
      ['pdf', '%PDF'],
    ] as const) {
      const answer = await connection.sendRequest<ExportAnswer>(pictureExportRequest, {
        ...params,
        format,
        caseName: '',
        shade: 'none',
      });
      const bytes = answer !== null && 'base64' in answer ? Buffer.from(answer.base64, 'base64') : Buffer.alloc(0);
      expect(bytes.toString('latin1').slice(0, 4), format).toBe(start);
    }
  });
});
