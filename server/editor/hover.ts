/** Hover: what the word under the pointer means, and the figures that belong to it. */
import type { Hover } from 'vscode-languageserver';
import type { Span } from '../../grammar/tree.ts';
import type { Analysis } from '../analysis.ts';
import type { Part } from '../model/model.ts';
import { allRules } from '../rules/all.ts';
import { tellStatus } from '../tables/table.ts';
import { type At, at } from './at.ts';
import { said } from './hover/about.ts';
import { chosenFor } from './hover/chosen.ts';
import { wayHover } from './hover/devices.ts';
import { limitsHover, ownLimitsHover } from './hover/limits.ts';
import { caseHover, placeHover, stockHover } from './hover/names.ts';
import { partHover } from './hover/part.ts';
import { coreLine, runHover } from './hover/run.ts';
import { linkLines } from './hover/switching.ts';
import { terminalHover } from './hover/terminal.ts';
import { clauseHover, colourHover, quantityHover, statementHover } from './hover/words.ts';
import { type Block, bold, line, list, quiet, render } from './markup.ts';
import { rangeOf } from './ranges.ts';

interface Told {
  readonly blocks: readonly Block[];
  /** The words told about, in the statement. */
  readonly span: Span;
}

export interface HoverOptions {
  readonly markdown: boolean;
  /** The client shows pictures in Markdown. */
  readonly pictures?: boolean;
}

export function hover(analysis: Analysis, offset: number, options: HoverOptions): Hover | null {
  const here = at(analysis, offset);
  if (here === undefined) return null;
  const told = tell(analysis, here);
  if (told === undefined || told.blocks.length === 0) return null;
  const { offset: start } = here.statement;
  return {
    contents: render(told.blocks, options.markdown, options.pictures),
    range: rangeOf(analysis.lines, { start: start + told.span.start, end: start + told.span.end }),
  };
}

function tell(analysis: Analysis, here: At): Told | undefined {
  const { atom, statement, clause, value } = here;
  if (atom === undefined) return undefined;
  const { node, shaped } = statement;
  const whole = (blocks: readonly Block[]): Told => ({ blocks, span: atom.span });
  if (atom === node.keyword) {
    const own = shaped.wrapper ?? shaped.spec;
    if (own === undefined) return undefined;
    return whole([...statementHover(own), ...(own.word === 'system' ? systemHover(analysis) : [])]);
  }
  const name = node.names.find((one) => one === atom);
  if (name !== undefined) return whole(declared(analysis, here, name.value));
  if (atom === node.title)
    return whole(node.names[0] === undefined ? systemHover(analysis) : declared(analysis, here, node.names[0].value));
  if (shaped.wrapper !== undefined && shaped.spec !== undefined && atom.kind === 'word' && clause === undefined)
    return atom.value === shaped.spec.word ? whole(statementHover(shaped.spec)) : undefined;
  if (atom.kind === 'terminal' && value !== undefined) return endHover(analysis, here);
  if (clause === undefined || shaped.spec === undefined) return undefined;
  const general = clauseHover(clause.spec, shaped.spec);
  if (value === undefined) return whole([...way(analysis, here), ...general]);
  switch (atom.kind) {
    case 'quantity':
      return whole([...quantityHover(analysis, atom), ...blank(analysis, here), ...way(analysis, here), ...general]);
    case 'range':
      return whole([...barHover(analysis, here), ...general]);
    case 'blank':
      return whole([...blank(analysis, here), ...general]);
    case 'word': {
      const special = wordHover(analysis, here, atom.value);
      return whole(special.length > 0 ? special : general);
    }
    default:
      return whole([...way(analysis, here), ...general]);
  }
}

function declared(analysis: Analysis, here: At, name: string): readonly Block[] {
  const own = here.statement.shaped.wrapper ?? here.statement.shaped.spec;
  if (own?.word === 'case') return caseNamed(analysis, name);
  return named(analysis, name);
}

function caseNamed(analysis: Analysis, name: string): readonly Block[] {
  const stated = analysis.model.cases.find((one) => one.name === name && !one.implied);
  return stated === undefined ? [] : [...caseHover(analysis, stated), ...unfinished(analysis)];
}

function named(analysis: Analysis, name: string): readonly Block[] {
  const blocks = thingNamed(analysis, name);
  return blocks.length === 0 ? [] : [...blocks, ...unfinished(analysis)];
}

function thingNamed(analysis: Analysis, name: string): readonly Block[] {
  const { parts, runs, locations, stocks } = analysis.model;
  const part = parts.get(name);
  if (part !== undefined) return partHover(analysis, part);
  const run = runs.get(name);
  if (run !== undefined) return runHover(analysis, run);
  const place = locations.get(name);
  if (place !== undefined) return placeHover(analysis, place);
  const stock = stocks.get(name);
  if (stock === undefined) return [];
  return stock.kindWord === 'limit-set' ? ownLimitsHover(analysis, stock) : stockHover(analysis, stock);
}

/** A word that a slot took: a name, a colour, a finding, a set of limits. */
function wordHover(analysis: Analysis, here: At, word: string): readonly Block[] {
  const { value } = here;
  if (value === undefined) return [];
  if (value.type === 'colour') return [...colourHover(word), ...coreOf(analysis, here)];
  if (value.type === 'name<slug>') return slugHover(analysis, here, word);
  if (value.type === 'name<case>') return caseNamed(analysis, word);
  if (value.type.startsWith('name<') || value.type === 'end') return named(analysis, word);
  if (value.slot === 'set') return limitsHover(analysis, word);
  return [];
}

