import { describe, expect, it, vi } from 'vitest';
import {
  CancellationTokenSource,
  type CodeAction,
  type CompletionList,
  type Diagnostic,
  type DocumentSymbol,
  type Hover,
  type Location,
  LSPErrorCodes,
  type ResponseError,
  type SymbolInformation,
  type TextEdit,
} from 'vscode-languageserver/node';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { analyseInSteps } from '../../server/analysis.ts';
import { features } from '../../server/session/features.ts';
import { connect, pulling, pushed, settle, until, uri } from './client.ts';
import { lamp, lampFromStock, stock } from './specs.ts';

const top = { line: 0, character: 0 };
const wholeRange = { start: top, end: { line: 100, character: 0 } };
const at = (text: string, word: string) => TextDocument.create('', '', 0, text).positionAt(text.indexOf(word) + 1);

const spanOf = (text: string, word: string) => {
  const document = TextDocument.create('', '', 0, text);
  const start = text.indexOf(word);
  return { start: document.positionAt(start), end: document.positionAt(start + word.length) };
};

/** A lamp with something wrong, something to fold and something to follow. */
const busy = `${lamp('0.5 mm²').replace('run W1  4', 'run W1 4')}allow drop-over-limit on W3 "short"\n# a remark\n# of two lines\n`;

/** Every request there is, with what an empty answer to it is. */
const requests: readonly (readonly [keyof typeof features, string, object, unknown])[] = [
  ['hover', 'textDocument/hover', { position: at(lamp(), 'F1') }, null],
  ['completion', 'textDocument/completion', { position: top }, []],
  ['codeActions', 'textDocument/codeAction', { range: wholeRange, context: { diagnostics: [] } }, []],
  ['outline', 'textDocument/documentSymbol', {}, []],
  ['definition', 'textDocument/definition', { position: at(lamp(), 'F1') }, []],
  ['definition', 'textDocument/declaration', { position: at(lamp(), 'F1') }, []],
  ['prepareRename', 'textDocument/prepareRename', { position: at(lamp(), 'F1') }, null],
  ['rename', 'textDocument/rename', { position: at(lamp(), 'F1'), newName: 'F2' }, null],
  ['linkedEditing', 'textDocument/linkedEditingRange', { position: at(lamp(), 'F1') }, null],
  ['semanticTokens', 'textDocument/semanticTokens/full', {}, { data: [] }],
  ['semanticTokens', 'textDocument/semanticTokens/full/delta', { previousResultId: 'gone' }, { data: [] }],
  ['semanticTokens', 'textDocument/semanticTokens/range', { range: wholeRange }, { data: [] }],
  ['inlayHints', 'textDocument/inlayHint', { range: wholeRange }, []],
  ['codeLenses', 'textDocument/codeLens', {}, []],
  ['prepareSupply', 'textDocument/prepareCallHierarchy', { position: at(lamp(), 'F1') }, []],
  ['signatureHelp', 'textDocument/signatureHelp', { position: at(lamp(), '20 A') }, null],
  [
    'formattingOnType',
    'textDocument/onTypeFormatting',
    { position: { line: 6, character: 0 }, ch: '\n', options: { tabSize: 4, insertSpaces: true } },
    [],
  ],
  ['folding', 'textDocument/foldingRange', {}, []],
  ['selectionRanges', 'textDocument/selectionRange', { positions: [at(lamp(), 'F1')] }, []],
  ['documentLinks', 'textDocument/documentLink', {}, []],
  ['documentColours', 'textDocument/documentColor', {}, []],
  [
    'colourPresentations',
    'textDocument/colorPresentation',
    { color: { red: 1, green: 0, blue: 0, alpha: 1 }, range: spanOf(busy, 'red') },
    [],
  ],
  ['references', 'textDocument/references', { position: at(lamp(), 'F1'), context: { includeDeclaration: true } }, []],
  ['highlights', 'textDocument/documentHighlight', { position: at(lamp(), 'F1') }, []],
  ['formatting', 'textDocument/formatting', { options: { tabSize: 4, insertSpaces: true } }, []],
];

