/** The cores of a run: from its clauses in every form they may be written. */
import type { ClauseNode, SlotValue } from '../../grammar/shaped.ts';
import type { Builder } from './builder.ts';
import type { Core, Run, Terminal } from './model.ts';
import { placeIn } from './place.ts';

/** What one core line says. */
export interface CoreLine {
  colour: SlotValue | undefined;
  number: SlotValue | undefined;
  ends: ClauseNode | undefined;
  spare: ClauseNode | undefined;
  readonly first: ClauseNode;
  readonly segment: number;
}

const coreClauses: ReadonlySet<string> = new Set(['colour', 'core', 'ends', 'spare']);

/**
 * Cores from the run's own clauses. In one segment a colour, a number and ends (or `spare`) belong together. A colour or
 * number that stands alone goes to the ends that follow it in a segment of their own, as in `run W1 6 mm² red, 4.2 m, P1:+
 * to Q1:1`, unless those say their own.
 */
export function coreLines(clauses: readonly ClauseNode[]): CoreLine[] {
  const lines: CoreLine[] = [];
  let current: CoreLine | undefined;
  for (const clause of clauses) {
    const { id } = clause.spec;
    if (!coreClauses.has(id)) continue;
    const bare = current !== undefined && current.ends === undefined && current.spare === undefined;
    const joins =
      bare &&
      (clause.segment === current?.segment
        ? !(id === 'colour' && current.colour !== undefined)
        : id === 'ends' || id === 'spare');
    if (current === undefined || !joins) {
      current = {
        colour: undefined,
        number: undefined,
        ends: undefined,
        spare: undefined,
        first: clause,
        segment: clause.segment,
      };
      lines.push(current);
    }
    if (id === 'colour') current.colour = clause.values[0];
    else if (id === 'core') current.number = clause.values[0];
    else if (id === 'ends') current.ends = clause;
    else current.spare = clause;
  }
  return lines;
}

export function coresOf(builder: Builder, run: Run): Core[] {
  const lines = coreLines(run.origin.statement.shaped.clauses);
  const { facts } = run.facts;
  // A single core has the colour of the cable it is cut from.
  const stockColour = facts.find(({ clause, fromStock }) => clause.spec.id === 'colour' && fromStock !== undefined);
  const cableColour = lines.length === 1 ? stockColour?.clause.values[0] : undefined;
  const colours = lines.map(({ colour }) => (colour ?? cableColour)?.atom.text);
  const numbers = coreNumbers(lines);
  const counts = new Map<string, number>();
  for (const colour of colours) if (colour !== undefined) counts.set(colour, (counts.get(colour) ?? 0) + 1);
  const at = (span: { readonly start: number; readonly end: number }) => placeIn(run.origin, span);
  return lines.map((line, index): Core => {
    const colour = colours[index];
    const [from, to] = line.ends?.values ?? [];
    const unique = colour !== undefined && counts.get(colour) === 1;
    return {
      run,
      index,
      label: unique ? colour : `core ${numbers[index] ?? index + 1}`,
      colour,
      spare: line.spare !== undefined,
      from: terminalAt(builder, from),
      to: terminalAt(builder, to),
      place: at({ start: line.first.span.start, end: (line.ends ?? line.spare ?? line.first).span.end }),
      colourPlace: line.colour === undefined ? undefined : at(line.colour.span),
      fromPlace: from === undefined ? undefined : at(from.span),
      toPlace: to === undefined ? undefined : at(to.span),
    };
  });
}

/** Numbers as said; the others take, in order, those that are left. */
export function coreNumbers(lines: readonly CoreLine[]): number[] {
  const said = lines.map(({ number }) => (number?.atom.kind === 'number' ? number.atom.value : undefined));
  const taken = new Set(said);
  let next = 1;
  return said.map((number) => {
    if (number !== undefined) return number;
    while (taken.has(next)) next += 1;
    taken.add(next);
    return next;
  });
}

/** The terminal an end names, if there is one; what it misses is told of where names are used. */
function terminalAt(builder: Builder, value: SlotValue | undefined): Terminal | undefined {
  const atom = value?.atom;
  if (atom?.kind === 'word')
    return builder.parts.get(atom.value)?.kind.oneNode ? builder.terminals.get(atom.value) : undefined;
  return atom?.kind === 'terminal' ? builder.terminals.get(`${atom.part}:${atom.terminal}`) : undefined;
}
