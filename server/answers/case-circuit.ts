/**
 * The circuit of a case with its contacts as they stand: solved again and again while conductors warm up and converters come to
 * take in what they give out, panels what the sun and their cables leave.
 */
import type { Case, Part, Terminal } from '../model/model.ts';
import type { Collapse } from '../physics/circuit.ts';
import { CircuitSolver } from '../physics/solve.ts';
import type { Solved } from '../physics/solve-island.ts';
import type { SolvedBefore } from '../physics/solved-before.ts';
import { elementwise } from '../physics/topology.ts';
import type { Overload } from './answers.ts';
import { askingTooMuch, type DrawSort } from './asked-too-much.ts';
import { CaseConductors, type Cold } from './case-conductors.ts';
import type { CaseDrawing } from './case-drawing.ts';
import { DrawnCircuit, type Element } from './circuit-draft.ts';
import type { Settling } from './contacts-in-case.ts';
import type { Installation } from './installation.ts';
import { inputAmount, type Purpose } from './loads.ts';
import type { OperatingPoint } from './operating-points.ts';
import { type Draw, efficiencyOf, feedsBattery, type Port, type Source } from './ports.ts';
import { Solar } from './solar.ts';
import { starvedDraws } from './starved.ts';
import type { Wiring } from './wiring.ts';

/** Kelvin and watt within which temperatures and converter inputs count as settled. */
const settled = 1e-9;

export class CaseCircuit {
  private readonly conductors: CaseConductors;
  private readonly solar: Solar;
  private readonly inputWatts = new Map<Part, number>();
  private readonly circuit: DrawnCircuit;
  private readonly solver: CircuitSolver;
  private solution: Solved;
  private finite = false;
  private rests = false;

  constructor(
    private readonly installation: Installation,
    private readonly drawing: CaseDrawing,
    cold: Cold,
    private readonly stated: Case,
    private readonly settling: Settling,
    private readonly purpose: Purpose,
    before: SolvedBefore,
  ) {
    const { topology, figures } = drawing.flat;
    this.circuit = new DrawnCircuit({ topology, figures: figures.slice() });
    this.conductors = new CaseConductors(drawing.conductors, cold, this.circuit.flat);
    this.solar = new Solar(drawing.panels);
    this.solver = new CircuitSolver(topology, before);
    this.solution = this.solve();
  }

  /** Everything is a number, and a stable state was found. */
  get converged(): boolean {
    return this.solution.converged && this.finite;
  }

  /** Solves on until nothing changes any more, in at most so many rounds. */
  settle(mostRounds: number): void {
    for (let round = 0; round < mostRounds && this.converged && !this.rests; round++) {
      this.change();
      this.solution = this.solve();
    }
  }

  /** Plus less minus. */
  across({ plus, minus }: Pick<Port, 'plus' | 'minus'>): number {
    return this.voltsAt(plus) - this.voltsAt(minus);
  }

  /** Whether something feeds an input: what is joined to its plus alone, and to which nothing leads back, does not. */
  feeds(draw: Draw): boolean {
    return this.isReached(draw) && this.across(draw) > 1e-9;
  }

  point(): OperatingPoint {
    const { installation, drawing, solution, conductors, stated } = this;
    const { connections, sources, draws } = drawing;
    const overloads = this.overloads();
    const unfed = overloads.length === 0 ? this.unfed() : [];
    const { amps, assumed } = conductors.currents(solution, this.circuit.flat);
    const drawAmps = new Map<Draw, number>();
    for (const [draw, element] of draws) drawAmps.set(draw, this.read(element));
    // A panel side is held like a battery: what it takes flows backwards through that.
    for (const [draw, element] of sources.panelSides) drawAmps.set(draw, -this.read(element));
    const sourceAmps = new Map<Source, number>();
    const limited = new Set<Source>();
    for (const source of installation.sources) {
      const given = this.givenBy(source);
      if (given === undefined) continue;
      sourceAmps.set(source, given);
      const holds = sources.elements.get(source)?.as === 'limited';
      if (holds && given >= (source.limitAmps ?? 0) * (1 - 1e-9)) limited.add(source);
    }
    return {
      stated,
      converged: this.converged && overloads.length === 0 && !this.isForced(),
      trouble: this.trouble(overloads, unfed),
      overloads,
      unfed,
      connections,
      settling: this.settling,
      amps,
      assumed,
      celsius: conductors.celsius,
      ohms: conductors.ohms,
      drawAmps,
      sourceAmps,
      limited,
      energised: this.settling.energised,
      ...voltsIn(solution, installation.wiring),
      residual: solution.residual,
    };
  }

  private voltsAt(terminal: Terminal): number {
    return this.solution.volts[this.installation.wiring.circuitNode(terminal)] ?? 0;
  }

