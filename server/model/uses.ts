/**
 * Every use of every name: one pass over the clauses of all statements, by the types of their slots. What the names mean
 * is looked up silently elsewhere; here each use is recorded once, and each unknown name or terminal told of once.
 */
import { nearWords } from '../../grammar/near.ts';
import { list } from '../../grammar/phrases.ts';
import type { ShapedPlaced, SlotValue } from '../../grammar/shaped.ts';
import { signs } from '../../grammar/terminal-mends.ts';
import type { RangeAtom, TerminalAtom, WordAtom } from '../../grammar/tree.ts';
import type { Builder } from './builder.ts';
import { tellTwice } from './conditions-twice.ts';
import type { NameUse, Origin, Part, Place } from './model.ts';
import { type Wanted, wantedBy } from './names.ts';
import { fix, placeIn, problem } from './place.ts';
import { isPosition, usePosition } from './selector-positions.ts';

export function useNames(builder: Builder): void {
  const { read, kept, lookups } = builder;
  const [own] = read.files;
  for (const file of read.files) {
    const make = (statement: ShapedPlaced) => usesIn(builder, kept.origin(file, statement));
    for (const statement of file.statements) {
      const { shaped } = statement;
      if (shaped.spec === undefined || builder.beyond.toldElsewhere.has(statement)) continue;
      const word = (shaped.wrapper ?? shaped.spec).word;
      // What a used file works out or expects for itself is no part of this spec.
      if (file !== own && shaped.spec.category === 'statement' && ['case', 'expect', 'reading', 'allow'].includes(word))
        continue;
      for (const use of kept.uses.of(statement, lookups, make)) builder.uses.push(use);
    }
  }
  for (const part of builder.parts.values()) {
    for (const { clause, origin, fromStock } of part.facts.all('terminal')) {
      const value = clause.values.find(({ slot }) => slot === 'name');
      if (value?.atom.kind === 'word' && fromStock === undefined)
        builder.names.terminal(`${part.name}:${value.atom.value}`, placeIn(origin, value.span), true);
    }
  }
}

function usesIn(builder: Builder, origin: Origin): NameUse[] {
  const { spec, wrapper, clauses } = origin.statement.shaped;
  const before = builder.uses.length;
  const linked = (wrapper ?? spec)?.word === 'link' ? linkedPart(builder, origin) : undefined;
  if (['case', 'reading'].includes(spec?.word ?? '')) tellTwice(builder, origin);
  for (const clause of clauses) {
    if (isPosition(clause)) {
      usePosition(builder, origin, clause);
      continue;
    }
    for (const value of clause.values) {
      if (value.atom.kind === 'range' && linked !== undefined)
        for (const end of barEnds(origin, value.atom)) useTerminal(builder, linked, end.name, end.place, end.place);
      else useValue(builder, origin, value, clause.spec.id);
    }
  }
  return builder.uses.splice(before);
}

function useValue(builder: Builder, origin: Origin, value: SlotValue, clauseId: string): void {
  const { atom, type, slot } = value;
  if (type === 'end' || type === 'terminal') {
    if (atom.kind === 'terminal') useEnd(builder, origin, atom);
    else if (atom.kind === 'word') useBareEnd(builder, origin, atom);
  } else if (type.startsWith('name<') && atom.kind === 'word') {
    const wanted: readonly Wanted[] = slot === 'battery' ? ['battery'] : wantedBy(type);
    // The name of a finding is no name of this spec.
    if (wanted.length > 0 && clauseId !== 'slug') builder.names.use(atom.value, placeIn(origin, atom.span), wanted);
  }
}

/** The part whose bars a `link` states. */
export function linkedPart(builder: Builder, origin: Origin): Part | undefined {
  const name = origin.statement.node.names[0];
  if (name === undefined) return undefined;
  const found = builder.names.use(name.value, placeIn(origin, name.span), ['part']);
  return found === undefined ? undefined : builder.parts.get(found.name);
}

/** The two terminals of `1-3`, each with its own digits. */
export function barEnds(origin: Origin, atom: RangeAtom): { readonly name: string; readonly place: Place }[] {
  const dash = atom.text.search(/[-\u2013]/u);
  const { start, end } = atom.span;
  return [
    { name: String(atom.from), place: placeIn(origin, { start, end: start + dash }) },
    { name: String(atom.to), place: placeIn(origin, { start: start + dash + 1, end }) },
  ];
}

