import { describe, expect, it } from 'vitest';
import type { Hover, MarkupContent } from 'vscode-languageserver/node';
import { connect, pulling } from './client.ts';

const text = 'isolator Q1 2 poles, 25 A dc\n';

describe('hover', () => {
  it.each([
    ['with a picture for a client that says it shows them', ['markdown', 'plaintext'], { pictures: true }, true],
    ['without for one that says nothing', ['markdown', 'plaintext'], undefined, false],
    ['without for one that shows plain text', ['plaintext'], { pictures: true }, false],
  ] as const)('comes %s', async (_what, contentFormat, options, drawn) => {
    const client = await connect({
      capabilities: {
        ...pulling,
        textDocument: { ...pulling.textDocument, hover: { contentFormat: [...contentFormat] } },
      },
      ...(options === undefined ? {} : { options }),
    });
    client.open('spec.amps', text);
    const here = await client.ask<Hover>('textDocument/hover', 'spec.amps', { position: { line: 0, character: 10 } });
    expect((here.contents as MarkupContent).value.includes('data:image/svg+xml;base64,')).toBe(drawn);
    await client.shutdown();
  });
});
