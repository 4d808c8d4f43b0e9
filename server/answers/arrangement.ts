/**
 * Who feeds, who draws, and how conductors join them: what follows from the layout of a spec alone, and hangs on it. An edit
 * of a length or size leaves all of it as it was.
 */
import { keptWith, lazily } from '../model/lazily.ts';
import type { Part, Terminal } from '../model/model.ts';
import type { Layout } from '../model/network.ts';
import { type FedSides, fedSidesIn } from './fed-sides.ts';
import { PanelSide, type PanelString, stringsOf } from './panel-side.ts';
import { type Draw, drawsOf, type Source, sourcesOf } from './ports.ts';
import { type Supply, suppliesOf } from './supplies.ts';
import { type Way, type Wiring, wiringOf } from './wiring.ts';

export interface Arrangement {
  readonly layout: Layout;
  readonly wiring: Wiring;
  readonly sources: readonly Source[];
  readonly draws: readonly Draw[];
  readonly supplies: readonly Supply[];
  /** Connected parts that only join batteries in series. */
  readonly joints: ReadonlySet<number>;
  readonly strings: readonly PanelString[];
  readonly panelSide: PanelSide;
  /** What stands at a part: its contacts, what of it gives and what of it takes. */
  at(part: Part): PartStands;
  /** On which sides of a way something feeds; undefined for one on a loop. */
  fedSides(way: Way): FedSides | undefined;
  /** Supplies and strings of panels with an end of theirs on the net of a terminal. */
  feedsOn(terminal: Terminal): ReadonlySet<Supply | PanelString>;
}

export interface PartStands {
  /** Linked poles are one way. */
  readonly ways: readonly Way[];
  readonly sources: readonly Source[];
  readonly draws: readonly Draw[];
}

const nothing: PartStands = { ways: [], sources: [], draws: [] };

export const arrangementOf = keptWith((layout: Layout): Arrangement => {
  const wiring = wiringOf(layout);
  const sources = sourcesOf(layout.parts);
  const draws = drawsOf(layout.parts);
  const { all: supplies, joints } = suppliesOf(sources, draws, wiring);
  const strings = stringsOf(sources, draws, wiring);
  const panelSide = new PanelSide(strings, sources, draws, wiring);
  const at = lazily(() => {
    const stands = new Map<Part, { ways: Way[]; sources: Source[]; draws: Draw[] }>();
    const of = (part: Part) => {
      let here = stands.get(part);
      if (here === undefined) {
        here = { ways: [], sources: [], draws: [] };
        stands.set(part, here);
      }
      return here;
    };
    for (const way of wiring.ways) if (way.edges[0]?.is === 'contact') of(way.edges[0].part).ways.push(way);
    for (const source of sources) of(source.part).sources.push(source);
    for (const draw of draws) of(draw.part).draws.push(draw);
    return stands;
  });
  const fedSides = lazily(() => fedSidesIn(sources, wiring));
  const feedsOn = lazily(() => {
    const on = new Map<number, Set<Supply | PanelString>>();
    // Of batteries in series also where two of them meet.
    for (const feed of [...supplies, ...strings])
      for (const { plus, minus } of 'sources' in feed ? [feed, ...feed.sources] : [feed])
        for (const net of [wiring.net(plus), wiring.net(minus)]) on.set(net, (on.get(net) ?? new Set()).add(feed));
    return on;
  });
  return {
    layout,
    wiring,
    sources,
    draws,
    supplies,
    joints,
    strings,
    panelSide,
    at: (part) => at().get(part) ?? nothing,
    fedSides: (way) => fedSides()(way),
    feedsOn: (terminal) => feedsOn().get(wiring.net(terminal)) ?? new Set(),
  };
});
