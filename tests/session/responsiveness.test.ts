/** What comes before what: an analysis that takes long stands in no one's way, and nothing old is shown as new. */
import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import {
  CancellationTokenSource,
  type CompletionList,
  type DocumentSymbol,
  type Hover,
  LSPErrorCodes,
  type MarkupContent,
  type ResponseError,
} from 'vscode-languageserver/node';
import { analyseInSteps } from '../../server/analysis.ts';
import { connect, pushed, settle, type TestClient, until, uri } from './client.ts';
import { slowly } from './slowly.ts';
import { lamp, lampFromStock, stock } from './specs.ts';

/** A lamp whose text says in its first line which edit it is. */
const edit = (n: number, size = '4 mm²') => lamp(size).replace('"Lamp"', `"Edit ${n}"`);
const firstLine = (n: number) => `system "Edit ${n}" 12 V`;
const whole = 400;
const textOf = ({ contents }: Hover) => (contents as MarkupContent).value;
/** On the name of a run, and behind a comma of it. */
const onRun = { position: { line: 6, character: 5 } };
const behindComma = { position: { line: 6, character: 20 } };

/** Notes the order in which answers come. */
function ordered() {
  const order: string[] = [];
  const note = <T>(name: string, answer: Promise<T>): Promise<T> =>
    answer.then((value) => {
      order.push(name);
      return value;
    });
  return { order, note };
}

describe('while a spec is worked out', () => {
  it('names, outline and completion are answered before its findings', async () => {
    const { analyse } = slowly({ named: 0, whole });
    const client = await connect({ workings: { analyse } });
    client.open('lamp.amps', lamp('0.5 mm²'));
    const { order, note } = ordered();
    const findings = note('findings', client.codes('lamp.amps'));
    await pause(50);
    const outline = await note('outline', client.ask<DocumentSymbol[]>('textDocument/documentSymbol', 'lamp.amps'));
    expect(outline.map(({ name }) => name)).toContain('W2');
    const offers = await note(
      'completion',
      client.ask<CompletionList>('textDocument/completion', 'lamp.amps', behindComma),
    );
    expect(offers.items.length).toBeGreaterThan(3);
    for (const method of ['definition', 'references', 'documentHighlight', 'prepareRename'])
      expect(
        await note(method, client.ask(`textDocument/${method}`, 'lamp.amps', { ...onRun, context: {} })),
      ).not.toBeNull();
    expect(await findings).toContain('cable-too-small');
    expect(order).toEqual([
      'outline',
      'completion',
      'definition',
      'references',
      'documentHighlight',
      'prepareRename',
      'findings',
    ]);
  });

  it('hover is answered before its findings, without figures, and says so; then with them', async () => {
    const { analyse } = slowly({ named: 0, whole });
    const client = await connect({ workings: { analyse } });
    client.open('lamp.amps', lamp());
    const { order, note } = ordered();
    const findings = note('findings', client.codes('lamp.amps'));
    const early = await note('hover', client.ask<Hover>('textDocument/hover', 'lamp.amps', onRun));
    expect(textOf(early)).toContain('4 mm², 1.2 m');
    expect(textOf(early)).toContain('The figures are still being worked out: look again in a moment.');
    expect(textOf(early)).not.toMatch(/\d A\b/);
    await findings;
    expect(order).toEqual(['hover', 'findings']);
    const late = textOf(await client.ask<Hover>('textDocument/hover', 'lamp.amps', onRun));
    expect(late).not.toContain('being worked out');
    expect(late).toMatch(/\d A\b/);
  });

  it('hover waits a little for figures that come soon', async () => {
    const { analyse } = slowly({ named: 0, whole: 10 });
    const client = await connect({ workings: { analyse } });
    client.open('lamp.amps', lamp());
    expect(textOf(await client.ask<Hover>('textDocument/hover', 'lamp.amps', onRun))).toMatch(/\d A\b/);
  });

  it('many questions are answered before it ends', async () => {
    const { analyse } = slowly({ named: 0, whole: 800 });
    const client = await connect({ workings: { analyse } });
    client.open('lamp.amps', lamp());
    const { order, note } = ordered();
    const findings = note('findings', client.codes('lamp.amps'));
    for (let n = 0; n < 10; n += 1) await note(`outline ${n}`, client.ask('textDocument/documentSymbol', 'lamp.amps'));
    await findings;
    expect(order).toEqual([...Array.from({ length: 10 }, (_, n) => `outline ${n}`), 'findings']);
  });

  it('another document is answered first where it takes less', async () => {
    const { analyse } = slowly({ named: 0, whole: 800 });
    const client = await connect({
      workings: {
        analyse: (...given) => (given[0].endsWith('slow.amps') ? analyse(...given) : analyseInSteps(...given)),
      },
    });
    client.open('slow.amps', lamp());
    client.open('lamp.amps', lamp('0.5 mm²'));
    const { order, note } = ordered();
    const slow = note('slow', client.codes('slow.amps'));
    await pause(20);
    expect(await note('quick', client.codes('lamp.amps'))).toContain('cable-too-small');
    await slow;
    expect(order).toEqual(['quick', 'slow']);
  });
});

