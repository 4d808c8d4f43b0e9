/** Random vans as data, so that one thing of them can be changed and everything else stay; and their text. */
import fc from 'fast-check';

export interface RandomRun {
  readonly name: string;
  /** Index in `sizes`. */
  readonly size: number;
  readonly metres: number;
  readonly insulation: number;
  readonly from: string;
  readonly to: string;
  readonly bunched: number;
}

export interface RandomLoad {
  readonly name: string;
  readonly unit: 'A' | 'W' | 'Ω';
  readonly value: number;
}

export interface RandomVan {
  readonly limits: string;
  readonly ambient: number;
  readonly place: number;
  readonly engine: boolean;
  readonly batteries: readonly { readonly name: string; readonly volts: number; readonly milliohms: number }[];
  readonly loads: readonly RandomLoad[];
  readonly runs: readonly RandomRun[];
}

export const sizes = [1.5, 2.5, 4, 6, 10, 16, 25, 35, 50] as const;
const sets = ['iec-60364-5-52', 'cfr-33-183', 'nec-310', 'iso-13297', 'own'];

const part = fc.double({ min: 0, max: 1, noNaN: true });
const between = (least: number, most: number) => part.map((at) => Number((least + at * (most - least)).toFixed(6)));
const conductor = fc.record({
  size: fc.integer({ min: 3, max: sizes.length - 3 }),
  metres: between(0.2, 5),
  insulation: fc.constantFrom(70, 90, 105),
  bunched: fc.constantFrom(0, 0, 1, 4),
});
const load = fc.oneof(
  fc.record({ unit: fc.constant('A' as const), value: between(0.1, 6) }),
  fc.record({ unit: fc.constant('W' as const), value: between(1, 70) }),
  fc.record({ unit: fc.constant('Ω' as const), value: between(2, 100) }),
);

/** A battery or two on a main bar, or on bars in a row; a fuse and a load on each branch, some branches with two loads. */
export function vans(mostBatteries = 2): fc.Arbitrary<RandomVan> {
  return fc
    .record({
      limits: fc.constantFrom(...sets),
      ambient: between(10, 45),
      place: between(10, 60),
      engine: fc.boolean(),
      batteries: fc.array(fc.record({ volts: between(12, 13), milliohms: between(2, 30) }), {
        minLength: 1,
        maxLength: mostBatteries,
      }),
      branches: fc.array(fc.record({ load, out: conductor, feed: conductor, back: conductor, second: fc.boolean() }), {
        minLength: 1,
        maxLength: 6,
      }),
      leads: fc.array(conductor, { minLength: 2 * mostBatteries + 2, maxLength: 2 * mostBatteries + 2 }),
    })
    .map(({ batteries, branches, leads, ...rest }): RandomVan => {
      const runs: RandomRun[] = [];
      const lay = (from: string, to: string, one: (typeof leads)[number] | undefined) => {
        if (one !== undefined) runs.push({ ...one, name: `W${runs.length + 1}`, from, to });
      };
      const named = batteries.map((one, i) => ({ ...one, name: `B${i + 1}` }));
      named.forEach(({ name }, i) => {
        lay(`${name}:+`, `M${i + 1}:in`, leads[2 * i]);
        lay(`M${i + 1}:out`, 'POS', leads[2 * i]);
        lay('NEG', `${name}:-`, leads[2 * i + 1]);
      });
      lay('POS', 'POS2', leads.at(-2));
      lay('NEG2', 'NEG', leads.at(-1));
      branches.forEach(({ out, feed, back, second }, i) => {
        const [plus, minus] = second ? ['POS2', 'NEG2'] : ['POS', 'NEG'];
        lay(plus ?? '', `F${i + 1}:in`, feed);
        lay(`F${i + 1}:out`, `L${i + 1}:+`, out);
        lay(`L${i + 1}:-`, minus ?? '', back);
      });
      const loads = branches.map(({ load: one }, i) => ({ ...one, name: `L${i + 1}` }));
      return { ...rest, batteries: named, loads, runs };
    });
}

export interface Written {
  /** Lengths in ft and temperatures in °F, with all their digits. */
  readonly feet?: boolean;
  /** Conductors at 20 °C in the case, so that the network is linear in its lengths. */
  readonly cold?: boolean;
}

/** Its statements, each a line. */
export function statementsOf(van: RandomVan, { feet = false, cold = false }: Written = {}): string[] {
  const metres = (value: number) => (feet ? `${(value / 0.3048).toFixed(14)} ft` : `${value} m`);
  const celsius = (value: number) => (feet ? `${((value * 9) / 5 + 32).toFixed(14)} °F` : `${value} °C`);
  return [
    `system "Random" 12 V, ambient ${celsius(van.ambient)}, limits ${van.limits}`,
    ...(van.limits === 'own' ? ['stock own limit-set based on iec-60364-5-52, factor 0.9, capacity 6 mm² 41 A'] : []),
    `place HOLD ${celsius(van.place)}${van.engine ? ', engine space' : ''}`,
    'busbar POS and POS2 and NEG and NEG2 300 A',
    ...van.batteries.flatMap(({ name, volts, milliohms }) => [
      `battery ${name} lead-acid, ${volts} V, 100 Ah, internal ${milliohms} mΩ`,
      `fuse M${name.slice(1)} 100 A, 58 V, breaks 20 kA`,
    ]),
    ...van.loads.flatMap(({ name, unit, value }) => [
      `load ${name} ${value} ${unit}`,
      `fuse F${name.slice(1)} 15 A, 58 V, breaks 20 kA`,
    ]),
    ...van.runs.map(
      ({ name, size, metres: long, insulation, from, to, bunched }, i) =>
        `run ${name} ${sizes[size]} mm² red, ${celsius(insulation)}, ${metres(long)}, ${i % 2 === 0 ? 'along HOLD, ' : ''}${bunched > 0 ? `bunched with ${bunched}, ` : ''}${from} to ${to}`,
    ),
    `case now all loads on${cold ? ', conductors at 20 °C' : ''}`,
  ];
}

export function textOf(van: RandomVan, written?: Written): string {
  return `${statementsOf(van, written).join('\n')}\n`;
}
