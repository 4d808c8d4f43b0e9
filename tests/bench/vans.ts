/** Specs for the benchmarks, made of the sample: a whole van of 300 lines and six cases, and as many vans in one spec as a length wants. */
import { readFileSync } from 'node:fs';
import { type Analysis, analyse, type FileSource } from '../../server/analysis.ts';

export const vanUri = 'memory:///van.amps';

const sample = readFileSync('samples/spokewagon.amps', 'utf8');
const stock = readFileSync('samples/stock.amps', 'utf8');

/** A spec with its stock beside it. */
export function sourceOf(text: string): FileSource {
  return {
    read: (uri) => ({ text: uri === vanUri ? text : stock }),
    resolve: (_from, path) => `memory:///${path}`,
  };
}

/** Circuits of the sleeping end: names, and what each load takes. */
const berth: readonly (readonly [string, string])[] = [
  ['READING', '6 W, 2 h/day'],
  ['AISLE', '10 W, 2 h/day'],
  ['STEP', '5 W, 0.5 h/day'],
  ['RADIO', '15 W, 4 h/day'],
  ['ROUTER', '9 W, 24 h/day'],
  ['BLOWER', '20 W, 3 h/day'],
  ['SCREEN', '30 W, 2 h/day'],
  ['BLANKET', '36 W, 3 h/day'],
];

/** A second fuse locker with a switch in every circuit. */
function secondLocker(): string[] {
  const ways = berth.map((_, i) => i + 1);
  return [
    '# ---- Sleeping end ----',
    'enclosure BERTH-BOX "Berth locker"  plastic, IP44, indoors, knockouts 5 x M32, at GARAGE',
    ...[8, 9, 10, 11, 12].map((i) => `entry E${i}  in BERTH-BOX, gland M32, 4 holes`),
    'fuse F9 "Berth locker feed"  40 A, bolt-in, 58 V, breaks 5 kA, at GARAGE',
    'fusebox FB2  8 ways, total 60 A, breaks 3 kA, in BERTH-BOX',
    ...ways.map((way) => `    way ${way} fuse 5 A`),
    'busbar NEG3  60 A, in BERTH-BOX',
    'run W54  = lead-35 red, 0.2 m, along GARAGE, POS to F9:in',
    'run W55  = lead-10 red, 0.9 m, along GARAGE, F9:out to FB2:in',
    '    enters BERTH-BOX by E8',
    'run W56  = lead-10 black, 1.0 m, along GARAGE, NEG to NEG3',
    '    enters BERTH-BOX by E8',
    ...berth.flatMap(([name, takes], i) => [
      `load ${name}  ${takes}, lowest 10.5 V`,
      `switch S${i + 4}  1 pole, 10 A dc, 24 V, at GARAGE`,
      `run W${57 + 2 * i}  = feed-6 red, 1.${i} m, along GARAGE, FB2:${i + 1} to S${i + 4}:1`,
      `    enters BERTH-BOX by E${9 + (i >> 1)}`,
      `run W${58 + 2 * i}  = flat-25, 3.${i} m, along GARAGE`,
      `    red    S${i + 4}:2 to ${name}:+`,
      `    black  NEG3 to ${name}:-`,
      `    enters BERTH-BOX by E${9 + (i >> 1)}`,
    ]),
    'converter U3  19 V, 4 A, efficiency 92 %, common negative, at GARAGE',
    'load LAPTOP  60 W, 3 h/day, lowest 18 V',
    'fuse F10  10 A, bolt-in, 58 V, breaks 5 kA, at GARAGE',
    'run W73  = lead-35 red, 0.2 m, along GARAGE, POS to F10:in',
    'run W74  = feed-6 red, 0.8 m, along GARAGE, F10:out to U3:in+',
    'run W75  = feed-6 black, 0.8 m, along GARAGE, NEG to U3:in-',
    'run W76  = flat-25, 2.4 m, along GARAGE',
    '    red    U3:out+ to LAPTOP:+',
    '    black  U3:out- to LAPTOP:-',
    'case evening  sun 0 %, charge 45 %, CABIN and READING and AISLE and RADIO and SCREEN and LAPTOP on',
    'case winter   sun 10 %, charge 35 %, FRIDGE and HEATER and BLANKET and ROUTER on',
    '    ambient -5 °C',
    'expect LAPTOP voltage at least 18.5 V in evening',
  ];
}

/** The sample with a second fuse locker and two cases more: some 300 lines, six cases, nothing to find. */
export const van = checked([...sample.trimEnd().split('\n'), '', ...secondLocker(), ''].join('\n'));

function checked(text: string): string {
  const { model, findings } = analyse(vanUri, sourceOf(text));
  const lines = text.trimEnd().split('\n').length;
  if (Math.abs(lines - 300) > 10 || model.cases.length !== 6 || findings.length > 0)
    throw new Error(
      `${lines} lines, ${model.cases.length} cases\n${findings.map(({ message }) => message).join('\n')}`,
    );
  return text;
}

/** With a busbar in place of its body, which all vans of a spec would share. */
export const apart = van.replace('chassis G1', 'busbar G1').replace('chassis G2', '').replaceAll('to G2', 'to G1');

/** The van again and again, each with names of its own and joined to no other, until there are so many lines. */
export function vansOf(lines: number): string {
  const analysis = analyse(vanUri, sourceOf(apart));
  const texts = [apart];
  for (let count = 2; texts.length * apart.split('\n').length < lines; count++) texts.push(another(analysis, count));
  return texts.join('\n').split('\n').slice(0, lines).join('\n');
}

/** The van with one length changed, another every time, so that no answer is one that is known already. */
export function edits(text: string): () => string {
  let count = 0;
  return () => {
    count += 1;
    return text.replace('0.7 m', `${(0.7 + 0.0001 * count).toFixed(4)} m`);
  };
}

/** Its parts and runs under names with a prefix; places, stock and cases are those of the first. */
export function another({ model, text, tree }: Analysis, count: number): string {
  const shared = tree.statements.filter(({ shaped }) =>
    ['system', 'use', 'place', 'case', 'expect'].includes(shaped.spec?.word ?? ''),
  );
  const renamed = model.uses.filter(({ place: { uri, span }, target }) => {
    const own = uri === vanUri && (target === 'part' || target === 'run');
    return own && !shared.some(({ offset, node }) => span.start >= offset && span.start < offset + node.text.length);
  });
  const edits = [
    ...renamed.map(({ place: { span } }) => ({ at: span.start, skip: 0, put: `V${count}-` })),
    // Left empty, so that every van has as many lines.
    ...shared.map(({ offset, node }) => ({
      at: offset,
      skip: node.text.length,
      put: '\n'.repeat(node.text.split('\n').length - 1),
    })),
  ].sort((a, b) => a.at - b.at);
  let [made, at] = ['', 0];
  for (const { at: next, skip, put } of edits) {
    made += text.slice(at, next) + put;
    at = next + skip;
  }
  return made + text.slice(at);
}
