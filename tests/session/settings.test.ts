/** Settings of a client change how serious its findings are told to be, at once and file by file. */
import { describe, expect, it } from 'vitest';
import { DiagnosticSeverity } from 'vscode-languageserver/node';
import { connect, pulling, pushed, settle, type TestClient, until, uri } from './client.ts';
import { lamp } from './specs.ts';

const asked = {
  ...pulling,
  workspace: { ...pulling.workspace, configuration: true, didChangeConfiguration: { dynamicRegistration: true } },
};
const small = lamp('1 mm²');
const change = (client: TestClient, settings: unknown) =>
  client.connection.sendNotification('workspace/didChangeConfiguration', { settings });

/** Answers for the settings; notes what it was asked for. */
function answering(client: TestClient, settings: () => unknown): { scopeUri?: string; section?: string }[] {
  const questions: { scopeUri?: string; section?: string }[] = [];
  client.connection.onRequest('workspace/configuration', ({ items }: { items: typeof questions }) => {
    questions.push(...items);
    return items.map(settings);
  });
  return questions;
}

describe('a client that answers for its settings', () => {
  it('is asked by file, once, and again when they changed', async () => {
    let severity: unknown = { 'cable-too-small': 'advice' };
    const client = await connect({ capabilities: asked });
    const questions = answering(client, () => ({ severity }));
    await until('registered', () => client.registered.includes('workspace/didChangeConfiguration'));
    client.open('lamp.amps', small);
    const [first, ...more] = await client.items('lamp.amps');
    expect(more).toEqual([]);
    expect(first).toMatchObject({ code: 'cable-too-small', severity: DiagnosticSeverity.Information });
    expect(questions).toEqual([{ scopeUri: uri('lamp.amps'), section: 'ampscribe' }]);
    client.change('lamp.amps', { text: `${small}\n` });
    await client.items('lamp.amps');
    expect(questions.length).toBe(1);

    severity = { 'cable-too-small': 'off' };
    const { refreshes } = client;
    await change(client, null);
    await until('asked to pull again', () => client.refreshes > refreshes);
    expect(await client.items('lamp.amps')).toEqual([]);
    expect(questions.length).toBe(2);
    severity = {};
    await change(client, null);
    expect(await client.items('lamp.amps')).toMatchObject([{ severity: DiagnosticSeverity.Error }]);
  });

  it.each([
    ['nothing', () => null],
    ['what makes no sense', () => ({ severity: ['loud'] })],
    [
      'an error',
      () => {
        throw new Error('no settings here');
      },
    ],
  ])('and answers %s has the usual severities', async (_, settings) => {
    const client = await connect({ capabilities: asked });
    answering(client, settings);
    client.open('lamp.amps', small);
    expect(await client.items('lamp.amps')).toMatchObject([{ severity: DiagnosticSeverity.Error }]);
  });

  it('but never does has its findings all the same', async () => {
    const client = await connect({ capabilities: asked });
    client.connection.onRequest('workspace/configuration', () => new Promise(() => {}));
    client.open('lamp.amps', small);
    expect(await client.items('lamp.amps')).toMatchObject([{ severity: DiagnosticSeverity.Error }]);
  });
});

describe('a client that cannot be asked', () => {
  it('hands its settings over at the start', async () => {
    const settings = { severityByFile: { 'van/*.amps': { 'cable-too-small': 'off' } } };
    const client = await connect({ options: { settings } });
    client.open('lamp.amps', small);
    expect(await client.items('lamp.amps')).toEqual([]);
  });

  it.each([
    ['its own', { severity: { 'cable-too-small': 'warning' } }],
    ['all', { ampscribe: { severity: { 'cable-too-small': 'warning' } }, other: 1 }],
  ])('hands %s over when they change, and has its findings pushed anew', async (_, settings) => {
    const client = await connect({ capabilities: pushed });
    client.open('lamp.amps', small);
    await until('pushed', () => client.newest('lamp.amps')?.diagnostics[0]?.severity === DiagnosticSeverity.Error);
    await change(client, settings);
    await until(
      'pushed again',
      () => client.newest('lamp.amps')?.diagnostics[0]?.severity === DiagnosticSeverity.Warning,
    );
    await settle();
    expect(client.logged).toEqual([]);
  });
});

describe('what is off', () => {
  it('is offered no mend either', async () => {
    const client = await connect({ options: { settings: { severity: { 'cable-too-small': 'off' } } } });
    client.open('lamp.amps', small);
    const range = { start: { line: 0, character: 0 }, end: { line: 100, character: 0 } };
    const actions = await client.ask<object[]>('textDocument/codeAction', 'lamp.amps', {
      range,
      context: { diagnostics: [], only: ['quickfix', 'source.fixAll'] },
    });
    expect(actions).toEqual([]);
  });
});