/** Said in place of figures that are not there yet. */
function unfinished({ isWorkedOut }: Analysis): Block[] {
  return isWorkedOut ? [] : [line(quiet('The figures are still being worked out: look again in a moment.'))];
}

/** The core that a colour stands for. */
function coreOf(analysis: Analysis, { statement, value }: At): readonly Block[] {
  const run = analysis.model.runs.get(statement.node.names[0]?.value ?? '');
  const start = statement.offset + (value?.span.start ?? 0);
  const core = run?.cores.find(
    ({ colourPlace }) => colourPlace?.uri === analysis.uri && colourPlace.span.start === start,
  );
  return core === undefined ? [] : [line(coreLine(core))];
}

function endHover(analysis: Analysis, { atom, relative }: At): Told | undefined {
  if (atom?.kind !== 'terminal') return undefined;
  const part = analysis.model.parts.get(atom.part);
  if (part === undefined) return undefined;
  // The colon belongs to the terminal: there the pointer has left the part's name.
  if (relative < atom.partSpan.end) return { blocks: named(analysis, part.name), span: atom.partSpan };
  const terminal = analysis.model.terminals.get(`${atom.part}:${atom.terminal}`);
  if (terminal === undefined) return undefined;
  const figures = analysis.answers.contacts.get(part.name)?.find(({ pole }) => wayOf(part, atom.terminal) === pole);
  const device = part.kind.word === 'fusebox' && figures !== undefined ? wayHover(analysis, part, figures) : [];
  return { blocks: [...terminalHover(analysis, terminal), ...device, ...unfinished(analysis)], span: atom.span };
}

/** The way of a fusebox that a terminal is the outgoing side of. */
function wayOf(part: Part, terminal: string): number | undefined {
  return part.contacts.find(({ to }) => to === terminal)?.pole;
}

/** `way 3 fuse 10 A`: that way's figures. */
function way(analysis: Analysis, { clause, statement }: At): readonly Block[] {
  const name = statement.node.names[0]?.value;
  if (clause === undefined || clause.spec.id !== 'way' || name === undefined) return [];
  const part = analysis.model.parts.get(name);
  const numbers = ['way', 'last'].map(
    (slot) => clause.values.find((one) => one.slot === slot && one.atom.kind === 'number')?.atom,
  );
  const [from, to] = numbers.map((number) => (number?.kind === 'number' ? number.value : undefined));
  if (part === undefined || from === undefined) return [];
  return (analysis.answers.contacts.get(name) ?? [])
    .filter(({ pole }) => pole >= from && pole <= (to ?? from))
    .flatMap((figures) => [line(bold(`${name}:${figures.pole}`)), ...wayHover(analysis, part, figures)]);
}

/** A blank: what the tool would choose, and why; or that it cannot tell yet. */
function blank(analysis: Analysis, { atom, clause, statement }: At): readonly Block[] {
  const open =
    atom?.kind === 'blank' || (atom?.kind === 'quantity' && atom.value === undefined && atom.text.startsWith('?'));
  if (!open || clause === undefined) return [];
  if (!analysis.isWorkedOut) return unfinished(analysis);
  const blocks = statement.node.names.flatMap(({ value }) => chosenFor(analysis, value, clause.spec.id));
  return blocks.length > 0 ? blocks : [line('Left open. Nothing here decides it yet.')];
}

/** The installation as a whole, as this spec states it. */
function systemHover({ model, answers }: Analysis): readonly Block[] {
  const { title, facts } = model.system;
  return [
    line(
      ...(title === undefined ? [bold('system')] : [bold(title)]),
      `: ${model.parts.size} parts, ${model.runs.size} cables`,
    ),
    ...(facts === undefined ? [] : said(facts)),
    ...(answers.limitsStated
      ? []
      : [line(`No set of limits is said: ${answers.limits.id} counts, by the units used.`)]),
  ];
}

/** A bar of a `link`, and what it does to the poles. */
function barHover(analysis: Analysis, { atom, statement }: At): readonly Block[] {
  const start = statement.offset + (atom?.span.start ?? 0);
  const bar = analysis.model.bars.find(({ place }) => place.uri === analysis.uri && place.span.start === start);
  if (bar === undefined) return [];
  const contacts = analysis.answers.contacts.get(bar.part.name) ?? [];
  return [line(`A bar from ${bar.from.id} to ${bar.to.id}.`), ...list(linkLines(bar.part, contacts))];
}

/** A finding's slug in an `allow`: why it matters, and what it accepts here. */
function slugHover(analysis: Analysis, { clause }: At, slug: string): readonly Block[] {
  const rule = allRules.find((one) => one.slug === slug);
  if (rule === undefined) return [];
  const subject = clause?.values.find(({ slot }) => slot === 'subject')?.atom.text;
  const here = analysis.accepted.filter(
    (finding) => finding.slug === slug && (subject === undefined || finding.subject === subject),
  );
  return [
    line(bold(rule.page.title)),
    { is: 'markdown', text: rule.page.why },
    { is: 'markdown', text: tellStatus(rule.page.limit) },
    ...list(here.map(({ message }) => `Accepted here: ${message}`)),
  ];
}
