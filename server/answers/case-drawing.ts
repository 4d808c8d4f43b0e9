/**
 * The circuit of a case as it is drawn: what stands where in it while relays and inputs stand as they do. Other cables put other
 * figures into it, so that from edit to edit a case is hardly ever drawn anew.
 */
import type { Case, Part, Terminal } from '../model/model.ts';
import type { Layout } from '../model/network.ts';
import type { Flat } from '../physics/topology.ts';
import { CircuitDraft, type Element } from './circuit-draft.ts';
import { ConductorsDrawn } from './conductors-drawn.ts';
import { type Connections, connectionsIn, isSameSettling, type Settling } from './contacts-in-case.ts';
import { cutOffAmong } from './cut-off.ts';
import type { Installation } from './installation.ts';
import { addDraws, type Purpose, reachesSupply } from './loads.ts';
import type { Draw, Port } from './ports.ts';
import { type PanelsDrawn, SolarDrawing } from './solar-drawing.ts';
import { addSources, type SourcesInCase } from './sources.ts';
import type { Supply } from './supplies.ts';

/** Who was said to feed a port: it follows from how far away things are, so that other cables may change it. */
interface Fed {
  readonly port: Port;
  /** Undefined for its usual feeder. */
  readonly may: ((supply: Supply) => boolean) | undefined;
  readonly supply: Supply | undefined;
}

export class CaseDrawing {
  readonly connections: Connections;
  readonly conductors: ConductorsDrawn;
  /** Load outputs of controllers by what leads to them. */
  readonly passes: ReadonlyMap<Part, Element>;
  readonly panels: readonly PanelsDrawn[];
  readonly sources: SourcesInCase;
  readonly draws: ReadonlyMap<Draw, Element>;
  readonly inputs: readonly (readonly [Draw, Element])[];
  readonly flat: Flat;
  private readonly layout: Layout;
  private readonly references: readonly Terminal[];
  private readonly systemVolts: number;
  private readonly generalCelsius: number | undefined;
  private readonly fed: Fed[] = [];

  /** `ohms` of the cold conductors, by edge. */
  constructor(
    from: Installation,
    ohms: Float64Array,
    stated: Case,
    private readonly settling: Settling,
    purpose: Purpose,
  ) {
    const installation = noting(from, this.fed);
    const { wiring } = installation;
    this.layout = installation.layout;
    this.references = installation.references;
    this.systemVolts = installation.systemVolts;
    this.generalCelsius = installation.model.system.ambientCelsius;
    this.connections = connectionsIn(installation, stated, settling);
    const draft = new CircuitDraft(wiring.terminals.length, wiring.circuitNode);
    this.conductors = new ConductorsDrawn(installation, this.connections.closed, ohms, draft);
    const passes = new Map<Part, Element>();
    for (const { part, is, from, to } of wiring.inner) {
      if (is === 'common' || stated.on.get(part.name) === false) continue;
      const element = draft.conductor(from, to, 0);
      if (from.spec.polarity === '+') passes.set(part, element);
    }
    this.passes = passes;
    const solar = new SolarDrawing(installation, stated, this.connections, purpose);
    this.sources = addSources(draft, installation, stated, this.connections, settling, solar, purpose);
    this.panels = solar.drawn;
    const isReached = (draw: Draw) => this.isReached(draw, installation);
    const cutOff = (draws: readonly Draw[]) =>
      cutOffAmong(draws, this.sources.elements.keys(), this.connections.nodeOf);
    this.draws = addDraws(draft, installation, stated, settling, isReached, cutOff, purpose);
    this.inputs = [...this.draws].filter(([{ is }]) => is === 'input');
    this.flat = draft.flat(installation.references);
    this.conductors.placed(this.flat.topology);
  }

  /** Whether a source that gives something stands behind it. */
  isReached(draw: Draw, installation: Installation): boolean {
    return reachesSupply(draw, installation, this.connections, this.sources.elements);
  }

  /** Whether it would be drawn like this now, of the same case for the same purpose. */
  isStill(installation: Installation, ohms: Float64Array, settling: Settling): boolean {
    const { layout, references, systemVolts, model, feeder, usualFeeder } = installation;
    return (
      this.layout === layout &&
      this.references.every((terminal, i) => terminal === references[i]) &&
      this.systemVolts === systemVolts &&
      this.generalCelsius === model.system.ambientCelsius &&
      isSameSettling(this.settling, settling) &&
      this.conductors.fit(ohms, this.flat.topology) &&
      this.fed.every(({ port, may, supply }) => supply === (may === undefined ? usualFeeder(port) : feeder(port, may)))
    );
  }
}

/** The same installation, whose answers about who feeds whom are noted. */
function noting(installation: Installation, fed: Fed[]): Installation {
  return {
    ...installation,
    feeder(port, may) {
      const supply = installation.feeder(port, may);
      fed.push({ port, may, supply });
      return supply;
    },
    usualFeeder(port) {
      const supply = installation.usualFeeder(port);
      fed.push({ port, may: undefined, supply });
      return supply;
    },
  };
}

/** So many ways of relays and inputs to stand are kept of a case. */
const mostDrawings = 4;

/** Drawings of one case for one purpose, by how its relays and inputs stand; the latest first. */
export class CaseDrawings {
  private readonly kept: CaseDrawing[] = [];

  of(installation: Installation, ohms: Float64Array, stated: Case, settling: Settling, purpose: Purpose): CaseDrawing {
    const { kept } = this;
    const at = kept.findIndex((one) => one.isStill(installation, ohms, settling));
    const drawing = kept[at] ?? new CaseDrawing(installation, ohms, stated, settling, purpose);
    if (at >= 0) kept.splice(at, 1);
    else if (kept.length === mostDrawings) kept.pop();
    kept.unshift(drawing);
    return drawing;
  }
}
