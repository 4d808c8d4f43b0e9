/** Runs: size, length, way and cores, with the walls they pass. */
import type { ClauseNode, SlotValue } from '../../grammar/shaped.ts';
import { nearWords } from '../../grammar/near.ts';
import { article, list } from '../../grammar/shape-problems.ts';
import { gaugeText } from '../../grammar/units.ts';
import { FactSet, mergeFacts, slotNumber } from './facts.ts';
import type { Along, ConductorSize, Core, Fact, NameUse, Origin, Passage, Place, Run, Terminal } from './model.ts';
import { type Builder, isBroken, missingClauses, ownFacts, stockFacts } from './parts.ts';
import { headPlace, placeIn, problem } from './place.ts';

export function buildRuns(builder: Builder, runs: Map<string, Run>, uses: NameUse[]): void {
  for (const { as, name, origin, namePlace } of builder.declarations.all) {
    if (as !== 'run') continue;
    const facts = new FactSet(name, origin, mergeFacts(ownFacts(origin), stockFacts(builder, origin, 'cable')));
    const spec = origin.statement.shaped.spec;
    const cores: Core[] = [];
    const run: Run = {
      name,
      title: origin.statement.node.title?.value,
      origin,
      namePlace,
      facts,
      ...sizeOf(facts),
      sizePlace: facts.says('size') ? facts.place('size', 'size') : headPlace(origin),
      lengthMetres: nonNegative(facts.number('length')),
      cores,
      passages: passagesOf(builder, facts),
      along: alongOf(builder, facts),
      conductorClass: facts.number('class'),
      solid: facts.word('strands') === 'solid' || facts.number('class') === 1,
      tinned: facts.word('coating') === 'tinned',
      material: facts.word('material') === 'aluminium' ? 'aluminium' : 'copper',
      insulationCelsius: facts.number('insulation'),
      insulationVolts: facts.number('insulation-voltage'),
      bunchedWith: Math.max(0, Math.floor(facts.number('bunched') ?? 0)),
      inConduit: facts.says('method'),
      outerDiameterMm: facts.number('od') === undefined ? undefined : (facts.number('od') ?? 0) * 1000,
    };
    runs.set(name, run);
    coresOf(builder, run, uses).forEach((core) => {
      cores.push(core);
    });
    if (spec !== undefined) missingClauses(builder, origin, facts, 'a run', spec.clauses);
    checkRun(builder, run);
  }
}

function nonNegative(value: number | undefined): number | undefined {
  return value === undefined || value < 0 ? undefined : value;
}

function sizeOf(facts: FactSet): { size: ConductorSize | undefined; sizeBlank: boolean } {
  const atom = facts.slot('size', 'size')?.atom;
  if (atom?.kind !== 'quantity') return { size: undefined, sizeBlank: atom?.kind === 'blank' };
  if (atom.value === undefined) return { size: undefined, sizeBlank: atom.text.startsWith('?') };
  if (atom.dimension === 'gauge')
    return { size: { system: 'awg', gauge: atom.value, written: `${gaugeText(atom.value)} AWG` }, sizeBlank: false };
  if (!(atom.value > 0)) return { size: undefined, sizeBlank: false };
  // The number itself where it stands in mm²: a round trip through m² would cost its last digit.
  return { size: { system: 'mm2', areaMm2: atom.value, written: `${atom.value} mm²` }, sizeBlank: false };
}

function passagesOf(builder: Builder, facts: FactSet): Passage[] {
  return facts.all('enters').map((fact) => {
    const { clause, origin } = fact;
    const at = (value: SlotValue) => placeIn(origin, value.span);
    const enclosureSlot = clause.values.find(({ slot }) => slot === 'enclosure');
    const entrySlot = clause.values.find(({ slot }) => slot === 'entry');
    const sizeSlot = clause.values.find(({ slot }) => slot === 'size');
    const enclosure = named(builder, enclosureSlot, at, 'enclosure');
    const entry = named(builder, entrySlot, at, 'entry');
    const words = wordsOf(origin, clause);
    const how: Passage['how'] =
      entrySlot !== undefined ? 'entry' : (['gland', 'grommet', 'conduit', 'open'] as const).find((word) => words.some((w) => w.value === word)) ?? 'unstated';
    const open = words.find(({ value }) => value === 'open');
    const by = words.find(({ value }) => value === 'by');
    const howSpan = open?.span ?? (by === undefined ? clause.span : { start: by.span.start, end: clause.span.end });
    return { enclosure, how, size: sizeSlot?.atom.text, entry, place: placeIn(origin, clause.span), howPlace: placeIn(origin, howSpan) };
  });
}

/** Bare words of a clause that no slot took, with their spans. */
function wordsOf(origin: Origin, clause: ClauseNode) {
  const taken = new Set(clause.values.map(({ atom }) => atom));
  return origin.statement.node.body.filter(
    (atom) => atom.kind === 'word' && !taken.has(atom) && atom.span.start >= clause.span.start && atom.span.end <= clause.span.end,
  ) as { value: string; span: { start: number; end: number } }[];
}

