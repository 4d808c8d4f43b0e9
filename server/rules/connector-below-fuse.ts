/** A connector, splice, busbar, block, diode, shunt or socket-outlet rated below what protects its circuit, or below what it carries. */
import type { Answers } from '../answers/answers.ts';
import type { Part } from '../model/model.ts';
import { shuntAmps, socketAmps } from '../tables/sizes.ts';
import { exceeds } from './exceeds.ts';
import {
  conductors,
  type Flow,
  isReturn,
  isSameProtection,
  measure,
  ofDiode,
  ofJoint,
  ofShunt,
  ofSocket,
} from './flow-through.ts';
import { lampSpec } from './language.ts';
import { offerRating } from './other-rating.ts';
import { isRatedToCarry } from './rated-to-carry.ts';
import { smallerForLoad } from './rating-for-load.ts';
import type { Fix, Reported, Rule, RuleContext } from './rule.ts';
import { loneDevice, orSmaller } from './smaller-device.ts';
import { isToldAsTooSmall } from './told-as-too-small.ts';
import { amps, names, panelFactor, protectors } from './words.ts';

const through = (joint: string, name: string, load = 'socket LAMP 20 A, plugged in 12 A') =>
  lampSpec(
    {
      fuse: 'fuse F1 20 A, blade, 32 V',
      load,
      feed: 'run W1 4 mm² red, 0.1 m, B1:+ to F1:in',
      out: `run W2 4 mm² red, 1.2 m, F1:out to ${name}`,
      back: 'run W3 4 mm² black, 1.3 m, LAMP:- to B1:-',
    },
    joint,
    `run W4 4 mm² red, 1 m, ${name} to LAMP:+`,
  );

const socketFuse = 'fuse F1 20 A, blade, 32 V';
const socketRuns = {
  feed: 'run W1 4 mm² red, 0.1 m, B1:+ to F1:in',
  out: 'run W2 4 mm² red, 1.2 m, F1:out to LAMP:+',
  back: 'run W3 4 mm² black, 1.3 m, LAMP:- to B1:-',
} as const;

