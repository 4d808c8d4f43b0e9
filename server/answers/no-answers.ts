/** Answers that say nothing: while they are not worked out yet, and where they could not be. */

import { lazily } from '../model/lazily.ts';
import type { Model } from '../model/model.ts';
import type { Network } from '../model/network.ts';
import { buildNetwork } from '../model/network-build.ts';
import type { Answers } from './answers.ts';
import { noDirections } from './directions.ts';
import { noFaults } from './fault-answers.ts';
import { limitsOf } from './limits-of.ts';
import { polaritiesIn } from './polarity.ts';

/** `network` is built when first asked for, where it is not at hand. */
export function noAnswers(model: Model, network?: Network): Answers {
  const joined = lazily(() => network ?? buildNetwork(model));
  const signs = lazily(() => polaritiesIn(joined(), [...model.parts.values()]));
  const { system } = model;
  return {
    get network() {
      return joined();
    },
    get polarities() {
      return signs();
    },
    limits: limitsOf(model),
    limitsStated: system.limits !== undefined,
    cases: [],
    cores: new Map(),
    runs: new Map(),
    contacts: new Map(),
    loads: new Map(),
    unfused: [],
    loneDevices: [],
    unfusedStretches: [],
    inCase: ({ name }) => ({
      name,
      converged: false,
      trouble: undefined,
      overloads: [],
      unfed: [],
      residual: 0,
      coreIn: () => undefined,
      partIn: () => undefined,
      volts: new Map(),
      voltsAt: () => undefined,
      cores: [],
      contacts: [],
      parts: new Map(),
    }),
    tailOf: () => undefined,
    waysTo: () => [],
    miswirings: {
      shorts: [],
      voltages: [],
      reversed: [],
      astray: [],
      stranded: [],
      isUpset: () => false,
      anyHalved: false,
      isHalved: () => false,
    },
    chosen: [],
    systemVolts: system.nominalVolts ?? 12,
    strings: { strings: [], inputs: [] },
    banks: [],
    faults: noFaults,
    directions: noDirections,
    unfusedBanks: [],
  };
}
