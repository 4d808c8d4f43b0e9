/**
 * What reading a spec works out: for every case the operating point, and over all cases the design current, capacity,
 * drop and protection of every core. Rules, hover, the command and the reports read this and work nothing out themselves.
 */
import type { Case, Core, Part, Place, Run, Terminal } from '../model/model.ts';
import type { Edge, Network } from '../model/network.ts';
import type { Capacity, LimitSet } from '../physics/limits/limit-set.ts';
import type { Warming } from '../physics/short-time.ts';
import type { Astray } from './astray.ts';
import type { UnfusedBank } from './bank-leads.ts';
import type { BatteryBank } from './banks.ts';
import type { CircuitVolts } from './circuit-volts.ts';
import type { FaultAnswers } from './fault-answers.ts';
import type { JoinedVoltages } from './joined-voltages.ts';
import type { Polarities } from './polarity.ts';
import type { StringAnswers } from './strings.ts';
import type { SupplyWay } from './supply-ways.ts';
import type { Tail } from './tails.ts';

export interface CoreInCase {
  readonly core: Core;
  /** Positive from `from` to `to`. */
  readonly amps: number;
  /** Shared by the equal-resistance assumption of a zero-ohm loop. */
  readonly assumed: boolean;
  readonly dropVolts: number;
  readonly watts: number;
  readonly celsius: number;
  readonly capacityAmps: number | undefined;
}

/** One contact in a case. */
export interface ContactInCase {
  readonly part: Part;
  readonly pole: number;
  readonly closed: boolean;
  /** Positive from the contact's `from` to its `to`. */
  readonly amps: number;
  /** Shared by the equal-resistance assumption of a zero-ohm loop. */
  readonly assumed: boolean;
}

export interface PartInCase {
  readonly part: Part;
  /**
   * A load's or source's terminal voltage (+ minus -), its current (into a load, out of a source) and power. Through a
   * device or switch its current, linked poles together; of several circuits the one with most, of a fusebox all ways.
   */
  readonly volts?: number;
  readonly amps?: number;
  readonly watts?: number;
  readonly dropPercent?: number;
  readonly dropVolts?: number;
  /** It gives the most it can: its voltage is what its loads and wiring leave, not what it is set to. */
  readonly limited?: true;
  /** What a charger, converter or controller takes in; the figures above are its output's. */
  readonly input?: {
    readonly volts: number;
    readonly amps: number;
    readonly watts: number;
    readonly dropVolts: number;
    readonly dropPercent: number;
  };
  /** A relay whose coil pulls. */
  readonly energised?: boolean;
  /** Across its coil, from the terminal of its plus. */
  readonly coilVolts?: number;
}

/** What asks more power, or more current, together than its sources and wiring can bring about, beside all else that is on. */
export interface Overload {
  /** What asks most first; never none. */
  readonly parts: readonly Part[];
  /** In watt for what draws constant power, in ampere for what draws constant current. */
  readonly unit: 'W' | 'A';
  readonly asked: number;
  /** The most of it that would still be fed, were all of it less in proportion; above 0. */
  readonly fed: number;
}

export interface CaseAnswer {
  readonly name: string;
  readonly converged: boolean;
  /** Why not, in plain words. */
  readonly trouble: string | undefined;
  /** One an island that cannot be fed. */
  readonly overloads: readonly Overload[];
  /** What draws power and nothing can feed, where that alone is why there is no answer; else none. */
  readonly unfed: readonly Part[];
  /** Volts by terminal id, relative to the negative of the battery first by name in the connected part (else its first source). */
  readonly volts: ReadonlyMap<string, number>;
  /** Of one terminal alone. */
  voltsAt(terminal: Terminal): number | undefined;
  /** All that follow are empty when the case has no answer: a figure that is not known is never shown as one. */
  readonly cores: readonly CoreInCase[];
  readonly contacts: readonly ContactInCase[];
  readonly parts: ReadonlyMap<string, PartInCase>;
  /** One of the cores or parts alone, for who asks about few. */
  coreIn(core: Core): CoreInCase | undefined;
  partIn(part: Part): PartInCase | undefined;
  /** Greatest error of Kirchhoff's current law at a node, per ampere of the greatest current. */
  readonly residual: number;
}

