/** Specs to edit while it is measured: a van of 200 lines, five and fifty vans that are joined to no other, and all lines in one. */
import { readFileSync } from 'node:fs';
import { analyse } from '../../../server/analysis.ts';
import { another, apart, sourceOf, vanUri } from '../vans.ts';

/** A text to open beside its stock, and how it is edited: each toggle of `find` and `replace` brings or takes a finding. */
export interface Edited {
  readonly text: string;
  readonly edits: object;
}

/** Lines of one van where there are several. */
const vanLines = 400;

/**
 * A cable that is no longer big enough for its fuse: the finding rests on the electrics, and stands in the line that was
 * edited. The places are fed from different fuses and spread through the file.
 */
const edits = {
  find: 'lead-10 red',
  replace: 'signal-1 red',
  spots: 15,
  message: 'is protected at',
  // No other edit has this size: of all it asks, nothing is known from before.
  fresh: { find: '= lead-10 red', replace: '0.5# mm² red' },
  hover: { find: '\nrun ', at: 5 },
  completion: { find: ', along ', at: 2 },
};

/** A lamp whose cable is too small: found at every time, so that an answer that is only half worked out cannot pass. */
const fault = [
  'fuse F99  20 A, bolt-in, 58 V, breaks 5 kA, at GARAGE',
  'load ODD  6 W, lowest 10.8 V',
  'run W97  = lead-35 red, 0.2 m, along GARAGE, POS to F99:in',
  'run W98  0.5 mm² red, 0.7 m, along GARAGE, F99:out to ODD:+',
  'run W99  = feed-6 black, 0.7 m, along GARAGE, NEG to ODD:-',
];

/** One van of 200 lines. */
export function oneVan(): Edited {
  const sample = readFileSync('samples/spokewagon.amps', 'utf8');
  const lines = sample.split('\n').filter((line) => !/^(?:#.*)?$/.test(line));
  return { text: filled([...lines, ...fault], 200), edits };
}

/** As many vans as fill the lines, each an island of its own with names of its own. */
export function manyVans(lines: number): Edited {
  const first = filled([...apart.trimEnd().split('\n'), ...locker(1, 8, 12), ...fault], vanLines);
  const analysis = analyse(vanUri, sourceOf(filled([...apart.trimEnd().split('\n'), ...locker(1, 8, 12)], vanLines)));
  const texts = [first];
  for (let count = 2; count <= lines / vanLines; count += 1) texts.push(another(analysis, count));
  return { text: texts.join(''), edits };
}

/** One van with so many small circuits that its lines are all in one island. */
export function oneIsland(lines: number): Edited {
  const made = [...apart.trimEnd().split('\n'), ...fault];
  for (let count = 1; ; count += 1) {
    const more = locker(count, 9, 0.5);
    if (made.length + more.length > lines) return { text: filled(made, lines), edits };
    made.push(...more);
  }
}

/** A fuse locker with so many small loads, fed from the main busbars of the van. */
function locker(count: number, ways: number, watts: number): string[] {
  const box = `BOX-${count}`;
  const [fuses, negative] = [`FB-${count}`, `NEG-${count}`];
  const run = (n: number) => `X${count}-${n}`;
  // Four holes an entry: two for the feed, two for every load.
  const entry = (cable: number) => `by X${count}-E${1 + (cable >> 2)}`;
  const entries = Array.from({ length: 1 + ((2 * ways + 1) >> 2) }, (_, i) => i + 1);
  return [
    `# ---- Locker ${count} ----`,
    `enclosure ${box}  plastic, IP44, indoors, knockouts ${entries.length} x M32, at GARAGE`,
    ...entries.map((n) => `entry X${count}-E${n}  in ${box}, gland M32, 4 holes`),
    `fuse X${count}-F  40 A, bolt-in, 58 V, breaks 5 kA, at GARAGE`,
    `fusebox ${fuses}  ${ways} ways, total 60 A, breaks 3 kA, in ${box}`,
    ...Array.from({ length: ways }, (_, i) => `    way ${i + 1} fuse 5 A`),
    `busbar ${negative}  60 A, in ${box}`,
    `run ${run(1)}  = lead-35 red, 0.2 m, along GARAGE, POS to X${count}-F:in`,
    `run ${run(2)}  = lead-10 red, 0.9 m, along GARAGE, X${count}-F:out to ${fuses}:in`,
    `    enters ${box} ${entry(0)}`,
    `run ${run(3)}  = lead-10 black, 1.0 m, along GARAGE, NEG to ${negative}`,
    `    enters ${box} ${entry(1)}`,
    ...Array.from({ length: ways }, (_, i) => [
      `load X${count}-L${i}  ${watts} W, 1 h/day, lowest 10.5 V`,
      `switch X${count}-S${i}  1 pole, 10 A dc, 24 V, at GARAGE`,
      `run ${run(4 + 2 * i)}  = feed-6 red, 1.${i} m, along GARAGE, ${fuses}:${i + 1} to X${count}-S${i}:1`,
      `    enters ${box} ${entry(2 + 2 * i)}`,
      `run ${run(5 + 2 * i)}  = flat-25, 3.${i} m, along GARAGE`,
      `    red    X${count}-S${i}:2 to X${count}-L${i}:+`,
      `    black  ${negative} to X${count}-L${i}:-`,
      `    enters ${box} ${entry(3 + 2 * i)}`,
    ]).flat(),
  ];
}

/** Notes after the last line, up to so many lines. */
function filled(lines: readonly string[], wanted: number): string {
  if (lines.length > wanted) throw new Error(`${lines.length} lines and not ${wanted}`);
  return [...lines, ...Array<string>(wanted - lines.length).fill('# checked twice'), ''].join('\n');
}
