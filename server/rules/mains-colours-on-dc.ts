/** A d.c. cable in the colours of the mains, in a van that has mains too. */
import type { Core, Run } from '../model/model.ts';
import { lampSpec } from './language.ts';
import { polesOf } from './poles.ts';
import type { Reported, Rule, RuleContext } from './rule.ts';

const flat = (...colours: readonly [string, string]) =>
  [`run W2 2 x 1.5 mm², 1.2 m`, `    ${colours[0]} F1:out to LAMP:+`, `    ${colours[1]} NEG to LAMP:-`].join('\n');
const mains = [
  'busbar NEG',
  'inverter INV 150 W, lowest 10.5 V',
  'chassis G1',
  'fuse F2 20 A, blade, 32 V, breaks 2 kA',
  'run W4 6 mm² red, 0.2 m, B1:+ to F2:in',
  'run W5 6 mm² red, 0.5 m, F2:out to INV:+',
  'run W6 6 mm² black, 0.5 m, INV:- to NEG',
  'run W7 6 mm² green/yellow, 0.5 m, INV:case to G1',
  'run W8 6 mm² black, 0.5 m, NEG to G1',
];
const back = 'run W3 6 mm² black, 0.3 m, NEG to B1:-';

export const rule: Rule = {
  slug: 'mains-colours-on-dc',
  severity: 'advice',
  group: 'cable',
  reads: ['run.colour', 'run.spare', 'run.ends', 'charger.from-mains', 'inverter.power'],
  page: {
    title: 'Mains colours on a low-voltage cable',
    why: 'Brown and blue together look like mains. In a van that has mains too, one is taken for the other: somebody cuts a live cable, or joins the two.',
    limit:
      'Brown and blue are the colours of line and neutral (IEC 60445, from memory); on d.c. they are no mistake, but want a mark where mains is aboard (common practice, no source).',
    mend: 'Use red and black, or mark the cable at both ends and keep it away from the mains.',
    see: ['colour-and-polarity', 'case-not-bonded'],
    wrong: [
      lampSpec(
        { out: flat('brown', 'blue').replace(', 1.2 m', ', 1.2 m # finds: mains-colours-on-dc "W2"'), back },
        ...mains,
      ),
    ],
    right: [
      lampSpec({ out: flat('red', 'black'), back }, ...mains),
      // No mains aboard.
      lampSpec({ out: flat('brown', 'blue'), back }, 'busbar NEG'),
    ],
  },
  ofRun(run) {
    const inColours = run.cores.filter(({ colour, spare }) => !spare && (colour === 'brown' || colour === 'blue'));
    return hasBoth(inColours) ? (context) => carryingDc(run, inColours, context) : undefined;
  },
};

function hasBoth(cores: readonly Core[]): boolean {
  return ['brown', 'blue'].every((colour) => cores.some((core) => core.colour === colour));
}

function carryingDc(run: Run, inColours: readonly Core[], context: RuleContext): Reported[] {
  const withMains = [...context.model.parts.values()].find(
    ({ kind, facts }) => kind.word === 'inverter' || (kind.word === 'charger' && facts.says('from-mains')),
  );
  if (withMains === undefined) return [];
  const poleOf = polesOf(context);
  if (!hasBoth(inColours.filter((core) => poleOf(core) !== undefined))) return [];
  return [
    {
      message: `${run.name} carries d.c. in brown and blue, the colours of the mains that ${withMains.name} brings aboard: mark it at both ends, or use red and black.`,
      place: run.namePlace,
      subject: run.name,
      related: [{ message: `${withMains.name} has mains`, place: withMains.namePlace }],
    },
  ];
}