describe('the newest edit', () => {
  it('ends the working out of the text before it, and is the only one told of', async () => {
    const { analyse, told } = slowly({ named: 0, whole });
    const client = await connect({ capabilities: pushed, workings: { analyse } });
    client.open('lamp.amps', edit(1, '0.5 mm²'));
    await until('the first is begun', () => told.includes(`named ${firstLine(1)}`));
    client.change('lamp.amps', { text: edit(2) });
    await until('the second is told of', () => client.newest('lamp.amps') !== undefined);
    await settle();
    expect(told).toEqual([
      `begun ${firstLine(1)}`,
      `named ${firstLine(1)}`,
      `left ${firstLine(1)}`,
      `begun ${firstLine(2)}`,
      `named ${firstLine(2)}`,
      `whole ${firstLine(2)}`,
    ]);
    expect(client.published).toEqual([{ uri: uri('lamp.amps'), version: 2, diagnostics: [] }]);
  });

  it('wins whatever was asked before it: no answer is from an older text', async () => {
    const { analyse, told } = slowly({ named: 30, whole: 200 });
    const client = await connect({ workings: { analyse } });
    client.open('lamp.amps', edit(1, '0.5 mm²'));
    const answers = [client.codes('lamp.amps')];
    const outlines: Promise<DocumentSymbol[]>[] = [];
    for (let n = 2; n <= 8; n += 1) {
      await pause(20);
      client.change('lamp.amps', { text: edit(n, n === 8 ? '4 mm²' : '0.5 mm²') });
      answers.push(client.codes('lamp.amps'));
      outlines.push(client.ask<DocumentSymbol[]>('textDocument/documentSymbol', 'lamp.amps'));
    }
    expect(await Promise.all(answers)).toEqual(Array.from({ length: 8 }, () => []));
    for (const outline of await Promise.all(outlines)) expect(outline[0]?.name).toBe('Edit 8');
    expect(told.filter((one) => one.startsWith('whole'))).toEqual([`whole ${firstLine(8)}`]);
  });

  it('shows in hover at once, and figures of the text before it never', async () => {
    const { analyse } = slowly({ named: 0, whole: 300 });
    const client = await connect({ workings: { analyse } });
    client.open('lamp.amps', lamp());
    await client.codes('lamp.amps');
    const before = textOf(await client.ask<Hover>('textDocument/hover', 'lamp.amps', onRun));
    const drop = /[\d.]+ m?V/.exec(before)?.[0] ?? 'no drop';
    expect(before).toContain(drop);
    client.change('lamp.amps', { text: lamp().replace('1.2 m', '12 m') });
    const after = textOf(await client.ask<Hover>('textDocument/hover', 'lamp.amps', onRun));
    expect(after).toContain('12 m');
    expect(after).toContain('being worked out');
    expect(after).not.toContain(drop);
  });

  it('of a used file ends the working out of its users as well', async () => {
    const { analyse, told } = slowly({ named: 0, whole });
    const client = await connect({ workings: { analyse } });
    client.open('stock.amps', stock('0.5 mm²'));
    client.open('lamp.amps', lampFromStock);
    const codes = client.codes('lamp.amps');
    const first = lampFromStock.split('\n')[0] ?? '';
    await until('it is begun', () => told.includes(`named ${first}`));
    client.change('stock.amps', { text: stock('4 mm²') });
    expect(await codes).toEqual([]);
    expect(told.filter((one) => one.endsWith(first))).toEqual([
      `begun ${first}`,
      `named ${first}`,
      `left ${first}`,
      `begun ${first}`,
      `named ${first}`,
      `whole ${first}`,
    ]);
  });

  it('waits for nothing where the work is cheap, and for a pause in typing where it is not', async () => {
    const { analyse, told } = slowly({ named: 0, whole: 150 });
    const client = await connect({ capabilities: pushed, workings: { analyse } });
    client.open('lamp.amps', edit(1));
    await until('the first is told of', () => client.newest('lamp.amps') !== undefined);
    await settle();
    // After a rest an edit is worked out at once; those that follow quickly wait, and the last of them counts.
    for (let n = 2; n <= 6; n += 1) {
      client.change('lamp.amps', { text: edit(n) });
      await pause(40);
    }
    await until('the last is told of', () => client.newest('lamp.amps')?.version === 6);
    expect(told.filter((one) => one.startsWith('begun'))).toEqual([1, 2, 6].map((n) => `begun ${firstLine(n)}`));
  });
});

