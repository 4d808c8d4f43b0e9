/** The network: what joins terminals, and the islands it falls into. */
import { describe, expect, it } from 'vitest';
import type { Edge, Joint, Network } from '../../server/model/network.ts';
import { built } from './built.ts';
import { spokewagon } from './example.ts';

const told = ({ is, from, to }: Edge) => `${is} ${from.id} ${to.id}`;

function network(text: string): Network {
  const { model, network: made } = built(text);
  expect(model.problems.filter(({ slug }) => slug !== 'terminal-unconnected').map(({ message }) => message)).toEqual(
    [],
  );
  return made;
}

/** Islands that have any edge, as the runs in each. */
function runsByIsland({ layout: { islands }, edges }: Network): string[][] {
  const runOf = ({ index }: Joint) => {
    const edge = edges[index];
    return edge?.is === 'core' ? [edge.core.run.name] : [];
  };
  return islands
    .map(({ joints }) => [...new Set(joints.flatMap(runOf))].sort())
    .filter((runs) => runs.length > 0)
    .sort((a, b) => ((a[0] ?? '') < (b[0] ?? '') ? -1 : 1));
}

describe('edges', () => {
  it('are cores, bars, contacts and studs', () => {
    const { edges, at } = network(
      'isolator Q1 2 poles, 20 A dc, contacts 2 mΩ\nlink Q1 1-3, 2-4\nbusbar N 50 A, 2 studs\nrun W1 2 x 1 mm², 1 m\n  red N:1 to Q1:1\n  black N to Q1:2\n',
    );
    expect(edges.map(told)).toEqual([
      'core N:1 Q1:1',
      'core N Q1:2',
      'bar Q1:1 Q1:3',
      'bar Q1:2 Q1:4',
      'contact Q1:1 Q1:2',
      'contact Q1:3 Q1:4',
      'body N N:1',
      'body N N:2',
    ]);
    expect(edges.every(({ index }, i) => index === i)).toBe(true);
    expect(edges.flatMap((edge) => (edge.is === 'contact' ? [edge.ohms] : []))).toEqual([0.002, 0.002]);
    expect(at.get('Q1:1')?.map(told)).toEqual(['core N:1 Q1:1', 'bar Q1:1 Q1:3', 'contact Q1:1 Q1:2']);
  });

  it('follow the pairs that a part states', () => {
    const { edges } = network('isolator Q1 2 poles, 20 A dc, pairs 1-3 2-4\n');
    expect(edges.map(told)).toEqual(['contact Q1:1 Q1:3', 'contact Q1:2 Q1:4']);
  });

  it('leave out a core of which an end is not known, and spares', () => {
    const { network: made } = built(
      'splice AA and BB\nrun W1 3 x 1 mm², 1 m\n  red AA to BB\n  black AA to CC\n  spare\n',
    );
    expect(made.edges.map(told)).toEqual(['core AA BB']);
  });

  it('have the resistance of a shunt', () => {
    const { edges } = network('shunt SH1 150 A, 50 mV\n');
    expect(edges[0]).toMatchObject({ is: 'contact', ohms: 0.05 / 150 });
  });

  it('end where a core comes back to where it began', () => {
    const { at, layout } = network('splice AA\nrun W1 1 mm², 1 m, AA to AA\n');
    expect(at.get('AA')).toHaveLength(1);
    expect(layout.islands).toHaveLength(1);
  });
});

describe('the body', () => {
  const ohms = (text: string) =>
    network(text).edges.map((edge) =>
      edge.is === 'body' ? [edge.from.id, edge.to.id, Number(edge.ohms.toPrecision(9))] : [],
    );

  it('is one node of all bonding points', () => {
    expect(ohms('chassis G1 and G2 and G3\n')).toEqual([
      ['G1', 'G2', 0],
      ['G1', 'G3', 0],
    ]);
  });

  it('is at a point without resistance, wherever that is declared', () => {
    expect(ohms('chassis G1 body 2 mΩ\nchassis G2\nchassis G3 body 3 mΩ\n')).toEqual([
      ['G2', 'G1', 0.002],
      ['G2', 'G3', 0.003],
    ]);
  });

  it('of points that all have resistance behaves as a star between any two of them', () => {
    // Two points: the resistances in series. Three: the star 1, 2, 3 mΩ is the mesh 11/3, 11/2, 11 mΩ.
    expect(ohms('chassis G1 body 2 mΩ\nchassis G2 body 3 mΩ\n')).toEqual([['G1', 'G2', 0.005]]);
    expect(ohms('chassis G1 body 1 mΩ\nchassis G2 body 2 mΩ\nchassis G3 body 3 mΩ\n')).toEqual([
      ['G1', 'G2', 0.00366666667],
      ['G1', 'G3', 0.0055],
      ['G2', 'G3', 0.011],
    ]);
  });

  it('of very many points stays small', () => {
    const many = Array.from({ length: 500 }, (_, i) => `chassis G${i} body 2 mΩ`).join('\n');
    expect(network(`${many}\n`).edges).toHaveLength(499);
  });
});

const common = 'battery B1 agm, 12 V, 80 Ah\nfuse F1 50 A\nbusbar POS 50 A\nbusbar NEG 50 A\nload LAMP 5 W\n';
const house =
  'run W1 6 mm², 1 m, B1:+ to F1:in\nrun W2 6 mm², 1 m, F1:out to POS\nrun W3 6 mm², 1 m, B1:- to NEG\nrun W4 6 mm², 1 m, POS to LAMP:+\nrun W5 6 mm², 1 m, NEG to LAMP:-\n';

