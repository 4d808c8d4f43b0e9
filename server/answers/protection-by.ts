/** A protection by the devices of a cut. It is a class, since V8 keeps an object with getters of its own as a table. */

import { trimmed } from '../../grammar/trimmed.ts';
import type { Part } from '../model/model.ts';
import type { Protection } from './answers.ts';
import type { Way } from './wiring.ts';
import type { Makings } from './zones.ts';

type Devices = Protection['devices'];

/** Its devices are looked up once, because many rules ask. */
export class ProtectionBy implements Protection {
  readonly amps: number;
  readonly #cut: { makings(): Makings };
  readonly #deviceOf: (way: Way) => Devices;
  #made: Makings | undefined;
  #devices: Devices | undefined;

  /** `deviceOf` tells of a device of the cut, or none where it counts for nothing. */
  constructor(
    cut: { readonly amps: number; makings(): Makings },
    readonly unprotectedFrom: readonly Part[],
    readonly blank: boolean,
    deviceOf: (way: Way) => Devices,
  ) {
    this.amps = cut.amps;
    this.#cut = cut;
    this.#deviceOf = deviceOf;
  }

  get devices(): Devices {
    const devices = this.#devices ?? trimmed(this.makings().devices.flatMap((way) => this.#deviceOf(way)));
    this.#devices = devices;
    return devices;
  }

  get limitedSources(): Protection['limitedSources'] {
    return this.makings().limited.map(({ part, limitAmps }) => ({ part, amps: limitAmps ?? 0 }));
  }

  private makings(): Makings {
    this.#made ??= this.#cut.makings();
    return this.#made;
  }
}
