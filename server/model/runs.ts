/** Runs: size, length, way and cores, with the walls they pass. */
import type { ClauseNode } from '../../grammar/shaped.ts';
import type { WordAtom } from '../../grammar/tree.ts';
import { trimmed } from '../../grammar/trimmed.ts';
import type { Builder, Said } from './builder.ts';
import { coresOf } from './cores.ts';
import type { Declaration } from './declarations.ts';
import { FactSet, isBlankSlot, slotNumber, slotWord } from './facts.ts';
import type { Along, ConductorSize, Core, Fact, Passage, Run } from './model.ts';
import { placeIn } from './place.ts';
import { checkRun } from './run-checks.ts';
import { conductorSize } from './sizes.ts';
import { saidBy } from './stock.ts';

export function buildRuns(builder: Builder): void {
  const { kept, lookups } = builder;
  const make = (declaration: Declaration, said: Said) => runOf(builder, declaration, said);
  for (const declaration of builder.declarations.all) {
    if (declaration.as !== 'run') continue;
    const said = saidBy(builder, declaration.origin, 'cable');
    builder.runs.set(declaration.name, kept.runs.of(declaration, lookups, make, said));
  }
}

function runOf(builder: Builder, { name, origin, namePlace }: Declaration, { facts: clauses, sure }: Said): Run {
  if (!sure) builder.lookups.doubt();
  const facts = new FactSet(name, origin, clauses, namePlace);
  const outerDiameter = positive(facts.number('od'));
  const cores: Core[] = [];
  const { size, sizeBlank } = sizeOf(facts);
  const bunchedRuns = bunchedNames(name, facts.fact('bunched'));
  const run: Run = {
    name,
    title: origin.statement.node.title?.value,
    origin,
    namePlace,
    facts,
    size,
    sizeBlank,
    sizePlace: facts.place('size', 'size'),
    lengthMetres: notNegative(facts.number('length')),
    cores,
    passages: facts.all('enters').map((fact) => passageOf(builder, fact)),
    along: trimmed(facts.all('along').flatMap((fact) => alongOf(builder, fact))),
    conductorClass: facts.number('class'),
    solid: facts.word('strands') === 'solid' || facts.number('class') === 1,
    tinned: facts.word('coating') === 'tinned',
    material: facts.word('material') === 'aluminium' ? 'aluminium' : 'copper',
    insulationCelsius: facts.number('insulation'),
    insulationVolts: facts.number('insulation-voltage'),
    bunchedWith: bunchedRuns.length || Math.max(0, Math.floor(facts.number('bunched') ?? 0)),
    bunchedRuns,
    inConduit: facts.says('method'),
    // Rounded to a nanometre, so that 4.8 mm read as 0.0048 m comes out as 4.8 again.
    outerDiameterMm: outerDiameter === undefined ? undefined : Math.round(outerDiameter * 1e9) / 1e6,
  };
  cores.push(...coresOf(builder, run));
  checkRun(builder, run, sure);
  return run;
}

/** Each once; a run does not lie against itself. */
function bunchedNames(own: string, fact: Fact | undefined): string[] {
  if (fact === undefined) return [];
  const names = fact.clause.values.flatMap((value) => (value.slot === 'run' ? (slotWord(value) ?? []) : []));
  return [...new Set(names)].filter((name) => name !== own);
}

function notNegative(value: number | undefined): number | undefined {
  return value === undefined || value < 0 ? undefined : value;
}

function positive(value: number | undefined): number | undefined {
  return value === undefined || value <= 0 ? undefined : value;
}

function sizeOf(facts: FactSet): { size: ConductorSize | undefined; sizeBlank: boolean } {
  const value = facts.slot('size', 'size');
  if (value === undefined || isBlankSlot(value)) return { size: undefined, sizeBlank: value !== undefined };
  return { size: conductorSize(value), sizeBlank: false };
}

function passageOf(builder: Builder, { clause, origin }: Fact): Passage {
  const slot = (name: string) => clause.values.find((value) => value.slot === name);
  const partIn = (name: string, wanted: 'enclosure' | 'entry') => {
    const value = slot(name);
    const word = value === undefined ? undefined : slotWord(value);
    const found = word === undefined ? undefined : builder.names.find(word, [wanted]);
    return found === undefined ? undefined : builder.parts.get(found.name);
  };
  const words = keywordsOf(clause, origin);
  const [by, way] = words.filter(({ value }) => value !== 'enters');
  const ways = ['gland', 'grommet', 'conduit'] as const;
  const how: Passage['how'] =
    slot('entry') !== undefined
      ? 'entry'
      : by?.value === 'open'
        ? 'open'
        : (ways.find((one) => one === way?.value) ?? 'unstated');
  return {
    enclosure: partIn('enclosure', 'enclosure'),
    how,
    size: slot('size')?.atom.text,
    entry: partIn('entry', 'entry'),
    place: placeIn(origin, clause.span),
    howPlace: placeIn(origin, by === undefined ? clause.span : { start: by.span.start, end: clause.span.end }),
  };
}

/** The keywords of a clause: its words that no slot took. */
function keywordsOf(clause: ClauseNode, { statement }: Fact['origin']): WordAtom[] {
  const taken = new Set(clause.values.map(({ atom }) => atom));
  return statement.node.body.filter(
    (atom): atom is WordAtom =>
      atom.kind === 'word' &&
      !taken.has(atom) &&
      atom.span.start >= clause.span.start &&
      atom.span.end <= clause.span.end,
  );
}

function alongOf(builder: Builder, { clause, origin }: Fact): Along[] {
  const along: Along[] = [];
  for (const value of clause.values) {
    const word = slotWord(value);
    if (value.slot === 'place' && word !== undefined)
      along.push({
        location: builder.locations.get(word),
        lengthMetres: undefined,
        place: placeIn(origin, value.span),
      });
    else if (value.slot === 'length') {
      const last = along.pop();
      if (last !== undefined) along.push({ ...last, lengthMetres: notNegative(slotNumber(value)) });
    }
  }
  return along;
}