describe('the server says', () => {
  it('what it can do', async () => {
    const { result } = await connect({ capabilities: pulling });
    expect(result).toMatchObject({
      serverInfo: { name: 'ampscribe' },
      capabilities: {
        positionEncoding: 'utf-16',
        textDocumentSync: { openClose: true, change: 2, save: false },
        hoverProvider: true,
        codeActionProvider: {
          codeActionKinds: [
            'quickfix',
            'refactor.extract',
            'refactor.inline',
            'refactor.rewrite',
            'source.fixAll.ampscribe',
            'source.sort.ampscribe',
          ],
          resolveProvider: false,
        },
        documentSymbolProvider: true,
        definitionProvider: true,
        declarationProvider: true,
        renameProvider: true,
        linkedEditingRangeProvider: true,
        workspaceSymbolProvider: true,
        foldingRangeProvider: true,
        selectionRangeProvider: true,
        documentLinkProvider: { resolveProvider: false },
        colorProvider: true,
        documentOnTypeFormattingProvider: { firstTriggerCharacter: '\n', moreTriggerCharacter: [','] },
        signatureHelpProvider: { triggerCharacters: [','], retriggerCharacters: [' '] },
        semanticTokensProvider: { full: { delta: true }, range: true },
        inlayHintProvider: { resolveProvider: false },
        codeLensProvider: { resolveProvider: false },
        callHierarchyProvider: true,
        referencesProvider: true,
        documentHighlightProvider: true,
        documentFormattingProvider: true,
        documentRangeFormattingProvider: true,
      },
    });
  });
});

describe('edits', () => {
  it('bit by bit give what the whole text gives', async () => {
    const steps = await connect();
    const whole = await connect();
    const final = `# Ünïcode 🔌 above\n${lamp('0.5 mm²').replace('LAMP  24 W', 'LAMP  "Lämp 💡" 240 W')}`;
    steps.open('lamp.amps', lamp());
    let document = TextDocument.create(uri('lamp.amps'), 'ampscribe', 1, lamp());
    const edit = (from: string, to: string) => {
      const start = document.getText().indexOf(from);
      expect(start, from).toBeGreaterThanOrEqual(0);
      const range = { start: document.positionAt(start), end: document.positionAt(start + from.length) };
      steps.change('lamp.amps', { range, text: to });
      document = TextDocument.update(document, [{ range, text: to }], document.version + 1);
    };
    edit('', '# Ünïcode 🔌 above\n');
    edit('run W2  4 mm²', 'run W2  0.5 mm²');
    edit('24 W', '"Lämp 💡" 24 W');
    edit('24 W', '2');
    expect(await steps.codes('lamp.amps')).not.toEqual([]);
    edit('💡" 2', '💡" 240 W');
    expect(document.getText()).toBe(final);
    whole.open('lamp.amps', final);
    const expected = await whole.items('lamp.amps');
    expect(expected.map(({ code }) => code)).toContain('cable-too-small');
    expect(await steps.items('lamp.amps')).toEqual(expected);
    for (const [, method, more] of requests.filter(([name]) => name !== 'completion'))
      expect(await steps.ask(method, 'lamp.amps', more)).toEqual(await whole.ask(method, 'lamp.amps', more));
  });

  it('several in one message apply one after the other', async () => {
    const client = await connect();
    client.open('lamp.amps', lamp());
    const [line = 0] = lamp()
      .split('\n')
      .flatMap((text, number) => (text.startsWith('run W2') ? [number] : []));
    client.change(
      'lamp.amps',
      { range: { start: top, end: top }, text: '# one line more\n' },
      { range: { start: { line: line + 1, character: 8 }, end: { line: line + 1, character: 9 } }, text: '0.5' },
    );
    expect(await client.codes('lamp.amps')).toContain('cable-too-small');
  });
});

