import { describe, expect, it } from 'vitest';
import { SymbolKind } from 'vscode-languageserver';
import { analyse } from '../../server/analysis.ts';
import { workspaceSymbols } from '../../server/editor/workspace-symbols.ts';
import { memorySource } from '../analysed.ts';

const files = {
  'van.amps': `system "Van" 12 V
panel P1 and P2 "Roof"  80 W, voc 22 V, isc 4 A, vmp 18 V, imp 4 A
isolator Q1 "Roof isolator"  4 poles, 25 A dc
link Q1  1-3, 2-4
run W1  4 mm² red, 1 m, P1:+ to Q1:1
place ROOF  outdoors
case noon  sun 90 %
`,
  'stock.amps': 'stock thin  cable 1 mm²\n',
};
const specs = Object.keys(files).map((name) => analyse(`memory:///${name}`, memorySource(files)));
const found = (query: string) => workspaceSymbols(specs, query).map(({ name }) => name);

describe('workspace symbols', () => {
  it('are all that is declared in any file, with what it is and where', () => {
    expect(found('')).toEqual(['Van', 'P1', 'P2', 'Q1', 'W1', 'ROOF', 'noon', 'thin']);
    const [isolator] = workspaceSymbols(specs, 'Q1');
    expect(isolator).toEqual({
      name: 'Q1',
      kind: SymbolKind.Boolean,
      containerName: 'isolator “Roof isolator”, van.amps',
      location: {
        uri: 'memory:///van.amps',
        range: { start: { line: 2, character: 9 }, end: { line: 2, character: 11 } },
      },
    });
    expect(workspaceSymbols(specs, 'thin')).toMatchObject([
      { containerName: 'cable stock, stock.amps', location: { uri: 'memory:///stock.amps' } },
    ]);
  });

  it.each([
    ['q1', ['Q1']],
    ['ROOF', ['ROOF', 'P1', 'P2', 'Q1']],
    ['in', ['thin']],
    ['oo', ['ROOF', 'noon', 'P1', 'P2', 'Q1']],
    ['roof isol', ['Q1']],
    ['rsltr', ['Q1']],
    ['tin', ['thin']],
    ['nothing like it', []],
  ])('for “%s” are those that have its letters in their order', (query, names) => {
    expect(found(query)).toEqual(names);
  });

  it('stop where nobody reads on', () => {
    const many = Array.from({ length: 600 }, (_, n) => `load L${n}  1 W`).join('\n');
    const spec = analyse('memory:///spec.amps', memorySource({ 'spec.amps': many }));
    expect(workspaceSymbols([spec], 'l')).toHaveLength(500);
    expect(workspaceSymbols([spec], 'L599')).toHaveLength(1);
    expect(workspaceSymbols([spec], 'L59').map(({ name }) => name)[0]).toBe('L59');
  });
});
