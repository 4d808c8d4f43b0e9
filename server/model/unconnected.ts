/** Terminals that nothing reaches although the part wants them connected. */
import { list } from '../../grammar/shape-problems.ts';
import type { Bar, Part, PlacedProblem, Run } from './model.ts';
import { isBroken } from './parts.ts';
import { problem } from './place.ts';

/**
 * One problem a part. A broken run may well reach a terminal that seems empty, so where one mentions the part nothing is
 * said; where any run's ends could not be read, only parts that have a connection already are judged.
 */
export function unconnectedTerminals(parts: Iterable<Part>, runs: Iterable<Run>, bars: readonly Bar[]): PlacedProblem[] {
  const reached = new Set<string>();
  const doubtful = new Set<string>();
  let anyRun = false;
  for (const run of runs) {
    anyRun = true;
    const broken = isBroken(run.origin);
    for (const core of run.cores) {
      for (const end of [core.from, core.to]) if (end !== undefined) reached.add(end.id);
      if (!core.spare && (core.from === undefined || core.to === undefined))
        for (const atom of run.origin.statement.node.atoms) {
          if (atom.kind === 'terminal') doubtful.add(atom.part);
          else if (atom.kind === 'word') doubtful.add(atom.value);
        }
    }
    // Words that a mistake hid in a comment count as well.
    if (broken) for (const [, name = ''] of run.origin.statement.node.text.matchAll(/([\p{L}][\p{L}\p{N}_-]*):/gu)) doubtful.add(name);
  }
  for (const { from, to } of bars) {
    reached.add(from.id);
    reached.add(to.id);
  }
  const problems: PlacedProblem[] = [];
  // A spec that has no runs yet is a list of parts: nothing is connected, and that is no news.
  if (!anyRun) return problems;
  for (const part of parts) {
    if (isBroken(part.origin) || doubtful.has(part.name)) continue;
    // Two poles wired on one terminal each are a crossing, found as such.
    const half = part.contacts.filter(({ from, to }) => reached.has(`${part.name}:${from}`) !== reached.has(`${part.name}:${to}`));
    if (part.kind.family === 'switching' && half.length > 1) continue;
    const wanted = part.terminals.filter(({ spec }) => !spec.optional);
    const empty = wanted.filter(({ id }) => !reached.has(id));
    if (empty.length === 0) continue;
    const ids = empty.map(({ id }) => id);
    problems.push(
      problem(
        'terminal-unconnected',
        part.namePlace,
        empty.length === wanted.length
          ? `Nothing is connected to ${part.name}: no run ends on ${list(ids)}.`
          : `Nothing is connected to ${list(ids).replace(' or ', ' and ')}: end a core there, or look for one that ends elsewhere by mistake.`,
        { subject: part.name, figures: { terminals: ids.join(' ') } },
      ),
    );
  }
  return problems;
}