describe('a question that is cancelled', () => {
  const cancelledAfter = async (client: TestClient, method: string, more: object, milliseconds: number) => {
    const source = new CancellationTokenSource();
    const params = { textDocument: { uri: uri('lamp.amps') }, ...more };
    const asked = client.connection.sendRequest(method, params, source.token).then(
      () => 'answered',
      ({ code }: ResponseError) => code,
    );
    await pause(milliseconds);
    source.cancel();
    return asked;
  };

  it.each([
    ['textDocument/diagnostic', {}],
    ['textDocument/hover', onRun],
    ['textDocument/inlayHint', { range: { start: { line: 0, character: 0 }, end: { line: 9, character: 0 } } }],
    ['textDocument/semanticTokens/full', {}],
    ['textDocument/codeLens', {}],
  ])('%s: is answered so at once, and not when the work ends', async (method, more) => {
    const { analyse, told } = slowly({ named: 300, whole: 100 });
    const client = await connect({ workings: { analyse } });
    client.open('lamp.amps', lamp('0.5 mm²'));
    expect(await cancelledAfter(client, method, more, 30)).toBe(LSPErrorCodes.RequestCancelled);
    expect(told.filter((one) => !one.startsWith('begun'))).toEqual([]);
    // The work goes on for whoever asks next.
    expect(await client.codes('lamp.amps')).toContain('cable-too-small');
    expect(told.filter((one) => one.startsWith('begun'))).toHaveLength(1);
    expect(client.logged).toEqual([]);
  });
});

describe('a big answer', () => {
  const bars = (count: number) => Array.from({ length: count }, (_, n) => `busbar BAR${n}  100 A\n`).join('');

  /** The parts that came before the answer, and what the answer still held. */
  const inParts = async <T>(client: TestClient, method: string, more: object) => {
    const parts: T[][] = [];
    const listening = client.connection.onNotification('$/progress', ({ value }: { value: T[] }) => {
      parts.push(value);
    });
    const rest = await client.connection.sendRequest<T[]>(method, { ...more, partialResultToken: 'parts' });
    listening.dispose();
    return { parts, rest };
  };

  it('comes in parts to a client that asks for them: the same as in one', async () => {
    const client = await connect();
    client.open('one.amps', bars(150));
    client.open('two.amps', bars(250));
    const all = await client.connection.sendRequest<object[]>('workspace/symbol', { query: 'bar' });
    expect(all).toHaveLength(400);
    const { parts, rest } = await inParts<object>(client, 'workspace/symbol', { query: 'bar' });
    expect(parts.map(({ length }) => length)).toEqual([150, 200, 50]);
    expect(parts.flat()).toEqual(all);
    expect(rest).toEqual([]);
  });

  it('of references as well', async () => {
    const client = await connect();
    const runs = Array.from({ length: 300 }, (_, n) => `run W${n}  4 mm² red, 1 m, BAR:1 to B${n}:+\n`).join('');
    client.open('one.amps', `busbar BAR  100 A\n${runs}`);
    const params = {
      textDocument: { uri: uri('one.amps') },
      position: { line: 0, character: 8 },
      context: { includeDeclaration: true },
    };
    const all = await client.connection.sendRequest<object[]>('textDocument/references', params);
    expect(all).toHaveLength(301);
    const { parts, rest } = await inParts<object>(client, 'textDocument/references', params);
    expect(parts.map(({ length }) => length)).toEqual([200, 101]);
    expect(parts.flat()).toEqual(all);
    expect(rest).toEqual([]);
  });
});