describe('islands', () => {
  it('of a battery and its loads are one', () => {
    expect(runsByIsland(network(common + house))).toEqual([['W1', 'W2', 'W3', 'W4', 'W5']]);
  });

  it('split at a controller: the panel side is one, the battery side another', () => {
    const made = network(spokewagon);
    const islands = runsByIsland(made);
    expect(islands).toHaveLength(2);
    expect(islands[0]).toEqual(['W1', 'W10', 'W2', 'W3', 'W4', 'W5', 'W6', 'W7', 'W8', 'W9']);
    expect(made.layout.islandOf.get('P1:+')).not.toBe(made.layout.islandOf.get('B1:+'));
    expect(made.layout.islandOf.get('LAMPS:-')).toBe(made.layout.islandOf.get('B1:-'));
  });

  it('split at a converter whose sides meet only at a common negative, which both have', () => {
    const text = `${common}converter U1 5 V, 6 A, isolated\nload PHONE 5 W\n${house}run W6 1 mm², 1 m, POS to U1:in+\nrun W7 1 mm², 1 m, NEG to U1:in-\nrun W8 1 mm², 1 m, U1:out+ to PHONE:+\nrun W9 1 mm², 1 m, NEG to PHONE:-\nrun W10 1 mm², 1 m, NEG to U1:out-\n`;
    const made = network(text);
    expect(runsByIsland(made)).toEqual([
      ['W1', 'W2', 'W3', 'W4', 'W5', 'W6', 'W7'],
      ['W10', 'W8', 'W9'],
    ]);
    expect(made.layout.islands.filter(({ terminals }) => terminals.some(({ id }) => id === 'NEG'))).toHaveLength(2);
    expect(made.layout.islandOf.get('NEG')).toBe(made.layout.islandOf.get('B1:-'));
    expect(made.layout.islandOf.get('PHONE:+')).toBe(made.layout.islandOf.get('U1:out+'));
  });

  it('stay one where the sides share two nodes: a common negative inside and a busbar outside', () => {
    const text = `${common}converter U1 5 V, 6 A, common negative\nload PHONE 5 W\n${house}run W6 1 mm², 1 m, POS to U1:in+\nrun W7 1 mm², 1 m, NEG to U1:in-\nrun W8 1 mm², 1 m, U1:out+ to PHONE:+\nrun W9 1 mm², 1 m, NEG to PHONE:-\nrun W10 1 mm², 1 m, NEG to U1:out-\n`;
    expect(runsByIsland(network(text))).toHaveLength(1);
  });

  it('do not become one of all by the chassis', () => {
    const text = `${common}battery B2 agm, 12 V, 60 Ah\nalternator A1 14.2 V, 90 A\ncharger U1 12 V, 18 A, isolated\nchassis G1 and G2 and G3\n${house}run W6 6 mm², 1 m, NEG to G1\nrun W7 6 mm², 1 m, B2:- to G2\nrun W8 6 mm², 1 m, A1:- to G3\nrun W9 6 mm², 1 m, A1:+ to B2:+\nrun W10 6 mm², 1 m, B2:+ to U1:in+\nrun W11 6 mm², 1 m, U1:in- to G2\nrun W12 6 mm², 1 m, U1:out+ to POS\nrun W13 6 mm², 1 m, U1:out- to NEG\n`;
    const made = network(text);
    const islands = runsByIsland(made);
    expect(islands).toHaveLength(2);
    const house2 = islands.find((runs) => runs.includes('W1'));
    expect(house2).toEqual(expect.arrayContaining(['W12', 'W13', 'W2', 'W3', 'W4', 'W5']));
    expect(islands.find((runs) => runs.includes('W9'))).toEqual(
      expect.arrayContaining(['W10', 'W11', 'W7', 'W8', 'W9']),
    );
    // The bonding lead carries nothing between them and goes with one.
    expect(islands.filter((runs) => runs.includes('W6'))).toHaveLength(1);
    expect(made.layout.islandOf.get('A1:+')).not.toBe(made.layout.islandOf.get('B1:+'));
  });

  it('of a coil and its contact are one, and of what nothing joins one each', () => {
    const made = network('relay K1 coil 12 V, contact 40 A\nconnector X1 2 pins\n');
    expect(made.layout.islandOf.get('K1:86')).toBe(made.layout.islandOf.get('K1:85'));
    expect(made.layout.islandOf.get('K1:30')).toBe(made.layout.islandOf.get('K1:87'));
    expect(made.layout.islandOf.get('K1:86')).not.toBe(made.layout.islandOf.get('K1:30'));
    expect(made.layout.islandOf.get('X1:1')).not.toBe(made.layout.islandOf.get('X1:2'));
  });

  it('hold every edge once and every terminal', () => {
    const { layout, edges } = network(spokewagon);
    const { islands, islandOf } = layout;
    expect(islands.flatMap((island) => island.joints.map(({ index }) => index)).sort((a, b) => a - b)).toEqual(
      edges.map(({ index }) => index),
    );
    for (const { id, terminals, joints: own } of islands) {
      const here = new Set(terminals.map((terminal) => terminal.id));
      for (const { from, to } of own) expect([here.has(from.id), here.has(to.id)]).toEqual([true, true]);
      expect(islands[id]?.id).toBe(id);
    }
    for (const [terminal, island] of islandOf)
      expect(islands[island]?.terminals.some(({ id }) => id === terminal)).toBe(true);
  });

  it('of a chain of ten thousand parts are found in time', () => {
    const splices = Array.from({ length: 10_000 }, (_, i) => `splice S${i}`).join('\n');
    const runs = Array.from({ length: 9_999 }, (_, i) => `run W${i} 1 mm², 1 m, S${i} to S${i + 1}`).join('\n');
    const began = performance.now();
    const made = network(`${splices}\n${runs}\n`);
    expect(made.layout.islands).toHaveLength(1);
    expect(performance.now() - began).toBeLessThan(6000);
  });
});