describe('a request', () => {
  it.each(requests)('%s is answered', async (_, method, more) => {
    const client = await connect();
    client.open('lamp.amps', busy);
    const answer = await client.ask<unknown>(method, 'lamp.amps', more);
    expect(answer).not.toBeNull();
    expect(Array.isArray(answer) ? answer.length : 1).toBeGreaterThan(0);
    expect(client.logged).toEqual([]);
  });

  it.each(requests)(
    '%s that throws is answered with nothing and one line; the next works',
    async (name, method, more, empty) => {
      let broken = true;
      const fail = () => {
        if (broken) throw new Error('a wire came loose\n    at somewhere (file.ts:1:1)');
      };
      const own = features[name] as (...args: unknown[]) => unknown;
      const wrapped = (...args: unknown[]) => {
        fail();
        return own(...args);
      };
      const client = await connect({ workings: { features: { ...features, [name]: wrapped } } });
      client.open('lamp.amps', busy);
      expect(await client.ask(method, 'lamp.amps', more)).toEqual(empty);
      await until('the log has a line', () => client.logged.length > 0);
      expect(client.logged).toHaveLength(1);
      expect(client.logged[0]).toMatch(/^[a-z ]+ failed: Error: a wire came loose$/);
      broken = false;
      expect(await client.ask(method, 'lamp.amps', more)).not.toEqual(empty);
      expect(await client.codes('lamp.amps')).toContain('cable-too-small');
      expect(client.logged).toHaveLength(1);
    },
  );

  it('whose analysis throws is answered with nothing; the next text works', async () => {
    const client = await connect({
      workings: {
        analyse: (...args) => {
          const read = args[1].read(args[0]);
          if ('text' in read && String(read.text).includes('LOOSE')) throw new TypeError('loose');
          return analyseInSteps(...args);
        },
      },
    });
    client.open('lamp.amps', `${lamp('0.5 mm²')}# LOOSE\n`);
    expect(await client.pull('lamp.amps')).toEqual({ kind: 'full', items: [] });
    expect(await client.ask('textDocument/hover', 'lamp.amps', { position: at(lamp(), 'F1') })).toBeNull();
    await until('the log has lines', () => client.logged.length === 2);
    expect(client.logged).toEqual(['diagnostics failed: TypeError: loose', 'hover failed: TypeError: loose']);
    client.change('lamp.amps', { text: lamp('0.5 mm²') });
    expect(await client.codes('lamp.amps')).toContain('cable-too-small');
    expect(await client.ask('textDocument/hover', 'lamp.amps', { position: at(lamp(), 'F1') })).not.toBeNull();
  });

  it('whose analysis throws leaves a server that pushes alive', async () => {
    let broken = true;
    const client = await connect({
      capabilities: pushed,
      workings: {
        analyse: (...args) => {
          if (broken) throw new Error('loose');
          return analyseInSteps(...args);
        },
      },
    });
    client.open('lamp.amps', lamp('0.5 mm²'));
    await until('the log has a line', () => client.logged.length > 0);
    expect(client.logged).toEqual(['diagnostics failed: Error: loose']);
    broken = false;
    client.change('lamp.amps', { text: lamp('0.5 mm²') });
    await until('findings come', () => (client.newest('lamp.amps')?.diagnostics.length ?? 0) > 0);
  });

  it.each(requests)(
    '%s for a document nobody opened is answered with nothing, quietly',
    async (_, method, more, empty) => {
      const client = await connect();
      expect(await client.ask(method, 'ghost.amps', more)).toEqual(empty);
      expect(await client.ask(method, 'untitled:Untitled-1', more)).toEqual(empty);
      expect(await client.ask(method, 'no address at all', more)).toEqual(empty);
      expect(client.logged).toEqual([]);
    },
  );

  it('at a place outside the text is answered', async () => {
    const client = await connect();
    client.open('lamp.amps', lamp());
    expect(await client.ask('textDocument/hover', 'lamp.amps', { position: { line: 999, character: 999 } })).toBeNull();
    const range = { start: { line: 998, character: 0 }, end: { line: 999, character: 5 } };
    expect(
      await client.ask('textDocument/codeAction', 'lamp.amps', {
        range,
        context: { diagnostics: [], only: ['quickfix'] },
      }),
    ).toEqual([]);
  });

  it('that is cancelled does no work, and the server lives', async () => {
    const hover = vi.fn(features.hover);
    const client = await connect({ workings: { features: { ...features, hover } } });
    client.open('lamp.amps', lamp());
    const source = new CancellationTokenSource();
    const params = { textDocument: { uri: uri('lamp.amps') }, position: at(lamp(), 'F1') };
    const asked = client.connection.sendRequest('textDocument/hover', params, source.token).then(
      (answer) => answer,
      (error: ResponseError) => error.code,
    );
    source.cancel();
    expect(await asked).toBe(LSPErrorCodes.RequestCancelled);
    expect(hover).not.toHaveBeenCalled();
    expect(await client.ask<Hover>('textDocument/hover', 'lamp.amps', params)).toMatchObject({ range: {} });
    expect(client.logged).toEqual([]);
  });

  it('of a client without Markdown is answered in plain text', async () => {
    const client = await connect({ capabilities: { ...pushed } });
    client.open('lamp.amps', lamp());
    const hover = await client.ask<Hover>('textDocument/hover', 'lamp.amps', { position: at(lamp(), 'F1') });
    expect(hover.contents).toMatchObject({ kind: 'plaintext', value: expect.not.stringContaining('**') });
  });

  it('for an outline is nested only where the client knows that', async () => {
    const nested = await connect();
    nested.open('lamp.amps', lamp());
    const twoCores = `${lamp()}run W9  2 x 1.5 mm², 1 m\n    red    F1:out to LAMP:+\n    black  LAMP:- to B1:-\n`;
    nested.change('lamp.amps', { text: twoCores });
    const symbols = await nested.ask<DocumentSymbol[]>('textDocument/documentSymbol', 'lamp.amps');
    expect(symbols.find(({ name }) => name === 'W9')?.children?.map(({ name }) => name)).toEqual(['red', 'black']);
    const flat = await connect({ capabilities: pushed });
    flat.open('lamp.amps', twoCores);
    const told = await flat.ask<SymbolInformation[]>('textDocument/documentSymbol', 'lamp.amps');
    expect(told.map(({ name, containerName }) => `${containerName ?? ''} ${name}`)).toContain('W9 black');
    expect(new Set(told.map(({ location }) => location.uri))).toEqual(new Set([uri('lamp.amps')]));
  });

  it('for references finds the open specs that take a stock, under their own addresses', async () => {
    const client = await connect({ disk: { 'stock.amps': stock('4 mm²') } });
    const spaced = 'file:///van/a%20lamp.amps';
    client.open(spaced, lampFromStock);
    client.open('lamp.amps', lampFromStock);
    client.open('stock.amps', stock('4 mm²'));
    await client.items(spaced);
    await client.items('lamp.amps');
    const found = await client.ask<Location[]>('textDocument/references', 'stock.amps', {
      position: at(stock(''), 'thin'),
      context: { includeDeclaration: true },
    });
    const count = (address: string) => found.filter((one) => one.uri === address).length;
    expect([count(uri('stock.amps')), count(uri('lamp.amps')), count(spaced)]).toEqual([1, 3, 3]);
  });

  it('for a fix gives edits that mend, under the address of the client', async () => {
    const client = await connect();
    const written = 'file:///van/my%2Dlamp.amps';
    const text = lamp('0.5 mm²');
    client.open(written, text);
    const [finding] = (await client.items(written)).filter(({ code }) => code === 'cable-too-small');
    const actions = await client.ask<CodeAction[]>('textDocument/codeAction', written, {
      range: finding?.range,
      context: { diagnostics: [finding] },
    });
    const fix = actions.find(({ diagnostics }) =>
      diagnostics?.some(({ code }: Diagnostic) => code === 'cable-too-small'),
    );
    // What the action says it mends is the very finding the client holds, addresses and all.
    expect(fix?.diagnostics).toEqual([finding]);
    expect(JSON.stringify(finding?.data)).toContain(written);
    const edits = fix?.edit?.changes?.[written] as TextEdit[];
    const mended = TextDocument.applyEdits(TextDocument.create(written, '', 1, text), edits);
    client.change(written, { text: mended });
    expect(await client.codes(written)).not.toContain('cable-too-small');
  });

  it('for a completion where a name may be new is asked again with the next letter', async () => {
    const client = await connect();
    const text = `${lamp()}run W9  4 mm² red, 1 m, F1:out to S7\n`;
    client.open('lamp.amps', text);
    const end = { position: at(text, '7\n') };
    const list = await client.ask<CompletionList>('textDocument/completion', 'lamp.amps', end);
    expect(list.isIncomplete).toBe(true);
    const declared = list.items.find(({ label }) => label === 'S7:1');
    expect(declared).toMatchObject({
      detail: 'write it above: switch S7 1 pole, ? A dc',
      additionalTextEdits: [{ newText: 'switch S7  1 pole, ? A dc\n' }],
    });
  });

  it('for the kind of action asked for gives no other', async () => {
    const client = await connect();
    client.open('lamp.amps', lamp('2,5 mm²'));
    const kinds = async (only: string[]) =>
      (
        await client.ask<CodeAction[]>('textDocument/codeAction', 'lamp.amps', {
          range: wholeRange,
          context: { diagnostics: [], only },
        })
      ).map(({ kind }) => kind);
    expect(new Set(await kinds(['quickfix']))).toEqual(new Set(['quickfix']));
    expect(await kinds(['source.fixAll'])).toEqual(['source.fixAll.ampscribe']);
    expect(await kinds(['source.organizeImports'])).toEqual([]);
    // The empty kind stands for all of them.
    const all = await kinds(['']);
    expect(all).toEqual(expect.arrayContaining(['quickfix', 'source.fixAll.ampscribe']));
  });
});

