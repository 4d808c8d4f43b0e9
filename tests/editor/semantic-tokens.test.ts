/** Semantic tokens, read back from the protocol’s numbers and written beside the words they colour. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { semanticTokens, tokenEdits, tokensLegend } from '../../server/editor/semantic-tokens.ts';
import { analyseText } from '../analysed.ts';

function decoded(text: string, data = semanticTokens(analyseText(text))) {
  const lines = text.split('\n');
  const tokens: { line: number; start: number; word: string; type: string }[] = [];
  let [line, start] = [0, 0];
  for (let i = 0; i < data.length; i += 5) {
    const [down = 0, right = 0, length = 0, type = 0, bits = 0] = data.slice(i, i + 5);
    line += down;
    start = down === 0 ? start + right : right;
    const more = tokensLegend.tokenModifiers.filter((_, bit) => (bits & (1 << bit)) !== 0);
    tokens.push({
      line,
      start,
      word: lines[line]?.slice(start, start + length) ?? '',
      type: [tokensLegend.tokenTypes[type], ...more].join('.'),
    });
  }
  return tokens;
}
const words = (text: string, line: number) =>
  decoded(text)
    .filter((token) => token.line === line)
    .map(({ word, type }) => `${word} ${type}`);

const text = `system "Shed" 12 V
battery B1  lead-acid, 12 V, 80 Ah  # 5 A
fuse F1  ? A, blade, 32 V
stock thin  cable 4 mm²
load LAMP  24 W
place SHED  40 °C
busbar NEG  50 A, at SHED
isolator Q1  2 poles, 20 A dc
run W1  = thin red, 0.1 m, along SHED, B1:+ to F1:in
run W2  = thin red, 3 m, F1:out to Q1:1
run W3  = thin red, 3 m, Q1:2 to LAMP:+
run W4  = thin green/yellow, 3 m, LAMP:- to NEG
run W5  = thin black, 3 m, NEG to B1:-
case night  LAMP on, B1 charge 50 %
allow switch-below-fuse on Q1 "it is never off"
run W6  = thin red, 1 m, Q1:3 to Q1:4
`;

describe('semantic tokens', () => {
  it('tell names, terminals, cores and quantities apart, and plus from minus on both sides of devices', () => {
    expect(words(text, 1)).toEqual(['B1 part.declaration', '12 quantity', 'V unit', '80 quantity', 'Ah unit']);
    expect(words(text, 2)).toEqual(['F1 part.declaration', '? blank', 'A unit', '32 quantity', 'V unit']);
    expect(words(text, 8)).toEqual([
      'W1 run.declaration',
      'thin stock',
      'red colour.positive',
      '0.1 quantity',
      'm unit',
      'SHED place',
      'B1 part',
      '+ terminal.positive',
      'F1 part',
      'in terminal.positive',
    ]);
    expect(words(text, 10).slice(-4)).toEqual(['Q1 part', '2 terminal.positive', 'LAMP part', '+ terminal.positive']);
    expect(words(text, 11).slice(-3)).toEqual(['LAMP part', '- terminal.negative', 'NEG part.negative']);
    expect(words(text, 11)).toContain('green/yellow colour.negative');
    expect(words(text, 13)).toEqual(['night case.declaration', 'LAMP part', 'B1 part', '50 quantity', '% unit']);
    expect(words(text, 14)).toEqual(['switch-below-fuse finding', 'Q1 part']);
  });

  it('leave what is joined to no source without a sign, and what is joined to both', () => {
    expect(words(text, 15).filter((word) => word.includes('terminal'))).toEqual(['3 terminal', '4 terminal']);
    const series = `panel P1 and P2  80 W, voc 22 V, isc 4 A, vmp 18 V, imp 4 A
run W1  4 mm² red, 1 m, P1:- to P2:+
run W2  4 mm² red, 1 m, P2:- to P1:-
`;
    expect(words(series, 1).filter((word) => word.includes('terminal'))).toEqual(['- terminal', '+ terminal']);
  });

  it('mark where a finding is accepted', () => {
    const accepted = `system "Lamp" 12 V
battery B1  lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1  20 A, blade, 32 V
load LAMP  24 W
run W1  4 mm² red, 0.1 m, B1:+ to F1:in
run W2  0.5 mm² red, 1.2 m, F1:out to LAMP:+
run W3  4 mm² black, 1.4 m, LAMP:- to B1:-
allow cable-too-small on W2 "a test"
`;
    const analysis = analyseText(accepted);
    expect(analysis.accepted).toHaveLength(1);
    const marked = decoded(accepted).filter(({ type }) => type.includes('accepted'));
    expect(marked.map(({ line, word }) => `${line} ${word}`)).toEqual(['5 0.5', '5 mm²']);
  });

  it('of a range are those of all that lie in it, those that reach into it included', () => {
    const analysis = analyseText(text);
    const all = decoded(text);
    const lineStarts = [...text.matchAll(/^/gmu)].map(({ index }) => index);
    const place = ({ line, start, word }: (typeof all)[number]) => {
      const from = (lineStarts[line] ?? 0) + start;
      return { from, to: from + word.length };
    };
    fc.assert(
      fc.property(fc.nat(text.length), fc.nat(text.length), (one, other) => {
        const [start, end] = [Math.min(one, other), Math.max(one, other)];
        const some = decoded(text, semanticTokens(analysis, { start, end }));
        const wanted = all.filter((token) => place(token).from < end && place(token).to > start);
        expect(some).toEqual(wanted);
      }),
    );
  });

  it('change by one edit that gives the new ones from the old', () => {
    const numbers = fc.array(fc.nat(9), { maxLength: 60 });
    fc.assert(
      fc.property(numbers, numbers, (before, after) => {
        const [edit] = tokenEdits(before, after);
        const changed =
          edit === undefined
            ? before
            : [...before.slice(0, edit.start), ...(edit.data ?? []), ...before.slice(edit.start + edit.deleteCount)];
        expect(changed).toEqual(after);
      }),
    );
    expect(tokenEdits([1, 2], [1, 2])).toEqual([]);
    const before = semanticTokens(analyseText(text));
    const after = semanticTokens(analyseText(text.replace('24 W', '240 W')));
    const [edit] = tokenEdits(before, after);
    expect(edit?.data?.length ?? 0).toBeLessThan(10);
  });
});

describe('the manifest', () => {
  interface Named {
    readonly id: string;
    readonly description: string;
  }
  const { contributes } = JSON.parse(readFileSync('package.json', 'utf8')) as {
    contributes: {
      semanticTokenTypes: Named[];
      semanticTokenModifiers: Named[];
      semanticTokenScopes: { language: string; scopes: Record<string, string[]> }[];
    };
  };

  it('names every type and modifier, and gives themes a scope for each', () => {
    expect(contributes.semanticTokenTypes.map(({ id }) => id)).toEqual(tokensLegend.tokenTypes);
    expect(contributes.semanticTokenModifiers.map(({ id }) => id)).toEqual(
      tokensLegend.tokenModifiers.filter((one) => one !== 'declaration'),
    );
    const [scopes] = contributes.semanticTokenScopes;
    expect(scopes?.language).toBe('ampscribe');
    const selectors = Object.keys(scopes?.scopes ?? {});
    for (const type of tokensLegend.tokenTypes) expect(selectors).toContain(type);
    for (const sign of ['positive', 'negative', 'accepted']) expect(selectors).toContain(`*.${sign}`);
  });
});