function named(builder: Builder, value: SlotValue | undefined, at: (value: SlotValue) => Place, wanted: 'enclosure' | 'entry') {
  if (value?.atom.kind !== 'word') return undefined;
  const found = builder.resolver.find(value.atom.value, at(value), [wanted]);
  return found === undefined ? undefined : builder.parts.get(found.name);
}

function alongOf(builder: Builder, facts: FactSet): Along[] {
  const along: Along[] = [];
  for (const { clause, origin } of facts.all('along')) {
    for (const value of clause.values) {
      if (value.slot === 'place' && value.atom.kind === 'word') {
        const place = placeIn(origin, value.span);
        const found = builder.resolver.find(value.atom.value, place, ['place']);
        along.push({ location: found === undefined ? undefined : builder.locations.get(found.name), lengthMetres: undefined, place });
      } else if (value.slot === 'length') {
        const last = along.pop();
        if (last !== undefined) along.push({ ...last, lengthMetres: slotNumber(value) });
      }
    }
  }
  return along;
}

interface Draft {
  colour: SlotValue | undefined;
  number: SlotValue | undefined;
  ends: ClauseNode | undefined;
  spare: ClauseNode | undefined;
  first: ClauseNode;
  segment: number;
}

/**
 * Cores from the run's own clauses: in one segment a colour, a number and ends (or `spare`) belong together. In a run with
 * one core these may stand apart, as in `run W1 6 mm² red, 4.2 m, P1:+ to Q1:1`.
 */
function coresOf(builder: Builder, run: Run, uses: NameUse[]): Core[] {
  const drafts: Draft[] = [];
  let current: Draft | undefined;
  for (const clause of run.origin.statement.shaped.clauses) {
    const { id } = clause.spec;
    if (id !== 'colour' && id !== 'core' && id !== 'ends' && id !== 'spare') continue;
    const full = current !== undefined && (current.ends !== undefined || current.spare !== undefined);
    if (current === undefined || full || current.segment !== clause.segment) {
      current = { colour: undefined, number: undefined, ends: undefined, spare: undefined, first: clause, segment: clause.segment };
      drafts.push(current);
    }
    if (id === 'colour') current.colour = clause.values[0];
    else if (id === 'core') current.number = clause.values[0];
    else if (id === 'ends') current.ends = clause;
    else current.spare = clause;
  }
  // Colour said with the size, ends in a segment of their own.
  const [one, two] = drafts;
  if (drafts.length === 2 && one !== undefined && two !== undefined && one.ends === undefined && one.spare === undefined && two.colour === undefined && two.number === undefined) {
    drafts.splice(0, 2, { ...two, colour: one.colour, number: one.number });
  }
  const stockColour = run.facts.facts.find(({ clause, fromStock }) => clause.spec.id === 'colour' && fromStock !== undefined);
  const labels = new Map<string, number>();
  for (const { colour } of drafts) if (colour !== undefined) labels.set(colour.atom.text, (labels.get(colour.atom.text) ?? 0) + 1);
  return drafts.map((draft, index): Core => {
    const at = (span: { start: number; end: number }) => placeIn(run.origin, span);
    const colour = draft.colour ?? (drafts.length === 1 ? stockColour?.clause.values[0] : undefined);
    const [from, to] = draft.ends?.values ?? [];
    const unique = draft.colour !== undefined && labels.get(draft.colour.atom.text) === 1;
    const number = draft.number?.atom.kind === 'number' ? draft.number.atom.value : index + 1;
    return {
      run,
      index,
      label: unique && draft.colour !== undefined ? draft.colour.atom.text : drafts.length === 1 && colour !== undefined ? colour.atom.text : `core ${number}`,
      colour: colour?.atom.text,
      spare: draft.spare !== undefined,
      from: from === undefined ? undefined : terminalOf(builder, run.origin, from, uses),
      to: to === undefined ? undefined : terminalOf(builder, run.origin, to, uses),
      place: at({ start: draft.first.span.start, end: (draft.ends ?? draft.spare ?? draft.first).span.end }),
      colourPlace: draft.colour === undefined ? undefined : at(draft.colour.span),
      fromPlace: from === undefined ? undefined : at(from.span),
      toPlace: to === undefined ? undefined : at(to.span),
    };
  });
}

