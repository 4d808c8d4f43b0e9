/**
 * Figures of cores and contacts, of which some are looked up when asked for: a main cable serves everything. They are classes,
 * since V8 keeps an object with getters of its own as a table, which takes several times the room.
 */

import type { Core, Part } from '../model/model.ts';
import type { ContactFigures, CoreFigures, Protection } from './answers.ts';
import type { CircuitVolts } from './circuit-volts.ts';
import type { Installation } from './installation.ts';
import { type Draw, designAmpsOf } from './ports.ts';
import type { Protects } from './protection.ts';
import type { Served } from './served.ts';
import type { Way } from './wiring.ts';

/** What is looked up in, for all of a spec. */
export interface LookedUpIn {
  readonly installation: Installation;
  readonly served: Served;
  voltsOf(way: Way, onPanelSide: boolean): CircuitVolts;
}

/** What figures of cores are looked up in. */
export interface CoresLookUp {
  readonly served: Served;
  readonly protections: Pick<Protects, 'circuitAmps'>;
  voltsOf(way: Way, onPanelSide: boolean): CircuitVolts;
}

/** What a core and a contact have in common. */
class OfWay {
  readonly designAmps: number;
  readonly shortCircuitAmps: number | undefined;
  readonly neededAmps: number | undefined;
  readonly protection: Protection;
  readonly beforeFirstDevice: boolean;
  readonly isReturn: boolean;

  constructor(known: Omit<OfWay, 'onPanelSide'>) {
    this.designAmps = known.designAmps;
    this.shortCircuitAmps = known.shortCircuitAmps;
    this.neededAmps = known.neededAmps;
    this.protection = known.protection;
    this.beforeFirstDevice = known.beforeFirstDevice;
    this.isReturn = known.isReturn;
  }

  get onPanelSide(): boolean {
    return this.shortCircuitAmps !== undefined;
  }
}

type KnownOfCore = Omit<CoreFigures, 'loads' | 'onPanelSide' | 'circuitAmps' | 'volts'>;

export class FiguresOfCore extends OfWay implements CoreFigures {
  readonly core: Core;
  readonly designFrom: CoreFigures['designFrom'];
  readonly capacity: CoreFigures['capacity'];
  readonly ohms: number | undefined;
  readonly crankingOnly: boolean;
  readonly #way: Way;
  readonly #from: CoresLookUp;

  constructor(known: KnownOfCore, way: Way, from: CoresLookUp) {
    super(known);
    this.core = known.core;
    this.designFrom = known.designFrom;
    this.capacity = known.capacity;
    this.ohms = known.ohms;
    this.crankingOnly = known.crankingOnly;
    this.#way = way;
    this.#from = from;
  }

  get loads(): readonly Part[] {
    return this.#from.served.partsBy(this.#way);
  }

  get circuitAmps(): number {
    return this.#from.protections.circuitAmps(this.#way);
  }

  get volts(): CircuitVolts {
    return this.#from.voltsOf(this.#way, this.onPanelSide);
  }
}

type KnownOfContact = Omit<ContactFigures, 'volts' | 'feeds' | 'feedsFixed' | 'feedsAmps' | 'onPanelSide'>;

export class FiguresOfContact extends OfWay implements ContactFigures {
  readonly part: Part;
  readonly pole: number;
  readonly circuitAmps: number;
  readonly ratedAmps: number | undefined;
  readonly parallelPoles: readonly number[];
  readonly oneSidedWith: readonly number[];
  readonly device: ContactFigures['device'];
  readonly #way: Way;
  readonly #from: LookedUpIn;

  constructor(known: KnownOfContact, way: Way, from: LookedUpIn) {
    super(known);
    this.part = known.part;
    this.pole = known.pole;
    this.circuitAmps = known.circuitAmps;
    this.ratedAmps = known.ratedAmps;
    this.parallelPoles = known.parallelPoles;
    this.oneSidedWith = known.oneSidedWith;
    this.device = known.device;
    this.#way = way;
    this.#from = from;
  }

  get volts(): CircuitVolts {
    return this.#from.voltsOf(this.#way, this.onPanelSide);
  }

  get feeds(): readonly Part[] {
    return this.#from.served.partsBy(this.#way);
  }

  get feedsFixed(): boolean {
    const fed = this.#from.served.by(this.#way);
    return (
      fed.length > 0 && fed.every(({ is, part: { kind } }) => is === 'coil' || (is === 'load' && kind.word === 'load'))
    );
  }

  get feedsAmps(): number {
    return sumOf(this.#from.installation, this.#from.served.by(this.#way));
  }
}

/** Sum of design currents, in ampere. */
export function sumOf({ nominalOf, usualFeeder }: Installation, draws: readonly Draw[]): number {
  return draws.reduce((sum, draw) => sum + designAmpsOf(draw, nominalOf(usualFeeder(draw))), 0);
}
