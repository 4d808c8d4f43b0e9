/** A model built again after an edit: what the edit does not touch is the same object, and all of it is as if built from nothing. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { ParseCache } from '../../grammar/parse.ts';
import { buildModel } from '../../server/model/build.ts';
import { readFiles } from '../../server/model/files.ts';
import { KeptModel } from '../../server/model/kept.ts';
import type { Facts, Model, Place, Terminal } from '../../server/model/model.ts';
import { buildNetwork } from '../../server/model/network-build.ts';
import { limitSets } from '../../server/physics/limits/sets.ts';
import { sampleFiles, sourceOf } from '../mutation/checks.ts';
import { anEdit, edited } from '../sections/edits.ts';
import { memory } from './built.ts';

const uri = 'memory:///spec.amps';

/** Builds one spec again and again. */
function builder(source: (text: string) => Parameters<typeof readFiles>[1]): (text: string) => Model {
  const [kept, parses] = [new KeptModel(), new Map<string, ParseCache>()];
  const parseCache = (file: string) => {
    const cache = parses.get(file) ?? new ParseCache();
    parses.set(file, cache);
    return cache;
  };
  return (text) => buildModel(readFiles(uri, source(text), parseCache), { limitSets: [...limitSets.keys()], kept });
}

const inMemory = () => builder((text) => memory({ 'spec.amps': text }));

const spec = `system "Van" 12 V
place LOFT 40 °C
stock thin cable 2.5 mm² red
stock lamp load 24 W
enclosure BOX plastic, IP65, at LOFT
battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1 10 A, blade, 32 V, in BOX
load LAMP = lamp
run W1 = thin, 0.1 m, B1:+ to F1:in
run W2 = thin, 4 m, along LOFT, F1:out to LAMP:+
run W3 2.5 mm² black, 4 m, LAMP:- to B1:-
case day LAMP on
`;

/** Names of parts, runs, cases and so on that are other objects after an edit of the spec. */
function anew(from: string, to: string): string[] {
  const build = inMemory();
  const [before, after] = [build(spec), build(spec.replace(from, to))];
  const named = ({ parts, runs, stocks, locations, cases }: Model) => [
    ...[parts, runs, stocks, locations].flatMap((map) => [...map]),
    ...cases.map((one) => [one.name, one] as const),
  ];
  const known = new Map<string, unknown>(named(before));
  return named(after).flatMap(([name, one]) => (known.get(name) === one ? [] : [name]));
}

it.each([
  ['nothing', 'system', 'system', []],
  ['a line further up', 'place LOFT', '# note\nplace LOFT', []],
  ['a length', '4 m, along', '5 m, along', ['W2']],
  ['a stock, and so what takes it', '2.5 mm² red\n', '4 mm² red\n', ['thin', 'W1', 'W2']],
  ['a place, and so what is there', '40 °C', '45 °C', ['LOFT', 'BOX', 'F1', 'W1', 'W2']],
  ['a rating, and so what ends there', 'fuse F1 10 A', 'fuse F1 7.5 A', ['F1', 'W1', 'W2']],
  ['a case', 'LAMP on', 'LAMP on, sun 50 %', ['day']],
  ['a line less, and so the numbers of terminals', /enclosure.*\n/.exec(spec)?.[0] ?? '', '', ['F1', 'W1', 'W2']],
])('%s is made anew, and nothing else', (_what, from, to, names) => {
  expect(anew(from, to).sort()).toEqual([...names].sort());
});

/** Whether the layout is the same after an edit. */
function sameLayout(from: string | RegExp, to: string): boolean {
  const kept = new KeptModel();
  const parses = new ParseCache();
  const layoutOf = (text: string) => {
    const read = readFiles(uri, memory({ 'spec.amps': text }), () => parses);
    const { edges, layout } = buildNetwork(buildModel(read, { limitSets: [...limitSets.keys()], kept }), kept);
    expect(edges.map(({ is, from, to }) => [is, from, to])).toEqual(
      layout.joints.map(({ is, from, to }) => [is, from, to]),
    );
    return layout;
  };
  const whole = `${spec}load SPARE 12 W\nswitch S9 2 pole, 10 A dc, 24 V\nlink S9 1-3\n`;
  expect(whole.replace(from, to)).not.toBe(whole);
  return layoutOf(whole) === layoutOf(whole.replace(from, to));
}

