/** A battery isolator shut up in the box of the battery that it isolates. */
import type { Part } from '../model/model.ts';
import { lampSpec } from './language.ts';
import { reach } from './reach.ts';
import type { Reported, Rule, RuleContext } from './rule.ts';

const battery = 'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ, sealed, in CRATE';
const through = ', enters CRATE by grommet 8 mm';
const back = `run W3 1.5 mm² black, 1.3 m, LAMP:- to B1:-${through}`;
const box = 'enclosure CRATE plastic, IP20';

export const rule: Rule = {
  slug: 'isolator-out-of-reach',
  severity: 'advice',
  group: 'switching',
  reads: ['part.in', 'isolator.poles', 'run.ends'],
  page: {
    title: 'An isolator inside what it isolates',
    why: 'When the battery smokes nobody opens its box to get at the switch.',
    limit: 'A battery isolator can be reached without opening the battery’s box (common practice, no source).',
    mend: 'Fit it outside the box, where it can be reached at once, and mark it.',
    see: ['no-isolation', 'one-conductor-switched', 'ignition-near-vented-battery'],
    wrong: [
      lampSpec(
        {
          battery,
          back,
          fuse: 'fuse F1 5 A, blade, 32 V, in CRATE',
          out: 'run W2 1.5 mm² red, 0.2 m, F1:out to Q1:1',
        },
        box,
        'isolator Q1 1 pole, 50 A dc, 48 V, in CRATE # finds: isolator-out-of-reach "in CRATE"',
        `run W4 1.5 mm² red, 1 m, Q1:2 to LAMP:+${through}`,
      ),
    ],
    right: [
      lampSpec(
        {
          battery,
          back,
          fuse: 'fuse F1 5 A, blade, 32 V, in CRATE',
          out: `run W2 1.5 mm² red, 0.2 m, F1:out to Q1:1${through}`,
        },
        box,
        'isolator Q1 1 pole, 50 A dc, 48 V',
        'run W4 1.5 mm² red, 1 m, Q1:2 to LAMP:+',
      ),
    ],
  },
  forKind: ({ word }) => word === 'isolator',
  ofPart(isolator) {
    const box = isolator.enclosure;
    return box === undefined ? undefined : (context) => besideBattery(isolator, box, context);
  },
};

function besideBattery(isolator: Part, box: Part, { model, answers: { network } }: RuleContext): Reported[] {
  const battery = [...model.parts.values()].find(
    (part) =>
      part.kind.word === 'battery' &&
      part.enclosure === box &&
      // A vented one says more: it is told as what may set off its gas.
      part.facts.word('casing') !== 'vented' &&
      part.terminals.some((terminal) =>
        [...reach(terminal, network, (edge) => edge.is !== 'contact' || edge.contact.operated === 'fixed')].some(
          (one) => one.part === isolator,
        ),
      ),
  );
  if (battery === undefined) return [];
  return [
    {
      message: `${isolator.name} isolates ${battery.name} from inside its box, ${box.name}, where nobody reaches it in need: fit it outside.`,
      place: isolator.facts.place('in'),
      subject: isolator.name,
      figures: { box: box.name },
      related: [{ message: `${battery.name} stands in it too`, place: battery.facts.place('in') }],
    },
  ];
}