  private isReached(draw: Draw): boolean {
    return this.drawing.isReached(draw, this.installation);
  }

  private read(element: Element | undefined): number {
    return element === undefined ? 0 : this.circuit.ampsOf(this.solution, element);
  }

  /** Out of a source; undefined where it is no part of this circuit. */
  private givenBy(source: Source): number | undefined {
    const { passes, sources } = this.drawing;
    const element = source.is === 'load-output' ? passes.get(source.part) : sources.elements.get(source);
    if (element === undefined) return undefined;
    // What feeds as a constant current is a draw of less than nothing to the circuit.
    return element.as === 'current' ? -this.read(element) : this.read(element);
  }

  /** A solution, and what it makes of temperatures and inputs for the next. */
  private solve(): Solved {
    const solution = this.solver.solve(this.circuit.flat.figures);
    this.solution = solution;
    this.finite = allFinite(solution.volts) && allFinite(solution.amps);
    if (this.converged) this.rests = Math.max(this.conductors.settle(solution), this.takeIn(), this.sun()) <= settled;
    return solution;
  }

  /** What chargers and converters take in for what they give out; the greatest change in watt. */
  private takeIn(): number {
    let change = 0;
    for (const source of this.installation.sources) {
      const { part, is } = source;
      if (is !== 'output' || feedsBattery(part.kind)) continue;
      const fromPanels = this.solar.panelWatts.get(part) ?? 0;
      const given = this.across(source) * (this.givenBy(source) ?? 0) - fromPanels;
      const watts = Math.max(0, given / efficiencyOf(part));
      change = Math.max(change, Math.abs(watts - (this.inputWatts.get(part) ?? 0)));
      this.inputWatts.set(part, watts);
    }
    return change;
  }

  /** What panels and their controllers make of the last solution; the greatest change in watt. */
  private sun(): number {
    return this.solar.settle(
      (port) => this.across(port),
      (source) => this.givenBy(source) ?? 0,
    );
  }

  /** Conductors as warm, and inputs as great, as the last solution made them. */
  private change(): void {
    const { circuit } = this;
    this.conductors.change(circuit.flat);
    for (const [draw, element] of this.drawing.inputs) {
      const amount = inputAmount(draw, this.inputWatts.get(draw.part) ?? 0, this.installation, this.purpose);
      if (element.as === 'power') circuit.setWatts(element, amount);
      else if (element.as === 'current') circuit.setAmps(element, amount);
    }
    this.solar.change(circuit);
  }

  /** Where an island collapsed: whose voltage falls away, what they ask, and what of that could be fed beside all else. */
  private overloads(): Overload[] {
    const { collapses, trouble } = this.solution;
    if (this.converged) return this.starved();
    if (trouble !== 'collapse') return [];
    const found = collapses.flatMap((collapse) => this.overloadsIn(collapse));
    // Nothing of what asks power could be fed: that may be because of constant currents.
    return collapses.some(({ weakFeedable }) => weakFeedable === 0) ? [...found, ...this.currentsTooMuch()] : found;
  }

  private overloadsIn({ weak, weakFeedable }: Collapse): Overload[] {
    // What is the wrong way round no source reaches.
    const draws = [...this.drawing.draws].filter(
      ([draw, { as, at }]) => as === 'power' && weak.includes(at) && this.isReached(draw),
    );
    const apart = this.askingTooMuch(draws, 'powers');
    return apart.length > 0 ? apart : this.overloadOf(draws, weakFeedable, 'W');
  }

  /** Loads of constant current that ask more than a source which has an end to what it gives. */
  private currentsTooMuch(): Overload[] {
    if (this.purpose === 'design') return [];
    const draws = [...this.drawing.draws].filter(
      ([draw, { as }]) => as === 'current' && draw.amount > 0 && this.isReached(draw),
    );
    return this.askingTooMuch(draws, 'currents');
  }

  /** Of draws that are fed apart from each other, those that ask too much. */
  private askingTooMuch(draws: readonly [Draw, Element][], sort: DrawSort): Overload[] {
    const groups = this.byPositive(draws);
    if (sort === 'powers' && groups.length <= 1) return [];
    const indices = groups.map((group) => group.map(([, { at }]) => at));
    const unit = sort === 'powers' ? 'W' : 'A';
    return askingTooMuch(elementwise(this.circuit.flat), indices, sort).flatMap(({ group, feedable }) =>
      this.overloadOf(groups[group] ?? [], feedable, unit),
    );
  }

  /** Draws whose pluses are joined as the contacts stand. */
  private byPositive(draws: readonly [Draw, Element][]): [Draw, Element][][] {
    const groups: [Draw, Element][][] = [];
    for (const one of draws) {
      const group = groups.find(
        ([first]) => first !== undefined && this.drawing.connections.joined(first[0].plus, one[0].plus),
      );
      if (group === undefined) groups.push([one]);
      else group.push(one);
    }
    return groups;
  }