/** What protects a core or contact (see the electrical conventions: protecting device). */
export interface Protection {
  /**
   * Smallest sum of device ratings that cuts it from every source that can drive it from one end, the greater of its two
   * ends; Infinity when something is unfused.
   */
  readonly amps: number;
  /** The devices of that cut; one in the ordinary case. Parts with the pole or way. */
  readonly devices: readonly { readonly part: Part; readonly pole: number; readonly amps: number }[];
  /** Current-limited sources counted in the sum. */
  readonly limitedSources: readonly { readonly part: Part; readonly amps: number }[];
  /** Sources that reach it with no device at all (batteries only). */
  readonly unprotectedFrom: readonly Part[];
  /** True when a device on the way has a blank rating, so that the figure is not known yet. */
  readonly blank: boolean;
}

export interface CoreFigures {
  readonly core: Core;
  /**
   * Greatest |current| over the cases (constant-power parts at their lowest voltage, loads that crank left out); on the
   * panel side the short-circuit currents; of a conductor for cranking alone what that draws.
   */
  readonly designAmps: number;
  /** Name of the case that gives it, or `panels` for the Isc sum. */
  readonly designFrom: string;
  /** Panel side only: sum over parallel strings, and × the set's factor. */
  readonly shortCircuitAmps: number | undefined;
  readonly neededAmps: number | undefined;
  /** Undefined while the size is blank or unsaid. */
  readonly capacity: Capacity | undefined;
  /** At 20 °C; undefined while size or length is blank or unsaid. */
  readonly ohms: number | undefined;
  readonly protection: Protection;
  /** True when it runs from a battery terminal to the first device (judged by protection-too-far). */
  readonly beforeFirstDevice: boolean;
  /** Serves only loads marked `cranking`. */
  readonly crankingOnly: boolean;
  /** Carries the return of a feed. */
  readonly isReturn: boolean;
  readonly onPanelSide: boolean;
  /** What a contact put into it would have for `circuitAmps`, and for `volts`. */
  readonly circuitAmps: number;
  readonly volts: CircuitVolts;
  /** Loads and inputs that it serves. */
  readonly loads: readonly Part[];
}

/** A contact of a fuse, breaker, isolator, switch, relay…: what it carries and what protects its circuit. */
export interface ContactFigures {
  readonly part: Part;
  readonly pole: number;
  readonly designAmps: number;
  readonly shortCircuitAmps: number | undefined;
  readonly neededAmps: number | undefined;
  readonly protection: Protection;
  /** As for `protection`, capped by the sum of devices downstream. */
  readonly circuitAmps: number;
  /** Rated current after poles linked in parallel on both sides take the maker's figure. Undefined: unsaid. */
  readonly ratedAmps: number | undefined;
  /** Poles linked with it in parallel on both sides, itself included; linked on one side only. */
  readonly parallelPoles: readonly number[];
  readonly oneSidedWith: readonly number[];
  /** What it may have to part. */
  readonly volts: CircuitVolts;
  /** Loads downstream, whether all of them draw a stated current (no sockets), and the sum of their design currents. */
  readonly feeds: readonly Part[];
  readonly feedsFixed: boolean;
  readonly feedsAmps: number;
  readonly isReturn: boolean;
  /** Between a battery and its first device. */
  readonly beforeFirstDevice: boolean;
  readonly onPanelSide: boolean;
  /** Its own rating as a protective device, chosen by the tool while the spec leaves it blank; undefined for a switch. */
  readonly device: { readonly amps: number | undefined; readonly blank: boolean } | undefined;
}

/** Path of a load: from the terminals of the source that feeds it, out and back. */
export interface LoadFigures {
  readonly load: Part;
  /** What feeds it in its worst case. */
  readonly source: Part | undefined;
  /** What feeds it where no case switches that off. */
  readonly usualSource: Part | undefined;
  readonly cores: readonly Core[];
  /** Worst over the cases. */
  readonly dropVolts: number;
  readonly dropPercent: number;
  readonly supplyVolts: number;
  readonly worstCase: string;
  readonly lowestVolts: number;
  readonly designAmps: number;
}