function useEnd(builder: Builder, origin: Origin, atom: TerminalAtom): void {
  const found = builder.names.use(atom.part, placeIn(origin, atom.partSpan), ['part']);
  const part = found === undefined ? undefined : builder.parts.get(found.name);
  if (part !== undefined)
    useTerminal(builder, part, atom.terminal, placeIn(origin, atom.terminalSpan), placeIn(origin, atom.span));
}

/** A part written by its name alone: right for one node, else it must say which terminal. */
function useBareEnd(builder: Builder, origin: Origin, atom: WordAtom): void {
  const place = placeIn(origin, atom.span);
  const found = builder.names.use(atom.value, place, ['part']);
  const part = found === undefined ? undefined : builder.parts.get(found.name);
  if (part === undefined || part.kind.oneNode || isUnsure(builder, part)) return;
  if (part.terminals.length === 0) {
    builder.problems.push(
      problem(
        'unknown-terminal',
        place,
        `${part.name} is ${part.kind.withArticle}, which has no terminals: a core cannot end there.`,
        {
          subject: part.name,
          related: [{ message: `${part.name} is declared here`, place: part.namePlace }],
        },
      ),
    );
    return;
  }
  const ids = part.terminals.map(({ id }) => id);
  builder.problems.push(
    problem('unknown-terminal', place, `${part.name} has several terminals: say which one, ${few(ids)}.`, {
      subject: part.name,
      related: [{ message: `${part.name} is declared here`, place: part.namePlace }],
      fixes: ids.slice(0, 8).map((id) => fix(`Write ${id}`, place, id)),
    }),
  );
}

function isUnsure({ unsureParts, lookups }: Builder, { name }: Part): boolean {
  const unsure = unsureParts.has(name);
  if (unsure) lookups.doubt();
  return unsure;
}

/** `place` is the terminal's own words, `whole` the part with it. */
function useTerminal(builder: Builder, part: Part, name: string, place: Place, whole: Place): void {
  const id = `${part.name}:${name}`;
  if (builder.terminals.has(id)) {
    builder.names.terminal(id, place);
    return;
  }
  if (isUnsure(builder, part)) return;
  const { kind } = part;
  const names = part.terminals.map(({ spec }) => spec.name).filter((one) => one !== '');
  const typed = name === '';
  const studs =
    names.length === 0
      ? ''
      : `, or with a stud as ${part.name}:${names[0]}${names.length > 1 ? ` to ${part.name}:${names.at(-1)}` : ''}`;
  const has = kind.oneNode
    ? `it is one node, written ${part.name}${studs}`
    : names.length === 0
      ? 'it has none, so no core can end there'
      : `it has ${few(names).replace(/ or ([^ ]+)$/u, ' and $1')}`;
  const offers = offered(name, names);
  const message = typed
    ? `${part.name}: does not say which terminal of ${kind.withArticle.replace(/^an? /u, 'the ')} is meant: ${has}.`
    : `${part.name} is ${kind.withArticle} without a terminal “${name}”: ${has}.`;
  builder.problems.push(
    problem('unknown-terminal', typed ? whole : place, message, {
      subject: part.name,
      figures: { terminal: name },
      related: [{ message: `${part.name} is declared here`, place: part.namePlace }],
      fixes: kind.oneNode
        ? whole === place
          ? []
          : [fix(`Write ${part.name}`, whole, part.name)]
        : offers.map((one) =>
            fix(`Write ${part.name}:${one}`, place, one, offers.length === 1 && isSameTerminal(name, one)),
          ),
    }),
  );
}

/** Terminals that may be meant: by their sign in words, by the letters they begin with, by near letters, or any of a few. */
function offered(name: string, names: readonly string[]): readonly string[] {
  const sign = signs.get(name.toLowerCase());
  if (sign !== undefined && names.includes(sign)) return [sign];
  // `bat` may be either of bat+ and bat-.
  const begun = name === '' ? [] : names.filter((one) => one.replace(/[+-]$/u, '') === name.toLowerCase());
  if (begun.length > 1) return begun;
  // `output` is out.
  const within = names.filter((one) => /^\p{L}{2,}$/u.test(one) && name.toLowerCase().startsWith(one));
  if (within.length > 0) return within;
  const near = nearWords(name, names);
  return near.length > 0 ? near : names.length <= 6 ? names : [];
}

function isSameTerminal(written: string, meant: string): boolean {
  return written.toLowerCase() === meant.toLowerCase() || signs.get(written.toLowerCase()) === meant;
}

/** A list for a sentence; a fusebox of sixty ways is told by its first and last. */
function few(words: readonly string[]): string {
  return words.length <= 10 ? list(words) : `${words.slice(0, 3).join(', ')} … ${words.at(-1)}`;
}
