import { describe, expect, it } from 'vitest';
import { offering, titles } from './offering.ts';

const hut = (runs: string, stock = '') => `system "Hut" 12 V
${stock}
battery B1  agm, 12 V, 60 Ah
fuse F1     5 A, blade, 32 V, breaks 2 kA
load LAMP   9 W

${runs}`;

describe('stock put in', () => {
  const kind = 'refactor.extract';

  it('takes what runs say alike of their cable, in whatever order, and leaves the rest and every comment', () => {
    const found = offering(
      hut(`# the feed
run W1  2.5 |mm² red, class 5, 0.1 m, 105 °C, B1:+ to F1:in  # short
run W2  2.5 mm² red, 2 m  # long
    105 °C, class 5  # bought new
    F1:out to LAMP:+
run W3  1.5 mm² black, class 5, 105 °C, 2 m, LAMP:- to B1:-
`),
      kind,
    );
    expect(titles(found)).toEqual(['Put 2.5 mm², class 5, 105 °C in stock as cable-2-5, for 2 runs']);
    expect(found.chosen('Put')).toBe(
      hut(`stock cable-2-5  cable 2.5 mm², class 5, 105 °C

# the feed
run W1  = cable-2-5 red, 0.1 m, B1:+ to F1:in  # short
run W2  = cable-2-5 red, 2 m  # long
    # bought new
    F1:out to LAMP:+
run W3  1.5 mm² black, class 5, 105 °C, 2 m, LAMP:- to B1:-
`),
    );
  });

  it('leaves a comma behind the name where it is', () => {
    const runs = (cable: string) =>
      `run W1, ${cable} red, 0.1 m, B1:+ to F1:in\nrun W2, ${cable} red, 2 m, F1:out to LAMP:+  # long\n`;
    const found = offering(hut(runs('2.5 mm²').replace('2.5', '2.5|')), kind);
    expect(found.chosen('Put')).toBe(hut(`stock cable-2-5  cable 2.5 mm²\n\n${runs('= cable-2-5')}`));
  });

  it('puts it with the stock there is, under a name that is free', () => {
    const stock = 'stock cable-6  cable 6 mm², tinned\n';
    const runs = `run W1  6 mm² red, 0.1 m, B1:+ to F1:in
run W2  6 mm² red, 2 m, F1:out to LAMP:+
run W3  = cable-6 black, 2 m, LAMP:- to |B1:-
`;
    expect(titles(offering(hut(runs, stock), kind))).toEqual([]);
    expect(offering(hut(runs.replace('|', '').replace('0.1', '|0.1'), stock), kind).chosen('Put')).toBe(
      hut(
        `run W1  = cable-7 red, 0.1 m, B1:+ to F1:in
run W2  = cable-7 red, 2 m, F1:out to LAMP:+
run W3  = cable-6 black, 2 m, LAMP:- to B1:-
`,
        `${stock}stock cable-7  cable 6 mm²\n`,
      ),
    );
  });

  it('takes what is in stock already, for one run too, whatever it costs', () => {
    const stock = 'stock thin  cable 2.5 mm², class 5, price 1.20 EUR a metre\nstock thick  cable 6 mm², class 5\n';
    const runs = 'run W1  class 5, 2.5 mm² red, 0.1 m, B1:+ to F1:in\nrun W2  2.5 mm² red, 2 m, F1:out to LAMP:+\n';
    const found = offering(hut(runs.replace('2.5', '|2.5'), stock), kind);
    expect(titles(found)).toEqual(['Take 2.5 mm², class 5 from stock thin, for W1']);
    expect(found.chosen('Take')).toBe(hut(runs.replace('class 5, 2.5 mm²', '= thin'), stock));
    const both = runs.replace('2.5 mm² red, 2 m', '2.5 mm² red, class 5, 2 m');
    const all = offering(hut(both.replace('2.5', '|2.5'), stock), kind);
    expect(titles(all)).toEqual(['Take 2.5 mm², class 5 from stock thin, for 2 runs']);
    expect(all.chosen('Take')).toBe(
      hut(both.replace('class 5, 2.5', '2.5').replaceAll(/2\.5 mm² red(, class 5)?/gu, '= thin red'), stock),
    );
    const twice = offering(hut(runs.replace('2.5', '|2.5'), `${stock}stock thin  cable 6 mm²\n`), kind);
    expect(titles(twice)).toEqual([]);
  });

  it('knows cables of several cores and gauges', () => {
    const two = (size: string) => `run W1  ${size}, 2 m
    red    F1:out to LAMP:+
    black  B1:- to LAMP:-
run W2  ${size}, 2 m
    red    F1:out to LAMP:+
    black  B1:- to LAMP:-
`;
    const found = (size: string) => titles(offering(hut(two(size).replace('2 m\n', '2 |m\n')), kind));
    expect(found('2 x 1.5 mm²')).toEqual(['Put 2 x 1.5 mm² in stock as cable-2x1-5, for 2 runs']);
    expect(found('2 x 2/0 AWG')).toEqual(['Put 2 x 2/0 AWG in stock as cable-2x2-0-awg, for 2 runs']);
    expect(offering(hut(two('2 x 1.5 mm²').replace('2 m\n', '2 |m\n')), kind).chosen('Put')).toBe(
      hut(`stock cable-2x1-5  cable 2 x 1.5 mm²\n\n${two('= cable-2x1-5')}`),
    );
  });

  it('is not offered for one run alone, for a blank, nor where something cannot be read', () => {
    const none = (runs: string) => expect(titles(offering(hut(runs), kind))).toEqual([]);
    none('run W1  6 |mm² red, 0.1 m, B1:+ to F1:in\n');
    none('run W1  ? |mm² red, 0.1 m, B1:+ to F1:in\nrun W2  ? mm² red, 2 m, F1:out to LAMP:+\n');
    none('run W1  6 |mm² red, 0.1 metres, B1:+ to F1:in\nrun W2  6 mm² red, 2 m, F1:out to LAMP:+\n');
  });
});

