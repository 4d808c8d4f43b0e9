/** A face that names a terminal the part has not, or one of its terminals twice or not at all. */
import { type FaceNumber, type SaidFace, saidFace } from '../model/face.ts';
import type { Part } from '../model/model.ts';
import { lampSpec, throughS1 } from './language.ts';
import type { Fix, Reported, Rule } from './rule.ts';
import { names } from './words.ts';

const { out, on } = throughS1;

const withFace = (face: string, finds = '') =>
  lampSpec({ out }, `switch S1 2 poles, 10 A dc, 24 V, face ${face}${finds === '' ? '' : ` # finds: ${finds}`}`, on);

export const rule: Rule = {
  slug: 'face-and-terminals',
  severity: 'warning',
  group: 'switching',
  reads: ['isolator.face', 'switch.face', 'breaker.face'],
  page: {
    title: 'A face whose numbers are not the part’s terminals',
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
  forKind: ({ clauses }) => clauses.some(({ id }) => id === 'face'),
  ofPart(part) {
    const face = saidFace(part);
    return face === undefined ? undefined : misfit(part, face);
  },
};

const listed = (numbers: readonly string[]): string => names(numbers.map((name) => ({ name })));

function misfit(part: Part, { numbers, missing }: SaidFace): Reported | undefined {
  const wrong = numbers.filter((number) => number.wrong !== undefined);
  const [first] = wrong;
  const base = { subject: part.name, figures: { wrong: wrong.length, missing: missing.length } };
  const [stands, it] = missing.length === 1 ? ['stands', 'it'] : ['stand', 'them'];
  if (first === undefined)
    return missing.length === 0
      ? undefined
      : {
          ...base,
          severity: 'advice',
          message: `The face of ${part.name} does not say where ${listed(missing)} ${stands}, so the card cannot show the core on ${it}: add ${it} as marked on the part.`,
          place: part.facts.place('face'),
        };
  const of = (what: FaceNumber['wrong']) => listed(wrong.filter((one) => one.wrong === what).map(({ name }) => name));
  const [unknown, twice] = [of('unknown'), of('twice')];
  const faults = [
    ...(unknown === '' ? [] : [`names ${unknown}, which is not on the part`]),
    ...(twice === '' ? [] : [`names ${twice} twice`]),
    ...(missing.length === 0 ? [] : [`leaves out ${listed(missing)}`]),
  ];
  return {
    ...base,
    message: `The face of ${part.name} ${faults.join(', and ')}, so its card would lead a core to the wrong screw: write each of ${listed(part.terminals.map(({ spec }) => spec.name))} once, as marked on the part.`,
    place: first.place,
    fixes: wrong.length === 1 && missing.length === 1 ? fixes(part, first, missing[0] ?? '') : [],
  };
}

function fixes({ facts }: Part, { place }: FaceNumber, name: string): Fix[] {
  return facts.fact('face')?.fromStock === undefined
    ? [{ title: `Write ${name} there`, safe: false, edits: [{ place, newText: name }] }]
    : [];
}