describe('the server lives', () => {
  it('through a megabyte of noise, and answers in time', async () => {
    const client = await connect();
    let seed = 7;
    const random = (below: number) => {
      seed = (seed * 1103515245 + 12345) % 2147483648;
      return seed % below;
    };
    const letters = 'run W1 6 mm² red,\n    "#?x:+-=µΩ💡\u0000\u0007\ufffd,to and B1:+ in enters \r\n fuse';
    let noise = '';
    while (noise.length < 1_000_000) noise += letters.slice(random(letters.length)).slice(0, 1 + random(9));
    client.open('noise.amps', noise);
    const began = performance.now();
    const report = await client.pull('noise.amps');
    expect(performance.now() - began).toBeLessThan(20_000);
    expect(report.kind).toBe('full');
    for (const [, method, more] of requests) await client.ask(method, 'noise.amps', more);
    expect(client.logged).toEqual([]);
    client.open('lamp.amps', lamp('0.5 mm²'));
    expect(await client.codes('lamp.amps')).toContain('cable-too-small');
  }, 120_000);

  it('through an empty file, and one of nothing but blanks', async () => {
    const client = await connect();
    for (const [name, text] of [
      ['empty.amps', ''],
      ['blank.amps', ' \n\t\n\r\n'],
    ] as const) {
      client.open(name, text);
      expect(await client.items(name)).toEqual([]);
      for (const [, method, more] of requests) await client.ask(method, name, more);
    }
    expect(client.logged).toEqual([]);
  });

  it('through requests and notifications it does not know', async () => {
    const client = await connect();
    await expect(client.connection.sendRequest('ampscribe/unheardOf')).rejects.toThrow(/Unhandled method/);
    await client.connection.sendNotification('ampscribe/unheardOf');
    client.fileChanged('nobody.amps');
    client.close('never-opened.amps');
    client.open('lamp.amps', lamp());
    expect(await client.codes('lamp.amps')).toEqual([]);
  });

  it('until it is shut down, and then ends cleanly', async () => {
    const exit = vi.spyOn(process, 'exit').mockImplementation((() => undefined) as never);
    try {
      const client = await connect({ capabilities: pushed });
      client.open('lamp.amps', lamp());
      await client.shutdown();
      await client.connection.sendNotification('exit');
      await until('it exits', () => exit.mock.calls.length > 0);
      expect(exit).toHaveBeenCalledWith(0);
      await settle();
      expect(client.published).toEqual([]);
    } finally {
      exit.mockRestore();
    }
  });
});
