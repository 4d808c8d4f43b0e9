/** A breaker that breaks current one way only, and is fed from its other side. */
import type { Answers, ContactFigures } from '../answers/answers.ts';
import type { Part } from '../model/model.ts';
import type { Edge } from '../model/network.ts';
import { lampSpec } from './language.ts';
import type { Fix, Reported, Rule } from './rule.ts';
import { sunSpec } from './sun-examples.ts';
import { names } from './words.ts';

const swapped = {
  feed: 'run W1 1.5 mm² red, 0.1 m, B1:+ to F1:out',
  out: 'run W2 1.5 mm² red, 1.2 m, F1:in to LAMP:+',
} as const;

export const rule: Rule = {
  slug: 'breaker-reversed',
  severity: 'error',
  group: 'protection',
  reads: ['breaker.polarity', 'run.ends'],
  page: {
    title: 'A polarised breaker the wrong way round',
    why: 'A polarised breaker has a magnet that blows the arc into its chamber. With the current the other way the magnet pulls the arc back onto the contacts, and the breaker burns as soon as it opens.',
    limit:
      'A breaker that its maker marks for one direction breaks current from its marked side only (IEC 60947-2, makers’ instructions, from memory); here that is `in`, or of several poles the odd number. Where current can come from both sides, as between a charger and its battery, a polarised one breaks only one of them, which is a warning.',
    mend: 'Swap its two conductors; between two sources take an unpolarised one.',
    see: ['breaker-not-dc', 'both-ends-need-protection'],
    wrong: [
      lampSpec({
        ...swapped,
        fuse: 'breaker F1 5 A, 60 V dc, breaks 5 kA, polarised # finds: breaker-reversed "polarised"',
      }),
      {
        spec: sunSpec().spec.replace(
          'fuse F1 20 A, blade, 32 V, breaks 2 kA',
          'breaker F1 20 A, 60 V dc, breaks 5 kA, polarised # finds: breaker-reversed "polarised"',
        ),
      },
    ],
    right: [
      lampSpec({ fuse: 'breaker F1 5 A, 60 V dc, breaks 5 kA, polarised' }),
      lampSpec({ ...swapped, fuse: 'breaker F1 5 A, 60 V dc, breaks 5 kA, unpolarised' }),
    ],
  },
  forKind: ({ word }) => word === 'breaker',
  ofPart: (part) =>
    part.facts.word('polarity') === 'polarised' ? ({ answers }) => wrongWayRound(part, answers) : undefined,
};

function wrongWayRound(part: Part, answers: Answers): Reported[] {
  const judged = (answers.contacts.get(part.name) ?? [])
    // Which side of a return pole is marked is for its maker to say.
    .filter(({ isReturn }) => !isReturn)
    .map((contact) => {
      const { forward, backward } = answers.directions.ofContact(part, contact.pole);
      return { contact, forward, backward };
    })
    .filter(({ backward }) => backward.sources.length > 0);
  const wrong = judged.find(({ forward }) => forward.sources.length === 0) ?? judged[0];
  if (wrong === undefined) return [];
  const { contact, forward, backward } = wrong;
  const contactSpec = part.contacts.find(({ pole }) => pole === contact.pole);
  const [marked, other] = [contactSpec?.from ?? 'in', contactSpec?.to ?? 'out'];
  const base = { place: part.facts.place('polarity'), subject: part.name, figures: { pole: contact.pole } };
  const from = told(backward.sources);
  if (forward.sources.length === 0)
    return [
      {
        ...base,
        message: `${part.name} is polarised and marked at ${marked}, but ${from} ${from.includes(' and ') ? 'feed' : 'feeds'} it at ${other}, so its arc may not go out when it opens: swap the conductors on ${marked} and ${other}.`,
        fixes: swap(contact, marked, other, answers.network.at),
      },
    ];
  return [
    {
      ...base,
      severity: 'warning',
      message: `${part.name} is polarised, but current can come to it from both sides, from ${told(forward.sources)} at ${marked} and from ${from} at ${other}, and it breaks only the first: take an unpolarised one.`,
    },
  ];
}

/** Batteries before all: what charges them gives little beside. */
function told(sources: readonly Part[]): string {
  const batteries = sources.filter(({ kind }) => kind.behaviour.is === 'battery');
  return names((batteries.length > 0 ? batteries : sources).slice(0, 3));
}

function swap(
  { part }: ContactFigures,
  marked: string,
  other: string,
  at: ReadonlyMap<string, readonly Edge[]>,
): Fix[] {
  const edits = [
    { is: marked, becomes: other },
    { is: other, becomes: marked },
  ].flatMap(({ is, becomes }) =>
    (at.get(`${part.name}:${is}`) ?? []).flatMap((edge) => {
      if (edge.is !== 'core') return [];
      const { core } = edge;
      const place = core.from?.id === `${part.name}:${is}` ? core.fromPlace : core.toPlace;
      return place === undefined ? [] : [{ place, newText: `${part.name}:${becomes}` }];
    }),
  );
  return edits.length < 2
    ? []
    : [{ title: `Swap ${part.name}:${marked} and ${part.name}:${other}`, safe: false, edits }];
}