it.each([
  ['length', '4 m, along', '5 m, along'],
  ['size', '2.5 mm² black', '4 mm² black'],
])('has the same layout with another %s', (_, from, to) => {
  expect(sameLayout(from, to)).toBe(true);
});

it.each([
  ['an end', 'LAMP:- to B1:-', 'B1:- to LAMP:-'],
  ['a run less', /run W3.*\n/, ''],
  ['a part', '10 A', '7.5 A'],
  ['a part that nothing leads to', '12 W', '15 W'],
  ['a part less', /load SPARE.*\n/, ''],
  ['a link', 'S9 1-3', 'S9 2-4'],
  ['a link less', /link.*\n/, ''],
])('has another layout with %s', (_, from, to) => {
  expect(sameLayout(from, to)).toBe(false);
});

it('keeps nothing that is amiss, so that it is told of again', () => {
  const build = inMemory();
  const wrong = spec.replace('B1:+ to', 'B1:plus to');
  const told = () => build(wrong).problems.map(({ slug }) => slug);
  expect(told()).toContain('unknown-terminal');
  expect(told()).toEqual(told());
});

/** All that a model says, with names for objects. */
function tell(model: Model): unknown {
  const at = (place: Place | undefined) => place && `${place.uri} ${place.span.start} ${place.span.end}`;
  const facts = (all: Facts) =>
    all.facts.map(({ clause, fromStock, origin }) => `${clause.spec.id} ${fromStock} ${origin.statement.node.text}`);
  const end = (terminal: Terminal | undefined) =>
    terminal && [terminal.id, terminal.index, model.terminals.get(terminal.id) === terminal];
  return {
    parts: [...model.parts.values()].map((part) => ({
      name: [part.name, part.title, at(part.namePlace), part.kind.word, facts(part.facts)],
      stands: [part.enclosure?.name, part.location?.name],
      sound: [
        part.enclosure === model.parts.get(part.enclosure?.name ?? ''),
        part.location === model.locations.get(part.location?.name ?? ''),
      ],
      terminals: part.terminals.map((terminal) => [end(terminal), terminal.part === part]),
      contacts: part.contacts,
    })),
    runs: [...model.runs.values()].map((run) => ({
      name: [run.name, at(run.namePlace), at(run.sizePlace), run.size, run.lengthMetres, facts(run.facts)],
      along: run.along.map(({ location, lengthMetres, place }) => [
        location?.name,
        location === model.locations.get(location?.name ?? ''),
        lengthMetres,
        at(place),
      ]),
      passages: run.passages.map(({ enclosure, entry, how, size, place }) => [
        enclosure?.name,
        entry?.name,
        how,
        size,
        at(place),
      ]),
      cores: run.cores.map((core) => [core.label, end(core.from), end(core.to), at(core.place), core.run === run]),
      bunched: [run.bunchedWith, run.bunchedRuns],
    })),
    cases: [...model.cases, ...model.readings.map(({ conditions }) => conditions)].map((one) => ({
      ...one,
      origin: undefined,
      namePlace: at(one.namePlace),
      on: [...one.on],
      chargeOf: [...one.chargeOf],
      voltsOf: [...one.voltsOf],
    })),
    stocks: [...model.stocks.values()].map((stock) => [stock.name, stock.kindWord, facts(stock.facts)]),
    locations: [...model.locations.values()].map(({ name, celsius, outdoors }) => [name, celsius, outdoors]),
    bars: model.bars.map(({ from, to, place }) => [end(from), end(to), at(place)]),
    uses: model.uses.map(({ place, ...use }) => [at(place), use]),
    problems: model.problems.map(({ slug, message, place }) => [slug, message, at(place)]),
  };
}

const { 'stock.amps': _, ...samples } = sampleFiles;

it.each(Object.entries(samples))('%s after any edits is as if built from nothing', (_name, sample) => {
  fc.assert(
    fc.property(fc.array(anEdit, { minLength: 1, maxLength: 6 }), (edits) => {
      const build = builder(sourceOf);
      let text = sample;
      build(text);
      for (const edit of edits) {
        text = edited(text, edit);
        expect(tell(build(text))).toEqual(tell(builder(sourceOf)(text)));
      }
    }),
    { numRuns: 15, seed: Number(process.env.RANDOM_SEED ?? 20261126) },
  );
});