/** Length from a battery terminal to the first device on each way out of it. */
export interface UnfusedLength {
  readonly battery: Part;
  readonly device: Part;
  readonly pole: number;
  /** The device's terminal where it ends. */
  readonly end: Terminal;
  readonly cores: readonly Core[];
  readonly metres: number;
}

/** A device that two batteries reach from either side with none between: each drives its own side of it unprotected. */
export interface LoneDevice {
  readonly device: Part;
  readonly pole: number;
  /** Of each side the nearest battery; the shorter side first. */
  readonly near: UnfusedLength;
  readonly far: UnfusedLength;
}

/**
 * Conductors that batteries drive with no protective device on the way, and that lead to no device either: to loads, to
 * sources with a limit of their own, to another battery or nowhere.
 */
export interface UnfusedStretch {
  /** The nearest to a battery first; never none. */
  readonly cores: readonly Core[];
  /** Batteries it comes from: two or more where it joins them. */
  readonly batteries: readonly Part[];
  /** What it leads to. */
  readonly feeds: readonly Part[];
}

/** A plus and a minus of a part. */
export interface PartPort {
  readonly part: Part;
  readonly plus: Terminal;
  readonly minus: Terminal;
}

/** Wiring that is wrong whatever its sizes are. */
export interface Miswirings {
  /** Sources whose plus is joined to their minus: by which core or bar, and the names of all on the way. */
  readonly shorts: readonly { readonly source: PartPort; readonly by: Edge; readonly through: readonly string[] }[];
  /**
   * Ports with their plus on another's minus and their minus on its plus, and the names of all between them. Of a panel that
   * stands against its string, the panels of that, from the plus that it belongs to; of a whole string its outermost plus and minus.
   */
  readonly reversed: readonly {
    readonly port: PartPort;
    readonly against: PartPort;
    readonly string?: readonly Part[] | undefined;
    readonly through: readonly string[];
  }[];
  /** Cores that end on the wrong pole of a battery or on a bar of the other pole. */
  readonly astray: readonly (Omit<Astray, 'joint'> & { readonly core: Core })[];
  /**
   * What a supply feeds, or what itself charges one (`feeds`), and nothing leads back from; a joint, such as a busbar or chassis,
   * on its minus and on the supply's, if any.
   */
  readonly stranded: readonly {
    readonly port: PartPort;
    readonly feeds: boolean;
    readonly supply: PartPort;
    readonly end: Terminal | undefined;
    readonly home: Terminal | undefined;
  }[];
  /** Sources of different nominal voltage whose pluses meet. */
  readonly voltages: readonly JoinedVoltages[];
  /** Joined to a source that is shorted, the wrong way round on another’s voltage, or beyond a core on the wrong pole: figures of currents mean nothing there. */
  isUpset(terminal: Terminal): boolean;
  /** Whether any bank has a battery that hangs on one terminal only, and whether a terminal is joined to such a bank. */
  readonly anyHalved: boolean;
  isHalved(terminal: Terminal): boolean;
}

/** A current that flows for a time. */
export interface ShortCurrent {
  /** What short-time loads bring while they run, a load when it starts, or a starter motor. */
  readonly is: 'runs' | 'starts' | 'cranks';
  readonly loads: readonly Part[];
  /** All that flows then, others' share included; positive from the first end to the second. */
  readonly amps: number;
  /** Undefined while it is not said. */
  readonly seconds: number | undefined;
  /** Share of the day that these loads run; undefined while it is not said. */
  readonly duty: number | undefined;
  readonly caseName: string;
}

export interface DirectedFlow {
  /** Sources that can drive it this way, if only into a fault. */
  readonly sources: readonly Part[];
  /** Greatest that lasts, over the cases; panels with their short-circuit current. */
  readonly lastingAmps: number;
  /** The greatest that a load takes when it starts, or a starter motor. */
  readonly inrush: ShortCurrent | undefined;
}

/** Which way current flows in a core or contact, and for how long; linked poles all together. */
export interface Flow {
  /** From the first end to the second. */
  readonly forward: DirectedFlow;
  readonly backward: DirectedFlow;
  /** Greatest that lasts either way: short-time loads left out. */
  readonly lastingAmps: number;
  /** By the loads and their time, each in its worst case. */
  readonly runs: readonly ShortCurrent[];
  readonly starts: readonly ShortCurrent[];
  /** Of these, those of which is said how long they last: the rest can be told and not judged. */
  readonly timedStarts: readonly ShortCurrent[];
  readonly cranks: readonly ShortCurrent[];
}

