/** Ends of cores: parts and their terminals, free ones first, each with what is on it already. */
import type { Expected } from '../../../grammar/forms.ts';
import type { Analysis } from '../../analysis.ts';
import type { Core, Part, Place, Run, Terminal } from '../../model/model.ts';
import type { Context } from './context.ts';
import { likelyPole, poleOf } from './likely.ts';
import { kinds, type Offer } from './offers.ts';
import { undeclared } from './undeclared.ts';

interface OnTerminal {
  readonly text: string;
  /** Where it is written. */
  readonly place: Place | undefined;
}

const usedTerminals = new WeakMap<Analysis, ReadonlyMap<string, readonly OnTerminal[]>>();

/** Cores and bars on each terminal, also ends of cores that are not written out yet. */
function used(analysis: Analysis): ReadonlyMap<string, readonly OnTerminal[]> {
  let on = usedTerminals.get(analysis);
  if (on === undefined) {
    const found = new Map<string, OnTerminal[]>();
    const put = (terminal: Terminal | undefined, text: string, place: Place | undefined) => {
      if (terminal === undefined) return;
      const list = found.get(terminal.id);
      if (list === undefined) found.set(terminal.id, [{ text, place }]);
      else list.push({ text, place });
    };
    for (const { cores, name } of analysis.model.runs.values())
      for (const { from, to, fromPlace, toPlace, colour } of cores) {
        const core = `${name}${colour === undefined ? '' : ` ${colour}`}`;
        put(from, to === undefined ? core : `${core} to ${to.id}`, fromPlace);
        put(to, from === undefined ? core : `${core} to ${from.id}`, toPlace);
      }
    for (const { uri, statements } of analysis.model.files)
      for (const { shaped, node, offset } of statements)
        if (shaped.spec?.word === 'run')
          for (const atom of shaped.unknown.flatMap(({ atoms }) => atoms))
            if (atom.kind === 'terminal') {
              const span = { start: offset + atom.span.start, end: offset + atom.span.end };
              put(analysis.model.terminals.get(atom.text), node.names[0]?.value ?? 'a run', { uri, span });
            }
    for (const { from, to, place } of analysis.model.bars) {
      put(from, `a bar to ${to.id}`, place);
      put(to, `a bar to ${from.id}`, place);
    }
    on = found;
    usedTerminals.set(analysis, on);
  }
  return on;
}

/** What is on a terminal but for the end that is being written at the pointer. */
function onIt({ analysis, at, offset }: Context, terminal: Terminal): string[] {
  return (used(analysis).get(terminal.id) ?? [])
    .filter(
      ({ place }) =>
        place === undefined ||
        place.uri !== analysis.uri ||
        place.span.end < at.replace.start ||
        place.span.start > Math.max(offset, at.replace.end),
    )
    .map(({ text }) => text);
}

/** The part before the colon, also where its name is written in other letters: `lamp:` for LAMP. */
export function partBefore({ analysis: { model }, at: { prefix } }: Context): Part | undefined {
  const typed = prefix.slice(0, prefix.indexOf(':'));
  const known = model.parts.get(typed);
  if (known !== undefined) return known;
  const alike = [...model.parts.values()].filter(({ name }) => name.toLowerCase() === typed.toLowerCase());
  return alike.length === 1 ? alike[0] : undefined;
}

/** Terminals of the part before the colon. */
export function terminalOffers(context: Context): Offer[] {
  const part = partBefore(context);
  const named = part?.terminals.filter(({ spec }) => spec.name !== '') ?? [];
  return freeFirst(context, but(context, named)).map((terminal) => terminalOffer(context, terminal));
}

/**
 * Free terminals, parts that are one node, terminals that may stay free, then all parts with terminals, to be followed by a
 * colon; those of the pole that the core belongs to first, those of the other after all that may be meant. Where nothing is
 * joined (a reading, an expectation) the parts alone, as they are declared.
 */
