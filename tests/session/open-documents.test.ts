/** Changes that an editor sends make of an open document what a general library makes of it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { TextDocumentContentChangeEvent } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { openDocuments } from '../../server/session/open-documents.ts';

const text = fc
  .array(fc.constantFrom('run W1', ' ', '\n', '\r\n', '\r', 'Ω', '💡', 'x'.repeat(9000), 'fuse F1 5 A\n'.repeat(900)), {
    maxLength: 8,
  })
  .map((pieces) => pieces.join(''));
const position = fc.record({ line: fc.oneof(fc.nat(4), fc.nat(3000)), character: fc.oneof(fc.nat(6), fc.nat(10_000)) });
const change: fc.Arbitrary<TextDocumentContentChangeEvent> = fc.oneof(
  { weight: 9, arbitrary: fc.record({ range: fc.record({ start: position, end: position }), text }) },
  { weight: 1, arbitrary: fc.record({ text }) },
);

describe('an open document', () => {
  it('says after every change what the client says', () => {
    fc.assert(
      fc.property(text, fc.array(fc.array(change, { maxLength: 3 }), { maxLength: 4 }), (first, versions) => {
        let own = openDocuments.create('a.amps', 'ampscribe', 1, first);
        let text = first;
        for (const [n, changes] of versions.entries()) {
          own = openDocuments.update(own, changes, n + 2);
          for (const one of changes) {
            // Anew every time: what the library keeps of lines is wrong after a range beyond the text's end.
            const other = TextDocument.create('a.amps', 'ampscribe', 1, text);
            text = TextDocument.update(other, [one], 2).getText();
          }
          expect(String(own.text)).toBe(text);
        }
        expect([own.uri, own.version]).toEqual(['a.amps', versions.length + 1]);
      }),
    );
  });
});
