/** Changes that an editor sends make of an open document what a general library makes of it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { TextDocumentContentChangeEvent } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { LineIndex } from '../../grammar/lines.ts';
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
          expect(String(own.written)).toBe(text);
        }
        // What is read has its lines where the client has them.
        expect(String(own.text)).toBe(text.replace(/\r(?!\n)/g, '\n'));
        const [lines, other] = [new LineIndex(own.text), TextDocument.create('a.amps', 'ampscribe', 1, text)];
        for (const at of [0, 1, 2, 3, 7, 8, 9, 9000, text.length - 1, text.length])
          if (text.slice(at - 1, at + 1) !== '\r\n' && at >= 0 && at <= text.length)
            expect(lines.position(at)).toEqual(other.positionAt(at));
        expect([own.uri, own.version]).toEqual(['a.amps', versions.length + 1]);
      }),
    );
  });
});