  private overloadOf(draws: readonly [Draw, Element][], feedable: number, unit: Overload['unit']): Overload[] {
    const asked = new Map<Part, number>();
    for (const [draw] of draws) {
      const own = draw.is === 'input' ? (this.inputWatts.get(draw.part) ?? 0) : draw.amount;
      if (own > 0) asked.set(draw.part, (asked.get(draw.part) ?? 0) + own);
    }
    return overload(asked, feedable, unit);
  }

  /** Loads of constant current that stand below 0 V. */
  private belowZero(): [Draw, Element][] {
    const below: [Draw, Element][] = [];
    for (const [draw, element] of this.drawing.draws)
      if (element.as === 'current' && draw.amount > 0 && this.across(draw) < 0 && this.isReached(draw))
        below.push([draw, element]);
    return below;
  }

  /** Of design currents: what no source gives is forced backwards through coils and whatever else follows the voltage. */
  private isForced(): boolean {
    if (this.purpose === 'actual' || this.belowZero().length === 0) return false;
    return [...this.drawing.draws.values()].some(({ as }) => as === 'resistor' || as === 'link');
  }

  /** What of them is too much; of what is reckoned at its lowest voltage nobody asks that. */
  private starved(): Overload[] {
    const takes = this.purpose === 'design' ? [] : this.belowZero();
    if (takes.length === 0) return [];
    const starved = starvedDraws(
      elementwise(this.circuit.flat),
      this.solution,
      takes.map(([, { at }]) => at),
    );
    if (starved === undefined) return [];
    const amps = new Map<Part, number>();
    for (const [{ part, amount }, { at }] of takes)
      if (starved.currents.includes(at)) amps.set(part, (amps.get(part) ?? 0) + amount);
    return overload(amps, starved.feedable, 'A');
  }

  /** Where an island collapsed and nothing of it could be fed: what draws power and no source reaches, or else all that does. */
  private unfed(): Part[] {
    if (this.converged || this.solution.trouble !== 'collapse') return [];
    const there = new Set(this.solution.collapses.flatMap(({ powers: all }) => all));
    const powers = [...this.drawing.draws].flatMap(([draw, { as, at }]) =>
      as === 'power' && there.has(at) ? [draw] : [],
    );
    const away = powers.filter((draw) => !this.isReached(draw));
    return [...new Set((away.length > 0 ? away : powers).map(({ part }) => part))];
  }

  /** Why there is no answer, in plain words. */
  private trouble(overloads: readonly Overload[], unfed: readonly Part[]): string | undefined {
    const { converged, trouble } = this.solution;
    const [worst] = [...overloads].sort((a, b) => a.fed / a.asked - b.fed / b.asked);
    if (converged && worst === undefined)
      return this.finite ? undefined : 'its figures are beyond anything that can be worked out';
    if (!converged && trouble !== 'collapse') return 'no stable state was found for its sources';
    if (worst === undefined) {
      const who = unfed.length <= 3 ? unfed.map(({ name }) => name).join(' and ') : 'what is on';
      return `nothing can feed ${who}: look whether a plus and a minus are swapped`;
    }
    const { parts, asked, fed, unit } = worst;
    const who = parts.length === 1 ? parts[0]?.name : `what is on, most of it ${parts[0]?.name},`;
    return `${who} cannot be fed: of ${figure(asked)} ${unit} its sources and wiring bring about ${figure(fed)} ${unit} at most, so have less on at once, or use larger or shorter cable`;
  }
}

/** By itself, because a point is kept for longer than what its circuit was drawn from. */
function voltsIn({ volts }: Solved, { circuitNode }: Wiring): Pick<OperatingPoint, 'voltsAt' | 'across'> {
  const voltsAt = (terminal: Terminal) => volts[circuitNode(terminal)] ?? 0;
  return { voltsAt, across: ({ plus, minus }) => voltsAt(plus) - voltsAt(minus) };
}

function allFinite(figures: Float64Array): boolean {
  for (let i = 0; i < figures.length; i++) if (!Number.isFinite(figures[i])) return false;
  return true;
}

/** What each part asks, the greatest first; nothing where nothing of it could be fed. */
function overload(asked: ReadonlyMap<Part, number>, feedable: number, unit: Overload['unit']): Overload[] {
  const asking = [...asked].sort(([, one], [, other]) => other - one);
  const all = asking.reduce((sum, [, own]) => sum + own, 0);
  const fed = feedable * all;
  return fed > 0 ? [{ parts: asking.map(([part]) => part), asked: all, fed, unit }] : [];
}

function figure(value: number): string {
  return value >= 100 ? value.toFixed(0) : value.toPrecision(2);
}
