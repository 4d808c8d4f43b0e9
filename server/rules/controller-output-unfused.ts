/** A controller’s output that only a fuse far larger than the controller parts from the battery. */
import { fuseAmps } from '../tables/sizes.ts';
import { exceeds } from './exceeds.ts';
import { example } from './language.ts';
import type { Rule } from './rule.ts';
import { amps, protectors } from './words.ts';

function sun(fuse: string, ...more: string[]) {
  return example(
    'system "Shed" 12 V',
    'panel P1 100 W, voc 21.5 V, isc 6.2 A, vmp 17.6 V, imp 5.7 A',
    'isolator Q1 2 poles, 16 A dc, 60 V, category DC-PV2',
    'controller U1 mppt, pv 75 V 15 A, output 15 A, common negative',
    'battery B1 agm, 12 V, 100 Ah, internal 15 mΩ',
    `fuse F1 ${fuse}, bolt-in, 58 V, breaks 5 kA`,
    'busbar POS and NEG',
    'run W1 4 mm² red, 2 m, P1:+ to Q1:1',
    'run W2 4 mm² black, 2 m, P1:- to Q1:3',
    'run W3 4 mm² red, 3 m, Q1:2 to U1:pv+',
    'run W4 4 mm² black, 3 m, Q1:4 to U1:pv-',
    'run W5 16 mm² red, 0.2 m, B1:+ to F1:in',
    'run W6 16 mm² red, 0.4 m, F1:out to POS',
    'run W7 16 mm² black, 0.4 m, B1:- to NEG',
    'run W8 16 mm² black, 0.4 m, U1:bat- to NEG',
    ...more,
  );
}

const straight = 'run W9 16 mm² red, 0.8 m, POS to U1:bat+';

/** A device of more than this many times the output protects the cable, not the controller (common practice, no source). */
const most = 2;

/** A fuse of its own bears the output for hours, also where it is warm (common practice, no source). */
const share = 1.25;

/** Bounds of the fuse that a source with such an output has for itself, in ampere. */
export function ownFuseOf(outputAmps: number): { readonly wished: number; readonly most: number } {
  return { wished: share * outputAmps, most: most * outputAmps };
}

export const rule: Rule = {
  slug: 'controller-output-unfused',
  severity: 'warning',
  group: 'protection',
  reads: ['system.limits', 'controller.output', 'fuse.rating', 'run.ends'],
  page: {
    title: 'A controller without a fuse of its own',
    why: 'A controller gives little, but the battery behind it gives hundreds of ampere into a fault inside it. A main fuse sized for the whole van lets that burn.',
    limit: `The devices between a controller’s output and the battery are rated no more than ${most} times that output (common practice, no source; the maker’s figure counts where it gives one). Where there is no device at all, that is found as \`supply-unfused\`.`,
    mend: 'Fit a fuse near the battery or its busbar for the controller alone, of the next rating from 1.25 times its output on.',
    see: ['supply-unfused', 'cable-too-small'],
    wrong: [sun('35 A', `${straight} # finds: controller-output-unfused "U1:bat+"`)],
    right: [
      sun('30 A', straight),
      sun(
        '60 A',
        'fuse F2 20 A, bolt-in, 58 V, breaks 5 kA',
        'run W9 16 mm² red, 0.2 m, POS to F2:in',
        'run W10 4 mm² red, 0.8 m, F2:out to U1:bat+',
      ),
    ],
  },
  *check({ model, answers: { cores, network, limits, systemVolts } }) {
    for (const controller of model.parts.values()) {
      const output = controller.kind.word === 'controller' ? controller.facts.number('output') : undefined;
      const plus = controller.terminals.find(({ spec }) => spec.name === 'bat+');
      if (output === undefined || !(output > 0) || plus === undefined) continue;
      for (const edge of network.at.get(plus.id) ?? []) {
        const figures = edge.is === 'core' ? cores.get(edge.core) : undefined;
        if (edge.is !== 'core' || figures === undefined) continue;
        const { protection, capacity, beforeFirstDevice } = figures;
        if (protection.blank || beforeFirstDevice || !Number.isFinite(protection.amps)) continue;
        // Where the cable is too small for its device, the fuse it needs is told there.
        if (capacity !== undefined && exceeds(protection.amps, limits.permittedDeviceAmps(capacity, systemVolts).amps))
          continue;
        if (protection.devices.length === 0 || !exceeds(protection.amps, most * output)) continue;
        const { core } = edge;
        const { wished } = ownFuseOf(output);
        const fuse = fuseAmps(undefined).find((rating) => rating >= wished * (1 - 1e-9)) ?? wished;
        yield {
          message: `The output of ${controller.name}, ${amps(output)}, has no fuse of its own and is protected at ${amps(protection.amps)} (${protectors(protection)}), which does not blow for a fault inside it: fit a fuse of its own near the battery, about ${amps(fuse)}.`,
          place: (core.from === plus ? core.fromPlace : core.toPlace) ?? core.place,
          subject: controller.name,
          figures: { outputAmps: output, deviceAmps: protection.amps, mostAmps: most * output },
          related: protection.devices.map(({ part, amps: rating }) => ({
            message: `${part.name} is ${amps(rating)}`,
            place: part.facts.place('rating'),
          })),
        };
        break;
      }
    }
  },
};