export function endOffers(context: Context, { clause, types }: Expected & { is: 'slot' }): Offer[] {
  const parts = [...context.analysis.model.parts.values()].filter(({ terminals }) => terminals.length > 0);
  const nodes = parts.filter(({ kind }) => kind.oneNode);
  const others = parts.filter(({ kind }) => !kind.oneNode);
  const joins = clause.id === 'ends';
  const free = joins
    ? but(
        context,
        others.flatMap(({ terminals }) => terminals),
      ).filter((terminal) => onIt(context, terminal).length === 0)
    : [];
  const few = joins ? narrowed(context) : <T>(items: readonly T[]) => items;
  const asNode = types.includes('end') ? nodes : [];
  const nodesFrom = joins ? asNode.filter(({ name }) => name !== from(context)) : asNode;
  const rank = joins ? poleRank(context) : (): PoleRank => 'unknown';
  const name = (part: Part) => part.name;
  const next = joins ? nextPart(context) : () => 0;
  const sorted = (optional: boolean) => {
    const terminals = free.filter(({ spec }) => (spec.optional === true) === optional);
    return ranked(
      [...few(terminals, ({ id }) => id)].sort((a, b) => next(a.part) - next(b.part)),
      rank,
    );
  };
  const [needs, spares] = [sorted(false), sorted(true)];
  const at = ranked(
    [...few(nodesFrom, name)].sort((a, b) => next(a) - next(b)),
    ({ terminals: [node] }) => rank(node),
  );
  const inOrder = (wanted: readonly Terminal[], joints: readonly Part[], others: readonly Terminal[]) => [
    ...wanted.map((terminal) => terminalOffer(context, terminal)),
    ...joints.map((part) => nodeOffer(context, part)),
    ...others.map((terminal) => terminalOffer(context, terminal)),
  ];
  const returns = joins && isReturn(context) ? at.right : [];
  const foreseen = joins ? [...needs.right, ...needs.unknown].filter(({ part }) => next(part) === 0) : [];
  // A device is fed at its `in`, a pole at its odd terminal.
  if (from(context) !== undefined) foreseen.sort((a, b) => Number(isOutgoing(a)) - Number(isOutgoing(b)));
  const bonding = joins ? at.unknown.filter((part) => next(part) === 0) : [];
  return [
    ...[...bonding, ...returns].map((part) => nodeOffer(context, part)),
    ...foreseen.map((terminal) => terminalOffer(context, terminal)),
    ...inOrder([...needs.right, ...needs.unknown], [...at.right, ...at.unknown], [...spares.right, ...spares.unknown]),
    ...(joins && types.includes('end') ? undeclaredNodes(context) : []),
    ...inOrder(needs.wrong, at.wrong, spares.wrong),
    ...few(others, name).map((part) => {
      const open = part.terminals.filter((terminal) => onIt(context, terminal).length === 0);
      return {
        label: `${part.name}:`,
        kind: kinds.Variable,
        detail: [
          part.kind.word,
          ...quoted(part.title),
          ...(joins
            ? [
                open.length === 0
                  ? '(none free)'
                  : `(free: ${open
                      .slice(0, 8)
                      .map(({ spec }) => spec.name)
                      .join(' ')})`,
              ]
            : []),
        ].join(' '),
      };
    }),
  ];
}

/** Busbars and the like that other runs name already. */
function undeclaredNodes({ analysis, at }: Context): Offer[] {
  return undeclared(analysis)
    .filter(({ name, type, bare }) => type === 'end' && bare && name !== at.prefix)
    .map(({ name, by }) => ({ label: name, kind: kinds.Variable, detail: `as ${by}; nothing declares it yet` }));
}

function nodeOffer(context: Context, part: Part): Offer {
  const on = part.terminals.flatMap((one) => onIt(context, one));
  return {
    label: part.name,
    kind: kinds.Variable,
    detail: [part.kind.word, ...quoted(part.title), ...counted(on)].join(' '),
  };
}

/** More of one sort than these are narrowed by what is typed; editors ask again with the next letter. */
const many = 300;

/** Of very many those that go on from what is typed, the ones named like the run first: a spec of several vans has a prefix for each. */
function narrowed({
  at,
  name: own = '',
}: Context): <T>(items: readonly T[], name: (item: T) => string) => readonly T[] {
  const typed = [...at.prefix.toLowerCase()];
  const goesOn = (text: string) => {
    let from = 0;
    return typed.every((letter) => {
      from = text.indexOf(letter, from) + 1;
      return from > 0;
    });
  };
  const shared = (text: string) => {
    let length = 0;
    while (length < text.length && text[length] === own[length]) length += 1;
    return length;
  };
  return (items, name) => {
    if (items.length <= many) return items;
    return items
      .filter((item) => goesOn(name(item).toLowerCase()))
      .map((item) => ({ item, shared: shared(name(item)) }))
      .sort((a, b) => b.shared - a.shared)
      .slice(0, many)
      .map(({ item }) => item);
  };
}

type PoleRank = 'right' | 'unknown' | 'wrong';

