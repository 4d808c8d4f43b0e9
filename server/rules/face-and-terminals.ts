/** A face that names a terminal the part has not, or one of its terminals twice or not at all. */
import { slotNumber } from '../model/facts.ts';
import type { Part, Place } from '../model/model.ts';
import { placeIn } from '../model/place.ts';
import { lampSpec } from './language.ts';
import type { Fix, Reported, Rule } from './rule.ts';
import { names as listed } from './words.ts';

const out = 'run W2 1.5 mm² red, 1.2 m, F1:out to S1:1';
const on = 'run W4 1.5 mm² red, 1 m, S1:2 to LAMP:+';
const withFace = (face: string, finds = '') =>
  lampSpec({ out }, `switch S1 2 poles, 10 A dc, 24 V, face ${face}${finds === '' ? '' : ` # finds: ${finds}`}`, on);

export const rule: Rule = {
  slug: 'face-and-terminals',
  severity: 'warning',
  group: 'switching',
  reads: ['isolator.face', 'switch.face', 'breaker.face'],
  page: {
    title: 'A face unlike its terminals',
    why: 'The card of a switch is drawn by its face, and a core is put where the card shows its terminal. A face with a wrong number sends a core to the wrong screw: a pole is bridged, or carries nothing.',
    limit:
      'Every terminal stands once in the face, by the number that is marked on the part (common practice, no source).',
    mend: 'Look at the part itself, and write the numbers of its upper row and, after `over`, of its lower row as they are marked. Where it pairs them otherwise than 1 with 2, 3 with 4, say that too, with `pairs`.',
    see: ['poles-crossed', 'unknown-terminal'],
    wrong: [
      withFace('1 3 over 2 5', 'face-and-terminals "5"'),
      withFace('1 3 over 2 3', 'face-and-terminals "3"'),
      withFace('1 3 over 2', 'face-and-terminals "face 1 3 over 2"'),
    ],
    right: [withFace('1 3 over 2 4'), withFace('2 4 over 3 1')],
  },
  *check({ model }) {
    for (const part of model.parts.values()) {
      const reported = part.facts.says('face') ? misfit(part) : undefined;
      if (reported !== undefined) yield reported;
    }
  },
};

function misfit(part: Part): Reported | undefined {
  const terminals = part.terminals.map(({ spec }) => ({ name: spec.name }));
  const left = new Set(terminals.map(({ name }) => name));
  const wrong: Said[] = [];
  for (const said of facesOf(part)) if (!left.delete(said.name)) wrong.push(said);
  const missing = [...left].map((name) => ({ name }));
  const [first] = wrong;
  if (first === undefined && missing.length === 0) return undefined;
  const base = { subject: part.name, figures: { wrong: wrong.length, missing: missing.length } };
  const absent = listed(missing);
  if (first === undefined)
    return {
      ...base,
      severity: 'advice',
      message: `The face of ${part.name} does not say where ${absent} ${missing.length === 1 ? 'stands' : 'stand'}, so the card cannot show the core on ${missing.length === 1 ? 'it' : 'them'}: add what is marked there.`,
      place: part.facts.place('face'),
    };
  const isKnown = ({ name }: Said) => terminals.some((terminal) => terminal.name === name);
  const twice = wrong.filter(isKnown);
  const unknown = wrong.filter((one) => !isKnown(one));
  const faults = [
    ...(unknown.length === 0 ? [] : [`names ${listed(unknown)}, which it has not,`]),
    ...(twice.length === 0 ? [] : [`names ${listed(twice)} twice`]),
    ...(missing.length === 0 ? [] : [`leaves out ${absent}`]),
  ];
  return {
    ...base,
    message: `The face of ${part.name} ${faults.join(' and ')}, and its card is drawn by it: write each of ${listed(terminals)} once, where it is marked on the part.`,
    place: first.place,
    fixes: wrong.length === 1 && missing.length === 1 ? fixes(part, first, missing[0]?.name ?? '') : [],
  };
}

interface Said {
  readonly name: string;
  readonly place: Place;
}

/** The numbers of its face in the order they are written. */
function facesOf({ facts }: Part): Said[] {
  const fact = facts.fact('face');
  return (fact?.clause.values ?? []).flatMap((value) => {
    const number = slotNumber(value);
    if (fact === undefined || number === undefined) return [];
    // What stock says is looked at where it is taken.
    const place = fact.fromStock === undefined ? placeIn(fact.origin, value.span) : facts.place('face');
    return [{ name: String(number), place }];
  });
}

function fixes({ facts }: Part, { place }: Said, name: string): Fix[] {
  return facts.fact('face')?.fromStock === undefined
    ? [{ title: `Write ${name} there`, safe: false, edits: [{ place, newText: name }] }]
    : [];
}
