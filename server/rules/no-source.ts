/** Loads whose wiring is whole, but leads to no battery or other source. */
import { keptWhile } from '../model/lazily.ts';
import type { Part } from '../model/model.ts';
import type { Layout, Network } from '../model/network.ts';
import { partsJoinedTo } from './joined.ts';
import { lampSpec } from './language.ts';
import type { Rule, RuleContext } from './rule.ts';
import { names } from './words.ts';

export const rule: Rule = {
  slug: 'no-source',
  severity: 'warning',
  group: 'network',
  restsOnAllNames: true,
  reads: ['run.ends'],
  page: {
    title: 'A load that no source feeds',
    why: 'A load whose wires lead to no battery, charger or other source gets nothing, whatever is switched on; mostly a feed is forgotten or ends on the wrong terminal.',
    limit: 'Every load is fed by something (common practice, no source).',
    mend: 'Lead the feed and the return to the source; where it comes from outside through a plug, write the connector.',
    see: ['no-return', 'terminal-unconnected'],
    wrong: [
      lampSpec(
        {},
        'load FAN 12 W # finds: no-source "FAN"',
        'switch S1 1 pole, 10 A dc, 24 V',
        'run W4 1.5 mm² red, 1 m, S1:2 to FAN:+',
        'run W5 1.5 mm² black, 1 m, FAN:- to S1:1',
      ),
    ],
    right: [
      lampSpec(
        {},
        'load FAN 12 W',
        'switch S1 1 pole, 10 A dc, 24 V',
        'run W4 1.5 mm² red, 1 m, F1:out to S1:1',
        'run W5 1.5 mm² red, 1 m, S1:2 to FAN:+',
        'run W6 1.5 mm² black, 1 m, FAN:- to B1:-',
      ),
    ],
  },
  *check(context) {
    for (const loads of unfed(context)) {
      const [first] = loads;
      if (first === undefined) continue;
      const one = loads.length === 1;
      yield {
        message: `${names(loads)} ${one ? 'is' : 'are'} joined to no battery or other source, so ${one ? 'it gets' : 'they get'} nothing: lead feed and return to one.`,
        place: first.namePlace,
        subject: first.name,
        figures: { loads: loads.map(({ name }) => name).join(' ') },
        related: loads.slice(1).map((load) => ({ message: `${load.name} is joined to it`, place: load.namePlace })),
      };
    }
  },
};

/** Loads that hang together, and nothing that feeds with them. */
function unfed({ model, answers: { network } }: RuleContext): (readonly Part[])[] {
  const groups = unfedIn(network);
  if (groups.length === 0) return [];
  const open = new Set(model.problems.flatMap(({ slug, subject }) => (slug === 'terminal-unconnected' ? subject : [])));
  // Something that is told as not joined yet may well be where the feed comes in.
  return groups.flatMap(({ loads, joined }) => (joined.some(({ name }) => open.has(name)) ? [] : [loads]));
}

interface Group {
  readonly loads: readonly Part[];
  readonly joined: readonly Part[];
}

const kept = keptWhile<Layout, readonly Group[]>();

/** They follow from how the spec is joined. */
function unfedIn(network: Network): readonly Group[] {
  return kept(network.layout, [], () => {
    const { parts } = network.layout;
    // A draft that has no source yet, and a piece that others use, say nothing of where they are fed from.
    if (!parts.some(feeds)) return [];
    const told = new Set<Part>();
    return parts.flatMap((load): Group[] => {
      if (load.kind.family !== 'load' || told.has(load)) return [];
      const ends = load.terminals.filter(({ spec }) => spec.polarity !== undefined);
      if (ends.length < 2 || ends.some(({ id }) => (network.at.get(id) ?? []).every(({ is }) => is !== 'core')))
        return [];
      const joined = [...reachedWith(load, network)];
      const loads = joined.filter((part) => part.kind.family === 'load');
      for (const one of loads) told.add(one);
      // A plug may be where the feed comes in.
      return joined.some((part) => feeds(part) || part.kind.word === 'connector') ? [] : [{ loads, joined }];
    });
  });
}

function feeds({ kind }: Part): boolean {
  return kind.family === 'source' || kind.family === 'conversion';
}

/** Parts that conductors and contacts join, on with both poles of every part on the way; `load` first. */
function reachedWith(load: Part, network: Network): Set<Part> {
  const joined = new Set([load]);
  const seen = new Set<ReadonlySet<Part>>();
  for (const part of joined)
    for (const terminal of part.terminals) {
      const others = partsJoinedTo(terminal, network);
      if (seen.has(others)) continue;
      seen.add(others);
      for (const other of others) joined.add(other);
    }
  return joined;
}