/** Whether a terminal is of the pole that the core at the pointer belongs to. */
function poleRank(context: Context): (terminal: Terminal | undefined) => PoleRank {
  const wanted = likelyPole(context, from(context));
  if (wanted === undefined) return () => 'unknown';
  return (terminal) => {
    const pole = terminal === undefined ? undefined : poleOf(context.analysis, terminal);
    return pole === undefined ? 'unknown' : pole === wanted ? 'right' : 'wrong';
  };
}

function ranked<T>(items: readonly T[], rank: (item: T) => PoleRank): Readonly<Record<PoleRank, readonly T[]>> {
  const by: Record<PoleRank, T[]> = { right: [], unknown: [], wrong: [] };
  for (const item of items) by[rank(item)].push(item);
  return by;
}

/**
 * What leaves a source or a positive bar goes to its protection first, what leaves a panel to its isolator, a case to the body. A run goes on behind the last one, or
 * back from where it ended: the second core of a cable ends at the part of the first.
 */
function nextPart(context: Context): (part: Part) => number {
  const begun = context.analysis.model.terminals.get(from(context) ?? '');
  if (begun?.spec.name === 'case') return ({ kind }) => (kind.word === 'chassis' ? 0 : 1);
  const isBar = begun?.part.kind.oneNode === true && poleOf(context.analysis, begun) === '+';
  if (isBar) return ({ kind }) => (kind.family === 'protection' ? 0 : 1);
  if (begun?.part.kind.family === 'source' && begun.spec.polarity !== '-') {
    const wanted = begun.part.kind.word === 'panel' ? 'switching' : 'protection';
    return ({ kind }) => (kind.family === wanted ? 0 : 1);
  }
  const before = (coreBefore(context) ?? runBefore(context)?.cores.at(-1))?.to?.part;
  return (part) => (part === before ? 0 : 1);
}

const isOutgoing = ({ spec: { name } }: Terminal): boolean => name === 'out' || /^\d*[02468]$/u.test(name);

/** What leaves a minus goes to the bar of the minuses, not to another part's; the return in a cable begins there. */
function isReturn(context: Context): boolean {
  const begun = context.analysis.model.terminals.get(from(context) ?? '');
  if (begun !== undefined) return begun.spec.polarity === '-';
  return coreBefore(context) !== undefined && likelyPole(context, undefined) === '-';
}

/** The core of the same run that is written before the one at the pointer. */
function coreBefore({ run, at, analysis }: Context): Core | undefined {
  return run?.cores.findLast(({ toPlace }) => toPlace?.uri === analysis.uri && toPlace.span.end < at.replace.start);
}

/** The run written last above the pointer. */
function runBefore({ analysis, at }: Context): Run | undefined {
  const { statements } = analysis.tree;
  const here = at.statement?.offset ?? at.replace.start;
  const run = statements.findLast(({ offset, shaped }) => offset < here && shaped.spec?.word === 'run');
  return analysis.model.runs.get(run?.node.names[0]?.value ?? '');
}

const quoted = (title: string | undefined) => (title === undefined ? [] : [`“${title}”`]);
const counted = (on: readonly string[]) => (on.length === 0 ? [] : [`(${on.length} on it)`]);

/** Where the core begins whose other end is written. */
function from({ segment }: Context): string | undefined {
  return /(\S+)\s+to\s*$/u.exec(segment)?.[1];
}

/** A core does not end where it begins. */
function but(context: Context, terminals: readonly Terminal[]): readonly Terminal[] {
  const begun = from(context);
  return begun === undefined ? terminals : terminals.filter(({ id }) => id !== begun);
}

function freeFirst(context: Context, terminals: readonly Terminal[]): Terminal[] {
  if (!context.at.expected.some(({ clause }) => clause.id === 'ends')) return [...terminals];
  const taken = (terminal: Terminal) => Number(onIt(context, terminal).length > 0);
  const { right, unknown, wrong } = ranked(terminals, poleRank(context));
  return [...right, ...unknown, ...wrong].sort((a, b) => taken(a) - taken(b));
}

function terminalOffer(context: Context, terminal: Terminal): Offer {
  const on = onIt(context, terminal);
  const { spec, part, id } = terminal;
  return {
    label: id,
    kind: kinds.Field,
    detail: `${spec.meaning}${on.length === 0 ? ', free' : `; on it: ${on.slice(0, 3).join(', ')}${on.length > 3 ? ' …' : ''}`}`,
    ...(part.title === undefined
      ? {}
      : { documentation: [{ is: 'line' as const, line: `${part.kind.word} “${part.title}”` }] }),
  };
}
