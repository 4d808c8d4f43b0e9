/** Something that may spark, in the locker where gas bottles stand. */
import { lampSpec, throughS1 } from './language.ts';
import type { Rule } from './rule.ts';
import { maySpark } from './sparks.ts';

const { out, on } = throughS1;

const locker = 'place LOCKER gas locker';

export const rule: Rule = {
  slug: 'switch-in-gas-locker',
  severity: 'error',
  group: 'switching',
  reads: ['place.gas-locker', 'part.at', 'part.in'],
  page: {
    title: 'A switch where gas bottles are kept',
    why: 'Every switch, relay, plug and fuse makes a spark some day. Where a bottle or its regulator leaks, that spark is enough to blow the van apart.',
    limit:
      'Nothing that may spark stands in a locker for gas bottles: switches, relays, breakers, fuses, plugs and sockets, chargers, converters and batteries (EN 1949 and EN 1648-1 on gas and low-voltage d.c. in caravans, from memory). A cable passes through it only without a joint and gas-tight.',
    mend: 'Move it out of the locker, to the other side of a gas-tight wall.',
    see: ['ignition-near-vented-battery'],
    wrong: [
      lampSpec(
        { out },
        locker,
        'switch S1 1 pole, 10 A dc, 24 V, at LOCKER # finds: switch-in-gas-locker "at LOCKER"',
        on,
      ),
      lampSpec(
        {
          fuse: 'fuse F1 5 A, blade, 32 V, in BOX # finds: switch-in-gas-locker "F1"',
          feed: 'run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in, enters BOX by gland M12',
          out: 'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+, enters BOX by gland M12',
        },
        locker,
        'enclosure BOX plastic, IP54, at LOCKER',
      ),
    ],
    right: [
      lampSpec({ out }, locker, 'switch S1 1 pole, 10 A dc, 24 V, at HALL', 'place HALL indoors', on),
      lampSpec({ load: 'load LAMP 12 W, at LOCKER' }, locker),
    ],
  },
  forKind: (kind) => maySpark({ kind }) || kind.family === 'protection' || kind.word === 'battery',
  ofPart({ name, namePlace, location, kind, facts }) {
    if (location?.facts.says('gas-locker') !== true) return undefined;
    return {
      message: `${name} stands in ${location.name}, where gas bottles are kept, and ${kind.withArticle} may make a spark that sets off leaking gas: move it outside the locker.`,
      place: facts.says('at') ? facts.place('at') : namePlace,
      subject: name,
      figures: { place: location.name },
      related: [{ message: `${location.name} is a gas locker`, place: location.facts.place('gas-locker') }],
    };
  },
};
