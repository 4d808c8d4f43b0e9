/** What is known of short circuits: the figures of a terminal, of a protective device and of a core. */
import type { Core, Part, Terminal } from '../model/model.ts';
import type { TableSource } from '../tables/table.ts';
import type { BreakingCapacity, Clearing, Origin } from './clearing.ts';

export interface TerminalFault {
  readonly terminal: Terminal;
  /** Undefined where no source reaches it with both poles. */
  readonly greatestAmps: number | undefined;
  readonly leastAmps: number | undefined;
  /** The other terminal of the greatest and of the least fault. */
  readonly greatestTo: Terminal | undefined;
  readonly leastTo: Terminal | undefined;
}

export interface DeviceFault {
  readonly part: Part;
  readonly pole: number;
  readonly ratedAmps: number | undefined;
  /** Through it, for a fault right behind it on the side where that is more. */
  readonly greatestAmps: number;
  /** Through it from its first terminal to its second, for a fault right behind the second; and the other way. */
  readonly forwardAmps: number;
  readonly backwardAmps: number;
  /** Through it, for the least fault at the far end of anything that it alone protects; and that conductor. */
  readonly leastAmps: number | undefined;
  readonly leastAt: Core | undefined;
  /** A battery drives that least fault; else what limits its own current. */
  readonly leastByBattery: boolean;
  /**
   * Devices between it and every battery that break what can flow through it where it does not; none where a battery
   * reaches it without such a device.
   */
  readonly backedUpBy: readonly { readonly part: Part; readonly pole: number }[];
  /** Breaking capacity; undefined where it is neither stated nor usual for the style. */
  readonly breaks: BreakingCapacity | undefined;
  readonly clears: Clearing;
  /** Where its times come from; undefined where nothing tells them. */
  readonly curve: Origin | undefined;
  /** Time to clear the greatest and the least fault at the latest, in second; undefined where it is not sure to. */
  readonly greatestSeconds: number | undefined;
  readonly leastSeconds: number | undefined;
}

export interface CoreFault {
  readonly core: Core;
  /** Least current at its far end; undefined while its resistance is not known or nothing drives it. */
  readonly farEnd: Terminal | undefined;
  readonly leastAmps: number | undefined;
  /** Greatest at its nearer end. */
  readonly greatestAmps: number | undefined;
  /** Devices that would clear it. */
  readonly devices: readonly { readonly part: Part; readonly pole: number }[];
  readonly clears: Clearing;
  /** Longest that a fault on it lasts, in second. */
  readonly seconds: number | undefined;
  /** Greatest I²t let through, and what the core bears by k²S², in A²s. */
  readonly letThrough: number | undefined;
  /** The current and time of that. */
  readonly letThroughAt: { readonly amps: number; readonly seconds: number } | undefined;
  readonly withstand: number | undefined;
  readonly k: number | undefined;
  /**
   * Undefined where a figure is missing, and where more is let through but over more than 5 s: then the conductor gives heat
   * off, and it is its rating that protects it.
   */
  readonly withstands: boolean | undefined;
  readonly sources: readonly TableSource[];
}

export interface FaultAnswers {
  readonly terminals: ReadonlyMap<string, TerminalFault>;
  readonly cores: ReadonlyMap<Core, CoreFault>;
  /** By name, then pole. */
  readonly devices: ReadonlyMap<string, readonly DeviceFault[]>;
  /** One of them alone, for who asks about a single thing. */
  ofTerminal(terminal: Terminal): TerminalFault | undefined;
  ofCore(core: Core): CoreFault | undefined;
  ofDevice(part: Part, pole: number): DeviceFault | undefined;
  /** No fault brings a device more than this, in ampere: what breaks it needs no closer look. */
  mostThrough(part: Part, pole: number): number;
}

export const noFaults: FaultAnswers = {
  terminals: new Map(),
  cores: new Map(),
  devices: new Map(),
  ofTerminal: () => undefined,
  ofCore: () => undefined,
  ofDevice: () => undefined,
  mostThrough: () => 0,
};
