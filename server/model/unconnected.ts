/** Terminals that nothing reaches although the part wants them connected. */
import type { Builder } from './builder.ts';
import type { Bar, Part, PlacedProblem, Terminal } from './model.ts';
import { problem } from './place.ts';

/**
 * One problem a part, naming its empty terminals. Nothing is said of a spec without runs (it is a list of parts), nor of a
 * part that a statement mentions which could not be read: that one may well reach the terminal that seems empty.
 */
export function unconnectedTerminals(builder: Builder, bars: readonly Bar[]): PlacedProblem[] {
  const { runs, parts, unsureParts } = builder;
  const problems: PlacedProblem[] = [];
  if (runs.size === 0 && !builder.beyond.isLaid) return problems;
  const byCore = reachedByCores(builder);
  const reached = new Set(byCore);
  for (const { from, to } of bars) for (const end of [from, to]) reached.add(end.id);
  const doubtful = doubtfulParts(builder);
  for (const part of parts.values()) {
    if (part.terminals.every(({ id }) => reached.has(id))) continue;
    if (unsureParts.has(part.name) || doubtful.has(part.name)) continue;
    const empty = emptyTerminals(part, reached, byCore);
    if (empty.length === 0) continue;
    const ids = empty.map(({ id }) => id);
    const none = !part.terminals.some(({ id }) => reached.has(id));
    problems.push(
      problem(
        'terminal-unconnected',
        part.namePlace,
        none
          ? `Nothing is connected to ${part.name}: end cores on ${both(ids)}, or take it out.`
          : `Nothing is connected to ${both(ids)}: end a core there, or look for one that ends elsewhere by mistake.`,
        { subject: part.name, figures: { terminals: ids.join(' ') } },
      ),
    );
  }
  return problems;
}

function both(ids: readonly string[]): string {
  const shown = ids.length <= 6 ? ids : [...ids.slice(0, 5), `${ids.length - 5} more`];
  return shown.length === 1 ? (shown[0] ?? '') : `${shown.slice(0, -1).join(', ')} and ${shown.at(-1)}`;
}

function reachedByCores({ runs }: Builder): Set<string> {
  const reached = new Set<string>();
  for (const { cores } of runs.values())
    for (const { from, to } of cores) for (const end of [from, to]) if (end !== undefined) reached.add(end.id);
  return reached;
}

/** Terminals the part wants connected, less what a spare pole or a conductor shared inside makes up for. */
function emptyTerminals(part: Part, reached: ReadonlySet<string>, byCore: ReadonlySet<string>): Terminal[] {
  const isReached = ({ id }: Terminal) => reached.has(id);
  const byName = new Map(part.terminals.map((terminal) => [terminal.spec.name, terminal]));
  const wanted = new Set(part.terminals.filter(({ spec }) => !spec.optional));
  const poles = part.contacts.filter(({ operated }) => operated === 'hand');
  const halves = new Set(
    poles.filter(({ from, to }) => reached.has(`${part.name}:${from}`) !== reached.has(`${part.name}:${to}`)),
  );
  if (poles.some(({ from, to }) => [from, to].some((name) => reached.has(`${part.name}:${name}`)))) {
    for (const pole of poles) {
      const ends = [byName.get(pole.from), byName.get(pole.to)].filter((end) => end !== undefined);
      // A pole with nothing on either side is a spare; with a core on one side only, the other side is missing. Two such
      // halves are one conductor in on one pole and out on another, which is told of as a crossing, and a half that only
      // a bar reaches is told of as a bar on one side.
      const half = halves.has(pole);
      const missing = half && halves.size === 1 && ends.some(({ id }) => byCore.has(id));
      for (const end of ends) {
        if (missing) wanted.add(end);
        else if (half || !ends.some(isReached)) wanted.delete(end);
      }
    }
  }
  if (part.facts.word('common') === 'common') {
    const sign = part.facts.word('common', 'pole') === 'positive' ? '+' : '-';
    const shared = part.terminals.filter(({ spec }) => spec.polarity === sign && spec.side !== undefined);
    if (shared.some(isReached)) for (const terminal of shared) wanted.delete(terminal);
  }
  return part.terminals.filter((terminal) => wanted.has(terminal) && !isReached(terminal));
}

/**
 * Parts that something unread mentions: words and terminals of runs and links that are broken, whose name was taken, or
 * whose ends name what there is not; and the parts those names are near to.
 */
function doubtfulParts(builder: Builder): ReadonlySet<string> {
  const { declarations, names, parts, terminals } = builder;
  const doubtful = new Set<string>();
  const doubt = (name: string) => {
    if (parts.has(name)) doubtful.add(name);
    else for (const near of names.near(name, ['part'])) doubtful.add(near);
  };
  for (const file of builder.read.files) {
    for (const statement of file.statements) {
      const { spec, problems } = statement.shaped;
      const joins = spec === undefined || spec.word === 'run' || spec.word === 'link';
      const lost = declarations.lost.has(statement);
      // Every name in it means something.
      if (problems.length === 0 && !lost && builder.kept.uses.has(statement)) continue;
      // Words that a mistake hid in a comment count as well.
      if (joins && problems.length > 0)
        for (const { text } of statement.node.comments)
          for (const [, name = ''] of text.matchAll(/(\p{L}[\p{L}\p{M}\p{N}_-]*):/gu)) doubt(name);
      for (const atom of joins ? statement.node.atoms : []) {
        if (atom.kind === 'terminal') {
          if (problems.length > 0 || lost || !terminals.has(`${atom.part}:${atom.terminal}`)) doubt(atom.part);
        } else if (atom.kind === 'word' && (problems.length > 0 || lost) && parts.has(atom.value))
          doubtful.add(atom.value);
      }
      // A bare end that is no part with one node: the part it names, or one near to it, may be meant.
      for (const { spec: clause, values } of spec?.word === 'run' ? statement.shaped.clauses : [])
        for (const { atom } of clause.id === 'ends' ? values : [])
          if (atom.kind === 'word' && !parts.get(atom.value)?.kind.oneNode) doubt(atom.value);
    }
  }
  return doubtful;
}