describe('stock written out', () => {
  const kind = 'refactor.inline';
  const shelf = 'stock long   cable 2.5 mm², class 5, 105 °C, od 4.8 mm\nstock short  = long, tinned\n'.replace(
    '= long',
    'cable = long',
  );

  it('puts the size before the colour and the rest behind it, less what the run says itself', () => {
    const found = offering(hut('run W1  |= long red, 0.1 m, 70 °C, B1:+ to F1:in  # the first\n', shelf), kind);
    expect(titles(found)).toEqual(['Write long out here: 2.5 mm², class 5, od 4.8 mm']);
    expect(found.chosen('Write')).toBe(
      hut('run W1  2.5 mm² red, class 5, od 4.8 mm, 0.1 m, 70 °C, B1:+ to F1:in  # the first\n', shelf),
    );
  });

  it('goes through a stock of a stock, and serves parts', () => {
    expect(offering(hut('run W1  = sho|rt red, 0.1 m, B1:+ to F1:in\n', shelf), kind).chosen('Write')).toBe(
      hut('run W1  2.5 mm² red, class 5, 105 °C, od 4.8 mm, tinned, 0.1 m, B1:+ to F1:in\n', shelf),
    );
    const parts = 'stock blade-5  fuse 5 A, blade, 32 V\n';
    expect(offering(hut('fuse F2 and F3  = |blade-5, 7.5 A\n', parts), kind).chosen('Write')).toBe(
      hut('fuse F2 and F3  blade, 32 V, 7.5 A\n', parts),
    );
  });

  it('at the stock itself is done wherever it is taken, and the stock goes if nothing is noted beside it', () => {
    const runs = (cable: (colour: string) => string) =>
      `run W1  ${cable('red')}, 0.1 m, B1:+ to F1:in\nrun W2  ${cable('black')}, 2 m, LAMP:- to B1:-\n`;
    const taken = runs((colour) => `= thin ${colour}`);
    const out = runs((colour) => `1.5 mm² ${colour}, tinned`);
    const stock = 'stock thin  cable 1.5 mm², tinned\n';
    const found = offering(hut(taken, stock.replace('thin', '|thin')), kind);
    expect(titles(found)).toEqual(['Write thin out where it is taken (2), and take it out of stock']);
    expect(found.chosen('Write')).toBe(hut(out, ''));
    const noted = `# from the old hut\n${stock}`;
    const kept = offering(hut(taken, noted.replace('thin', '|thin')), kind);
    expect(titles(kept)).toEqual(['Write thin out where it is taken (2)']);
    expect(kept.chosen('Write')).toBe(hut(out, noted));
  });

  it('leaves with the stock what only a stock can say', () => {
    const stock = 'stock thin  cable 1.5 mm², reference "TC-15", price 1.20 EUR a metre\n';
    const found = offering(hut('run W1  = thin red, 0.1 m, B1:+ to F1:in\n', stock.replace('thin', '|thin')), kind);
    expect(titles(found)).toEqual(['Write thin out where it is taken (1)']);
    expect(found.chosen('Write')).toBe(hut('run W1  1.5 mm² red, 0.1 m, B1:+ to F1:in\n', stock));
  });

  it('is not done everywhere for one of two with a name', () => {
    const stock = 'stock |thin  cable 1.5 mm²\nstock thin  cable 2.5 mm²\n';
    expect(titles(offering(hut('run W1  = thin red, 0.1 m, B1:+ to F1:in\n', stock), kind))).toEqual([]);
  });

  it('is not done everywhere from a file that others may use', () => {
    const piece = 'stock |thin  cable 1.5 mm²\nrun W1  = thin red, 0.1 m, B1:+ to F1:in\n';
    expect(titles(offering(piece, kind))).toEqual([]);
  });

  it('is not offered for stock of another kind or none', () => {
    expect(titles(offering(hut('fuse F2  = |long\n', shelf), kind))).toEqual([]);
    expect(titles(offering(hut('fuse F2  = |gone\n', shelf), kind))).toEqual([]);
    expect(titles(offering(hut('run W1  = long red, |0.1 m, B1:+ to F1:in\n', shelf), kind))).toEqual([]);
  });
});
