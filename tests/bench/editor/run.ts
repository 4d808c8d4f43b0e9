/**
 * `npm run bench:editor`: what a person at the editor waits for, over standard input and output, beside other language servers
 * on as many lines in the same run. `npm run bench:editor -- 200 2000` measures these sizes alone; `--edits 12` makes fewer edits.
 */
import { parseArgs } from 'node:util';
import { serverEngine, serverEnvironment } from '../../../client/server-process.ts';
import { peers, type Server } from './peers.ts';
import { type Edited, manyVans, oneIsland, oneVan } from './specs.ts';
import { besidePeers, editTold, figureTold, heading } from './table.ts';
import { type Measures, measured } from './yardstick.ts';

interface Size {
  readonly name: string;
  readonly lines: number;
  readonly spec: () => Edited;
  /** Milliseconds: edit to findings (half of them, nearly all), then nearly all of the rest. */
  readonly wanted: {
    readonly edit: readonly [number, number];
    readonly hover?: number;
    readonly completion?: number;
    readonly outline?: number;
    readonly start?: number;
    readonly formatting?: number;
    readonly megabytes?: number;
  };
}

const sizes: readonly Size[] = [
  {
    name: '200',
    lines: 200,
    spec: oneVan,
    wanted: { edit: [2, 5], hover: 3, completion: 4, outline: 3, start: 250 },
  },
  {
    name: '2000',
    lines: 2000,
    spec: () => manyVans(2000),
    wanted: { edit: [4, 10], hover: 3, completion: 5, outline: 8, start: 350, megabytes: 120 },
  },
  {
    name: '20000',
    lines: 20_000,
    spec: () => manyVans(20_000),
    wanted: { edit: [15, 40], hover: 5, completion: 8, outline: 60, start: 1200, formatting: 300 },
  },
  { name: '2000-in-one-island', lines: 2000, spec: () => oneIsland(2000), wanted: { edit: [6, 15] } },
];

const { values, positionals } = parseArgs({ allowPositionals: true, options: { edits: { type: 'string' } } });
const edits = Number(values.edits ?? 60);
const chosen = positionals.length === 0 ? sizes : sizes.filter(({ name }) => positionals.includes(name));

const ours = (document: () => Edited): Server => ({
  name: 'Ampscribe',
  command: ['dist/cli.js', 'serve', '--stdio'],
  engine: serverEngine,
  environment: serverEnvironment(process.env),
  language: 'ampscribe',
  ending: 'amps',
  findings: 'pull',
  document,
});

const { here, missing } = peers();
for (const name of missing) console.log(`${name} is not installed (npm ci), so nothing is measured beside it.`);
const beside = new Map<number, ReadonlyMap<string, Measures>>();
for (const { name, lines, spec, wanted } of chosen) {
  const us = ours(spec);
  const pulled = measured(`ours-${name}`, us, spec(), { edits });
  const pushed = measured(`ours-pushed-${name}`, { ...us, findings: 'push' }, spec(), {
    edits,
    skip: ['hover', 'completion', 'completionAfterEdit', 'documentSymbol', 'semanticTokens', 'formatting'],
  });
  console.log(heading(`${name.replaceAll('-', ' ')} lines`, pulled));
  console.log(editTold('edit to findings, pulled', pulled.edit, wanted.edit));
  console.log(editTold('edit to findings, pushed', pushed.edit, wanted.edit));
  console.log(editTold('edit to a text that never was, pulled', pulled.fresh, wanted.edit));
  console.log(editTold('ninth edit of a burst, pulled', pulled.burst));
  console.log(figureTold('processor time of an edit, pulled', pulled.edit.cpuPerEditMs));
  console.log(figureTold('hover, p95', pulled.hover?.p95, wanted.hover));
  console.log(figureTold('completion, p95', pulled.completion?.p95, wanted.completion));
  console.log(figureTold('completion right after an edit, p95', pulled.completionAfterEdit?.p95));
  console.log(figureTold('outline, p50', pulled.documentSymbol?.p50, wanted.outline));
  console.log(figureTold('formatting, p50', pulled.formatting?.p50, wanted.formatting));
  console.log(figureTold('start to first findings', pulled.spawnToFirstDiagMs, wanted.start));
  console.log(figureTold('peak memory', pulled.rssPeakMB, wanted.megabytes, 'MB'));
  const others =
    beside.get(lines) ??
    new Map(
      here.map((peer) => [
        peer.name,
        measured(`${peer.language}-${lines}`, peer, peer.document(lines), { edits, skip: ['semanticTokens', 'burst'] }),
      ]),
    );
  beside.set(lines, others);
  for (const [peer, measures] of others) console.log(besidePeers(peer, measures, pulled));
}
