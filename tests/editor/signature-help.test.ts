import { describe, expect, it } from 'vitest';
import type { Analysis } from '../../server/analysis.ts';
import { formInWords } from '../../server/editor/hover/form.ts';
import { signatureHelp } from '../../server/editor/signature-help.ts';
import { allKinds, allStatements } from '../../server/kinds/all.ts';
import { analyseText } from '../analysed.ts';

const markdown = { markdown: true };

/** Labels at the `|`, the parameter that is next in «…». */
function shown(marked: string): string[] | undefined {
  const offset = marked.indexOf('|');
  const found = signatureHelp(analyseText(marked.replace('|', '')), offset, markdown);
  return found?.signatures.map(({ label, parameters = [], activeParameter }) => {
    const active =
      activeParameter === undefined || activeParameter === null ? undefined : parameters[activeParameter]?.label;
    if (!Array.isArray(active)) return label;
    const [start, end] = active as [number, number];
    return `${label.slice(0, start)}«${label.slice(start, end)}»${label.slice(end)}`;
  });
}

describe('the form of a clause', () => {
  it.each([
    ['while its value is missing', 'panel P1  80 W, isc |', ['isc «‹current›»', 'isc drift ‹drift›']],
    ['while its number has no unit', 'panel P1  80 W, voc 22|', undefined],
    ['at the value the pointer is in', 'run W1  4 mm² red, 1 m, F1:in to F|1:out', ['‹from› to «‹to›»']],
    ['at its first value', 'run W1  4 mm² red, 1 m, F|1:in to F1:out', ['«‹from›» to ‹to›']],
    ['behind a keyword in it', 'run W1  4 mm² red, 1 m, F1:in to |', ['‹from› to «‹to›»']],
    ['of a stock, by its kind', 'stock thin  cable 4 mm², od |', ['od «‹diameter›»']],
    ['on a line that goes on', 'load HORN  120 W,\n    surge |\n', ['surge «‹surge›» [for ‹time›]']],
    [
      'at the one of several values with one name that its keyword tells',
      'run W1  1 mm², 2 m,\n    enters BOX by conduit |\n',
      ['enters ‹enclosure› [by gland [‹size›] | by grommet [‹size›] | by conduit [«‹size›»] | by ‹entry› | open]'],
    ],
    [
      'at such a value that is written',
      'fusebox FB  6 ways,\n    ways 2| to 4 fuse 5 A\n',
      ['(way ‹way› | ways «‹way›» to ‹last›) fuse ‹rating› [most ‹most›]'],
    ],
    [
      'at a value that is a number or a keyword',
      'selector S9  200 A\ncase night  S9 at |\n',
      ['‹selector› at («‹position›» | off | both)'],
    ],
  ])('is told %s', (_, marked, labels) => {
    const told = shown(marked);
    if (labels === undefined) expect(told?.some((label) => label.includes('‹voltage›'))).toBe(true);
    else expect(told).toEqual(labels);
  });

  it('comes with what it means and an example', () => {
    const text = 'panel P1  80 W, voc ';
    const found = signatureHelp(analyseText(text), text.length, markdown);
    expect(found?.signatures[0]?.documentation).toMatchObject({
      kind: 'markdown',
      value: expect.stringMatching(/^Open-circuit voltage[\s\S]*Example: `voc /),
    });
    const plain = signatureHelp(analyseText(text), text.length, { markdown: false });
    expect(plain?.signatures[0]?.documentation).not.toContain('`');
  });
});

/** A statement of each kind with one of its clauses as its example has it. */
const examples = [...allStatements, ...allKinds]
  .filter(({ word }) => word !== 'stock')
  .flatMap((spec) =>
    spec.clauses.map((clause) => {
      const name = spec.head === 'none' ? '' : ` ${spec.word === 'case' ? 'noon' : 'X1'}`;
      return { spec, clause, text: `${spec.word}${name}  ${clause.example}\n` };
    }),
  );

describe('each value of each clause', () => {
  it('is the parameter while the pointer is in it, and the next one before it is written', () => {
    expect(examples.length).toBeGreaterThan(200);
    for (const { spec, clause, text } of examples) {
      const analysis = analyseText(text);
      const [statement] = analysis.tree.statements;
      const read = statement?.shaped.clauses.find((one) => one.spec.id === clause.id);
      expect([text, read === undefined]).toEqual([text, false]);
      const { label, slots } = formInWords(clause.form);
      for (const { slot, span } of read?.values ?? []) {
        const told = (at: Analysis, offset: number) => {
          const signature = signatureHelp(at, offset, markdown)?.signatures.find((one) => one.label === label);
          return slots[signature?.activeParameter ?? -1]?.slot;
        };
        for (const offset of [span.start, span.end])
          expect([text, offset, told(analysis, offset)]).toEqual([text, offset, slot]);
        const before = text.slice(0, span.start);
        // A clause that begins with its value is told with its statement; a time may be left out before the ends of a reading.
        if (before.trim().split(/\s+/u).length > (spec.head === 'none' ? 1 : 2) && slot !== 'from')
          expect([before, told(analyseText(before), before.length)]).toEqual([before, slot]);
      }
    }
  });
});

describe('the clauses of a statement', () => {
  it('are told behind its name and behind a comma, what must be said first', () => {
    expect(shown('fuse F1  |')?.[0]).toMatch(/^fuse F1 {2}«‹rating›», /u);
    expect(shown('|')).toBeUndefined();
    expect(shown('fuse |')?.[0]).toMatch(/^fuse ‹name› {2}«/u);
    const behind = shown('fuse F1  5 A, |')?.[0] ?? '';
    expect(behind).toMatch(/^fuse F1 {2}/u);
    expect(behind).not.toContain('‹rating›');
    expect(behind).not.toContain('«');
  });

  it('leave out what is said, and what another of its kind says already', () => {
    const [label = ''] = shown('load LAMP  24 W, lowest 10 V, |') ?? [];
    expect(label).not.toMatch(/‹power›|‹resistance›|lowest/u);
    expect(label).toContain('essential');
  });

  it('of a stock are told as a stock says them', () => {
    expect(shown('stock thin  cable 4 mm², |')?.[0]).toMatch(/^stock thin {2}cable class ‹class›, /u);
  });

  it('of a long kind end somewhere', () => {
    const [label = ''] = shown('panel P1  |') ?? [];
    expect(label.endsWith(', …')).toBe(true);
    expect(label.length).toBeLessThan(500);
  });
});

describe('nothing is told', () => {
  it.each([
    ['in a remark', 'fuse F1  5 A  # vo|c'],
    ['in a text', 'fuse F1 "ma|in"  5 A'],
    ['of a word that begins no statement', 'fusee F1  |'],
    ['at the margin', 'fuse F1  5 A\n|'],
  ])('%s', (_, marked) => {
    expect(shown(marked)).toBeUndefined();
  });
});
