/** Supply as a call hierarchy, followed step by step through a sample. */
import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { analyse } from '../../server/analysis.ts';
import { diskSource, uriOf } from '../../server/cli/files.ts';
import { fed, feeding, prepareSupply, type SupplyData } from '../../server/editor/supply.ts';
import { analyseText } from '../analysed.ts';
import { placeOf } from './hovering.ts';

const van = analyse(uriOf(resolve('samples/spokewagon.amps')), diskSource());
type Call = { readonly name: string; readonly detail: string | undefined; readonly data: SupplyData };

function start(word: string, nth = 1, within = 0, analysis = van): Call {
  const [item] = prepareSupply(analysis, placeOf(String(analysis.text), word, nth) + within);
  if (item === undefined) throw new Error(`nothing at ${word}`);
  return { name: item.name, detail: item.detail, data: item.data as SupplyData };
}

const above = ({ data }: Call, analysis = van): Call[] =>
  feeding(analysis, data).map(({ from }) => ({ name: from.name, detail: from.detail, data: from.data as SupplyData }));
const below = ({ data }: Call, analysis = van): Call[] =>
  fed(analysis, data).map(({ to }) => ({ name: to.name, detail: to.detail, data: to.data as SupplyData }));

/** Names on the way, always taking what brings or takes most. */
function follow(from: Call, next: (call: Call) => Call[]): string[] {
  const names: string[] = [];
  for (let at = next(from)[0]; at !== undefined && names.length < 20; at = next(at)[0]) names.push(at.name);
  return names;
}

describe('what feeds a part', () => {
  it('is followed from a lamp to the battery', () => {
    expect(follow(start('BENCH'), above)).toEqual(['S2', 'FB', 'F8', 'POS', 'Q2', 'F1', 'B1']);
  });

  it('tells the cable, its current and the protective device of each step', () => {
    const [first] = above(start('PUMP'));
    expect(first?.detail).toBe('switch “Pump switch”, by W50 red, 6 A, protected by FB:4 (10 A)');
  });

  it('branches where several sources meet, the strongest first', () => {
    const bar = above(start('POS'));
    expect(bar.map(({ name }) => name)).toEqual(['Q2', 'F4']);
    expect(above(bar[0] as Call).map(({ name }) => name)).toEqual(['F1', 'F2']);
  });

  it('goes on through what converts, from its output to its input', () => {
    const [controller] = above(start('F2'));
    expect(controller?.name).toBe('U1');
    expect(above(controller as Call).map(({ name }) => name)).toEqual(['PV-POS']);
    expect(above(start('U2')).map(({ name }) => name)).toEqual(['F3']);
  });

  it('of a battery is what charges it', () => {
    expect(above(start('B1')).map(({ name }) => name)).toEqual(['F1']);
    expect(follow(start('B2'), above)).toEqual(['F5', 'A1']);
  });

  it('of a panel is nothing, though another could drive it backwards into a fault', () => {
    expect(above(start('P1'))).toEqual([]);
    const string = below(start('P1'))[0] as Call;
    expect(string.name).toBe('Q1');
    // One pole of four, and not the other string’s.
    expect(below(string).map(({ name }) => name)).toEqual(['PV-POS']);
    expect(below(below(string)[0] as Call).map(({ name }) => name)).toEqual(['U1']);
  });
});

describe('what a part feeds', () => {
  it('is each circuit behind it, the strongest first', () => {
    const names = below(start('FB')).map(({ name }) => name);
    expect(names.slice(0, 2)).toEqual(['S3', 'FRIDGE']);
    expect([...names].sort()).toEqual(['CABIN', 'FAN', 'FRIDGE', 'HEATER', 'S1', 'S2', 'S3', 'USB']);
  });

  it('ends at loads', () => {
    expect(below(start('FRIDGE'))).toEqual([]);
    expect(follow(start('F7'), below)).toEqual(['K1', 'COMPRESSOR']);
  });

  it('from one terminal is what hangs on that alone', () => {
    const way = start('FB:3', 1, 4);
    expect(way.name).toBe('FB:3');
    expect(below(way).map(({ name }) => name)).toEqual(['FRIDGE']);
    expect(above(way).map(({ name }) => name)).toEqual(['F8']);
  });

  it('of a run is what stands at its end, and what feeds it at its other', () => {
    const run = start('W13');
    expect([below(run), above(run)].map((calls) => calls.map(({ name }) => name))).toEqual([
      ['POS', 'Q2'],
      ['Q2', 'POS'],
    ]);
  });
});

describe('the hierarchy', () => {
  it('points at the words of each step', () => {
    const [call] = feeding(van, start('PUMP').data);
    const words = (call?.fromRanges ?? []).map(({ start: from, end }) =>
      van.text.slice(van.lines.offset(from), van.lines.offset(end)),
    );
    expect(words).toEqual(['S3:2']);
    const [onward] = fed(van, start('S3').data);
    expect(
      (onward?.fromRanges ?? []).map(({ start: from, end }) =>
        van.text.slice(van.lines.offset(from), van.lines.offset(end)),
      ),
    ).toEqual(['S3:2']);
  });

  it.each([
    ['a place', 'place LO|FT  50 °C\n'],
    ['a box', 'enclosure B|OX  plastic\n'],
    ['a case', 'load A  5 W\ncase ni|ght  A on\n'],
    ['a keyword', 'lo|ad A  5 W\n'],
    ['a remark', '# l|oad\n'],
  ])('has nothing to say of %s', (_, source) => {
    const offset = source.indexOf('|');
    expect(prepareSupply(analyseText(source.replace('|', '')), offset)).toEqual([]);
  });

  it('tells what is not protected, and what no case switches on', () => {
    const text = `battery B1  lead-acid, 12 V, 80 Ah
load LAMP  24 W
run W1  4 mm² red, 1 m, B1:+ to LAMP:+
run W2  4 mm² black, 1 m, B1:- to LAMP:-
case never  sun 0 %
`;
    const analysis = analyseText(text);
    expect(above(start('LAMP', 1, 0, analysis), analysis).map(({ detail }) => detail)).toEqual([
      'battery, by W1 red, no current in any case, unprotected from B1',
    ]);
  });

  it('of a name that is gone meanwhile is empty', () => {
    expect(feeding(van, { spec: van.uri, name: 'GONE' })).toEqual([]);
    expect(fed(van, { spec: van.uri, name: 'GONE', entered: 'GONE:1', by: 'W0 0' })).toEqual([]);
  });
});