/** The terminal that an end of a core names; an unknown part or terminal becomes one problem. */
export function terminalOf(builder: Builder, origin: Origin, value: SlotValue, uses: NameUse[]): Terminal | undefined {
  const { atom } = value;
  const at = (span: { start: number; end: number }) => placeIn(origin, span);
  if (atom.kind === 'word') {
    const place = at(atom.span);
    const found = builder.resolver.find(atom.value, place, ['part']);
    const part = found === undefined ? undefined : builder.parts.get(found.name);
    if (part === undefined) return undefined;
    if (part.kind.oneNode) return builder.terminals.get(part.name);
    if (part.terminals.length === 0) {
      builder.problems.push(problem('unknown-terminal', place, `${part.name} is ${part.kind.withArticle} and has no terminals: a core cannot end on it.`, { subject: part.name }));
      return undefined;
    }
    const names = part.terminals.map(({ id }) => id);
    builder.problems.push(
      problem('unknown-terminal', place, `${part.name} has several terminals: say which one, ${list(names)}.`, {
        subject: part.name,
        fixes: names.slice(0, 8).map((id) => ({ title: `Write ${id}`, safe: false, edits: [{ place, newText: id }] })),
      }),
    );
    return undefined;
  }
  if (atom.kind !== 'terminal') return undefined;
  const found = builder.resolver.find(atom.part, at(atom.partSpan), ['part']);
  const part = found === undefined ? undefined : builder.parts.get(found.name);
  if (part === undefined) return undefined;
  const id = `${part.name}:${atom.terminal}`;
  const place = at(atom.terminalSpan.end > atom.terminalSpan.start ? atom.terminalSpan : atom.span);
  const terminal = builder.terminals.get(id);
  if (terminal !== undefined) {
    uses.push({ place: at(atom.terminalSpan), name: id, target: 'terminal', declaration: false });
    return terminal;
  }
  // A part whose own statement is broken may well have it.
  if (isBroken(part.origin)) return undefined;
  const names = part.terminals.map(({ spec }) => spec.name).filter((name) => name !== '');
  const near = nearWords(atom.terminal, names);
  const has = part.kind.oneNode
    ? `it is one node, written ${part.name}${names.length > 0 ? ` or with a stud from ${names[0]} to ${names.at(-1)}` : ''}`
    : names.length === 0
      ? 'it has none'
      : `it has ${list(names).replace(/ or ([^ ]+)$/, ' and $1')}`;
  const offers = near.length > 0 ? near : names.length <= 6 ? names : [];
  builder.problems.push(
    problem('unknown-terminal', place, `${part.name} is ${article(part.kind.word)} without a terminal “${atom.terminal}”: ${has}.`, {
      subject: part.name,
      related: [{ message: `${part.name} is declared here`, place: part.namePlace }],
      fixes: (part.kind.oneNode
        ? [{ title: `Write ${part.name}`, place: at(atom.span), newText: part.name }]
        : offers.map((name) => ({ title: `Write ${part.name}:${name}`, place: at(atom.terminalSpan), newText: name }))
      ).map(({ title, place: where, newText }) => ({ title, safe: false, edits: [{ place: where, newText }] })),
    }),
  );
  return undefined;
}

function checkRun(builder: Builder, run: Run): void {
  if (isBroken(run.origin)) return;
  if (run.size === undefined && !run.sizeBlank && !run.facts.says('stock'))
    builder.problems.push(
      problem('missing-required-clause', run.namePlace, `Run ${run.name} must say the size of its conductors (6 mm² or 10 AWG), or take it from stock; write ? mm² where it is not decided yet.`, {
        subject: run.name,
        fixes: [{ title: 'Add its size: ? mm²', safe: false, edits: [{ place: { uri: run.namePlace.uri, span: { start: run.namePlace.span.end, end: run.namePlace.span.end } }, newText: ' ? mm²' + (run.origin.statement.node.body[0]?.kind === 'word' ? '' : ',') }] }],
      }),
    );
  if (run.cores.length === 0) {
    builder.problems.push(problem('end-missing', run.namePlace, `Run ${run.name} does not say where it goes: give its two ends, such as F1:out to LAMP:+.`, { subject: run.name }));
    return;
  }
  for (const core of run.cores)
    if (!core.spare && core.fromPlace === undefined)
      builder.problems.push(problem('end-missing', core.place, `This core of ${run.name} does not say where it goes: give its two ends, or say spare.`, { subject: run.name }));
  const times = run.facts.slot('size', 'cores');
  const said = times === undefined ? 1 : (slotNumber(times) ?? 1);
  if (said !== run.cores.length) {
    const own = run.facts.fact('size')?.fromStock === undefined;
    const place = own ? (times === undefined ? run.sizePlace : run.facts.place('size', 'cores')) : run.facts.place('size');
    builder.problems.push(
      problem('cores-miscounted', place, `Run ${run.name} has ${said} ${said === 1 ? 'core' : 'cores'} by its size but ${run.cores.length} ${run.cores.length === 1 ? 'line' : 'lines'} of cores: write a line for each, spare ones too.`, {
        subject: run.name,
        figures: { coresSaid: said, coresWritten: run.cores.length },
      }),
    );
  }
}

export type { Fact };