export const rule: Rule = {
  slug: 'connector-below-fuse',
  severity: 'error',
  group: 'protection',
  reads: [
    'connector.rating',
    'busbar.rating',
    'splice.rating',
    'block.rating',
    'diode.rating',
    'shunt.rating',
    'socket.rating',
    'socket.plugged',
    'fuse.rating',
    'breaker.rating',
    'panel.isc',
  ],
  page: {
    title: 'A connector, shunt or socket weaker than the fuse before it',
    why: 'The fuse lets its whole rating through for ever. A plug, clamp or bar made for less gets hot at its contacts, and hot contacts only get worse. A shunt made for less overheats and reads wrong; a socket-outlet melts, since anything may be plugged in.',
    limit:
      'Everything that carries the current of a circuit is good for the rating of the device that protects it: Ib ≤ In ≤ Iz (IEC 60364-4-43 clause 433.1, confirmed), of a connector its pin, of a bar no more than the fuses right behind it let through together. On the panel side it is the panels’ short-circuit current times the factor of the set of limits. The rating of a shunt and of a socket-outlet is held to the same (common practice, no source); a shunt to the largest of several devices that stand side by side at the battery. Where it serves only fixed loads whose sum is within its rating, or says what is plugged in and that is within it, it is a warning.',
    mend: 'Use one of at least the fuse’s rating, or a smaller fuse if the loads allow it. Of a socket-outlet say what is plugged in (`plugged in 36 W`): else it counts as a load of its whole rating.',
    see: ['switch-below-fuse', 'cable-too-small'],
    wrong: [
      through('connector X1 2 pins, 15 A, 60 V # finds: connector-below-fuse "15 A"', 'X1:1'),
      through('busbar X1 10 A # finds: connector-below-fuse "10 A"', 'X1'),
      through('splice X1 10 A # finds: connector-below-fuse "10 A"', 'X1', 'load LAMP 8 A'),
      lampSpec({ fuse: socketFuse, ...socketRuns, load: 'socket LAMP 5 A # finds: connector-below-fuse "5 A"' }),
      lampSpec({
        fuse: socketFuse,
        ...socketRuns,
        load: 'socket LAMP 10 A, plugged in 3 A # finds: connector-below-fuse "10 A"',
      }),
      lampSpec(
        {
          fuse: 'fuse F1 100 A, bolt-in, 58 V, breaks 5 kA',
          load: 'load LAMP 480 W',
          feed: 'run W1 35 mm² red, 0.1 m, B1:+ to F1:in',
          out: 'run W2 35 mm² red, 0.5 m, F1:out to LAMP:+',
          back: 'run W3 35 mm² black, 0.5 m, LAMP:- to SH1:load',
        },
        'shunt SH1 50 A, 50 mV # finds: connector-below-fuse "50 A"',
        'run W4 35 mm² black, 0.1 m, SH1:battery to B1:-',
      ),
    ],
    right: [
      through('connector X1 2 pins, 20 A, 60 V', 'X1:1'),
      through('busbar X1 50 A', 'X1'),
      lampSpec({ fuse: socketFuse, ...socketRuns, load: 'socket LAMP 20 A, plugged in 3 A' }),
      // Two small fuses let less through to the shunt than the one before them.
      lampSpec(
        {
          fuse: 'fuse F1 80 A, bolt-in, 58 V, breaks 5 kA',
          feed: 'run W1 25 mm² red, 0.1 m, B1:+ to F1:in',
          out: 'run W2 25 mm² red, 0.5 m, F1:out to POS',
          back: 'run W3 4 mm² black, 1 m, LAMP:- to NEG',
        },
        'busbar POS and NEG 100 A',
        'shunt SH1 50 A, 50 mV',
        'fuse F2 and F3 20 A, blade, 32 V, breaks 2 kA',
        'load FAN 60 W',
        'run W4 4 mm² red, 0.2 m, POS to F2:in',
        'run W5 4 mm² red, 1 m, F2:out to LAMP:+',
        'run W6 4 mm² red, 0.2 m, POS to F3:in',
        'run W7 4 mm² red, 1 m, F3:out to FAN:+',
        'run W8 4 mm² black, 1 m, FAN:- to NEG',
        'run W9 25 mm² black, 0.2 m, NEG to SH1:load',
        'run W10 25 mm² black, 0.1 m, SH1:battery to B1:-',
      ),
      lampSpec(
        {
          fuse: 'fuse F1 20 A, blade, 32 V',
          load: 'socket LAMP 10 A, plugged in 7 A',
          feed: 'run W1 4 mm² red, 0.1 m, B1:+ to F1:in',
          out: 'run W2 4 mm² red, 1.2 m, F1:out to X1',
          back: 'run W3 4 mm² black, 1.3 m, LAMP:- to B1:-',
        },
        'busbar X1 15 A',
        'fuse F2 7.5 A, blade, 32 V',
        'load FAN 3 A',
        'fuse F3 7.5 A, blade, 32 V',
        'run W4 4 mm² red, 0.1 m, X1 to F2:in',
        'run W5 4 mm² red, 1 m, F2:out to LAMP:+',
        'run W6 4 mm² red, 0.1 m, X1 to F3:in',
        'run W7 4 mm² red, 1 m, F3:out to FAN:+',
        'run W8 4 mm² black, 1 m, FAN:- to B1:-',
      ),
    ],
  },
  *check(context) {
    const { model, answers } = context;
    const told: { readonly flow: Flow; readonly part: Part }[] = [];
    for (const part of model.parts.values()) {
      const rating = isRatedToCarry(part) ? part.facts.number('rating') : undefined;
      if (rating === undefined) continue;
      const worst = flowOf(part, rating, answers);
      const reported = worst === undefined ? undefined : judge(part, rating, worst, answers);
      if (worst === undefined || reported === undefined || isOfThinCable(part, worst, context)) continue;
      // The bar of the returns has the fuses of that of the feeds.
      const isBar = part.kind.family === 'joint';
      const twin =
        isBar && isReturn(part, answers) ? told.find(({ flow }) => isSameProtection(flow, worst)) : undefined;
      if (twin !== undefined) continue;
      if (isBar) told.push({ flow: worst, part });
      yield reported;
    }
  },
};