/** What is left while a load starts: volts at its terminals, and at those of what feeds it. */
export interface StartingVolts {
  readonly load: Part;
  readonly source: Part;
  readonly amps: number;
  readonly volts: number;
  readonly sourceVolts: number;
  readonly caseName: string;
}

export interface Directions {
  /** The most that any load takes more when it starts than when it runs, in ampere, of those that say for how long: what lies below a limit by that needs no closer look. */
  readonly greatestSurgeAmps: number;
  ofCore(core: Core): Flow;
  ofContact(part: Part, pole: number): Flow;
  /**
   * No less than a contact carries for longer than a moment, motors that crank left out, in ampere: what bears it needs no
   * closer look. Of loads that start those count of which is said for how long. What is within `enough` is not looked at closer
   * than that.
   */
  mostOfContact(part: Part, pole: number, enough: number): number;
  /** The lasting current that would warm a core, or another conductor in its place, as much as what flows there for a time. */
  heatingAmps(core: Core, other?: Warming): number;
  /** What tells how a core warms; undefined while its capacity is not known. */
  warmingOf(core: Core): Warming | undefined;
  /** Starter motors at their current. */
  readonly cranking: readonly StartingVolts[];
  /** A load that takes more when it starts, such as an inverter that gives its surge, at that current; by case. */
  startsOf(load: Part): readonly StartingVolts[];
  /** None of these is below this, in volt: what works at that needs no closer look. Undefined where there must be one. */
  leastWhileStarting(load: Part): number | undefined;
}

/** What the tool would write for a blank. Of a blank in stock the greatest that anything taking it needs. */
export interface ChosenValue {
  /** Name of the part or run. */
  readonly subject: string;
  readonly clause: string;
  /** In the notation's words: `6 mm²`, `10 A`. */
  readonly text: string;
  readonly why: string;
  /** Where the blank stands (`? A`), in the spec's own file or one it uses. */
  readonly place: Place;
}

export interface Answers {
  readonly network: Network;
  readonly limits: LimitSet;
  /** Said by the spec, or the default by the units used. */
  readonly limitsStated: boolean;
  readonly cases: readonly CaseAnswer[];
  readonly cores: ReadonlyMap<Core, CoreFigures>;
  readonly runs: ReadonlyMap<Run, readonly CoreFigures[]>;
  /** By `PART` then pole. */
  readonly contacts: ReadonlyMap<string, readonly ContactFigures[]>;
  readonly loads: ReadonlyMap<string, LoadFigures>;
  readonly unfused: readonly UnfusedLength[];
  readonly loneDevices: readonly LoneDevice[];
  readonly unfusedStretches: readonly UnfusedStretch[];
  /** A condition that is none of the spec's cases, worked out when asked for. */
  inCase(one: Case): CaseAnswer;
  /** The device that a core leads to or comes from without a branch, if there is one. */
  tailOf(core: Core): Tail | undefined;
  /**
   * The way of a load in a case, from what feeds it and back, then those of the chargers and converters on it. None for what
   * draws nothing, for what nothing feeds there, and while the case has no answer.
   */
  waysTo(load: Part, caseName: string): readonly SupplyWay[];
  readonly miswirings: Miswirings;
  readonly chosen: readonly ChosenValue[];
  /** Nominal voltage of the whole, for limits that depend on it. */
  readonly systemVolts: number;
  /** Strings of panels in cold and heat, and the panel sides that they feed. */
  readonly strings: StringAnswers;
  /** Which conductors lead to plus and which to minus; worked out when first asked for. */
  readonly polarities: Polarities;
  /** Batteries that stand together, and what charges them; worked out when first asked for. */
  readonly banks: readonly BatteryBank[];
  /** Short circuits and what clears them; worked out when first asked for. */
  readonly faults: FaultAnswers;
  /** Who drives what which way, and what flows for a time; worked out when first asked for. */
  readonly directions: Directions;
  /** Batteries in parallel with no device between them, and what their leads would bear. */
  readonly unfusedBanks: readonly UnfusedBank[];
}