function flowOf(part: Part, rating: number, answers: Answers): Flow | undefined {
  switch (part.kind.word) {
    case 'diode':
      return ofDiode(part, answers);
    case 'shunt':
      return ofShunt(part, answers);
    case 'socket':
      return ofSocket(part, answers);
    default:
      return ofJoint(part, rating, answers);
  }
}

/** Whether a cable on it is too small for the same devices: what that lacks is told with the cable. */
function isOfThinCable(part: Part, { protection }: Flow, context: RuleContext): boolean {
  return part.terminals
    .flatMap((terminal) => conductors(terminal, context.answers))
    .some((core) => core.protection.amps === protection.amps && isToldAsTooSmall(core.core.run, context));
}

function judge(part: Part, rating: number, flow: Flow, answers: Answers): Reported | undefined {
  const { designAmps, neededAmps, shortCircuitAmps, protection, loads, fixedAmps } = flow;
  const needed = measure(flow);
  if (!exceeds(needed, rating)) return undefined;
  const isSocket = part.kind.word === 'socket';
  const carries = exceeds(designAmps, rating);
  const what =
    neededAmps !== undefined
      ? `its panels can give ${amps(shortCircuitAmps ?? 0)}, which asks for ${amps(neededAmps)} (× ${panelFactor(answers)})`
      : carries
        ? `${isSocket ? 'what is plugged in takes' : 'carries'} ${amps(designAmps)}`
        : `its circuit is protected at ${amps(protection.amps)} (${protectors(protection)})`;
  const fixed = neededAmps === undefined && !carries && fixedAmps !== undefined && !exceeds(fixedAmps, rating);
  const calm = !fixed
    ? ''
    : isSocket
      ? ` It will do for the ${amps(fixedAmps)} that are plugged in, until something takes more.`
      : ` It serves only ${loads.length <= 3 ? names(loads) : `${loads.length} fixed loads`}, ${amps(fixedAmps)} in all, so it will do until there is a fault.`;
  const isOfDevice = neededAmps === undefined && !carries;
  const smaller = isOfDevice ? orSmaller(protection, rating, answers) : '';
  // Nobody knows what it has to feed: it counts with its whole rating.
  const guess = isOfDevice && isSocket && smaller === '' && !part.facts.says('plugged');
  const orSay = guess ? ', or say what is plugged in and fit a fuse that suits it' : '';
  return {
    severity: fixed ? 'warning' : 'error',
    message: `${part.name} is rated ${amps(rating)}${part.kind.word === 'connector' ? ' a pin' : ''}, but ${what}: use one rated ${amps(needed)} or more${smaller}${orSay}.${calm}`,
    place: part.facts.place('rating'),
    subject: part.name,
    figures: {
      ratedAmps: rating,
      neededAmps: needed,
      designAmps,
      ...(Number.isFinite(protection.amps) ? { deviceAmps: protection.amps } : {}),
    },
    related: protection.devices.map((device) => ({
      message: `${device.part.name} protects it at ${amps(device.amps)}`,
      place: device.part.facts.place('rating'),
    })),
    fixes: [...(isOfDevice ? smallerFuse(flow, rating, answers) : []), ...largerRating(part, needed)],
  };
}

function smallerFuse({ protection }: Flow, rating: number, answers: Answers): Fix[] {
  const device = loneDevice(protection, answers);
  return device === undefined ? [] : offerRating(device, smallerForLoad(device, rating, answers));
}

/** Of kinds that come in a few usual ratings. */
function largerRating({ kind: { word }, facts }: Part, needed: number): Fix[] {
  const usual: readonly number[] = word === 'shunt' ? shuntAmps : word === 'socket' ? socketAmps : [];
  const larger = usual.find((one) => !exceeds(needed, one));
  return larger === undefined || facts.fact('rating')?.fromStock !== undefined
    ? []
    : [
        {
          title: `Use one rated ${larger} A`,
          safe: false,
          edits: [{ place: facts.place('rating'), newText: `${larger} A` }],
        },
      ];
}
