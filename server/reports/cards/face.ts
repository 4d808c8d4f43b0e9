/** Where the terminals of a part stand as one looks at it: by its `face`, else in an order that follows from its kind. */
import { type FaceNumber, saidFace } from '../../model/face.ts';
import type { Part, Terminal } from '../../model/model.ts';
import { listed } from '../figures.ts';
import type { CardSide, CardSpot } from './card.ts';

export interface Face {
  readonly spots: readonly CardSpot[];
  readonly stated: boolean;
  readonly notes: readonly string[];
}

/** As marked on the part; of a part with one node the part’s own name. */
export function nameOf({ spec, part }: Terminal): string {
  return spec.name === '' ? part.name : spec.name;
}

export function faceOf(part: Part): Face {
  const stated = statedFace(part);
  if (stated !== undefined) return stated;
  return {
    spots: usualSpots(part),
    stated: false,
    notes:
      // Two are told apart by their marks alone.
      part.terminals.length < 3
        ? []
        : [
            `Where its terminals stand is not stated, so this is no picture of it: go by the marks on the part.${
              sayable(part) ? ' Say its face to have them drawn as they stand.' : ''
            }`,
          ],
  };
}

/** A face is said in numbers. */
function sayable({ kind, terminals }: Part): boolean {
  return kind.clauses.some(({ id }) => id === 'face') && terminals.every(({ spec }) => /^\d+$/u.test(spec.name));
}

function row(terminals: readonly string[], side: CardSide, from = 0, step = 1): CardSpot[] {
  return terminals.map((terminal, index) => ({ terminal, side, place: from + index * step }));
}

/** A shorter row stands in the middle of the longer one, so that one of three over one of four is staggered by half a step. */
function rows(top: readonly string[], bottom: readonly string[]): CardSpot[] {
  const most = Math.max(top.length, bottom.length);
  return [...row(top, 'top', (most - top.length) / 2), ...row(bottom, 'bottom', (most - bottom.length) / 2)];
}

function statedFace(part: Part): Face | undefined {
  const said = saidFace(part);
  if (said === undefined) return undefined;
  const { numbers, missing } = said;
  const named = (wrong: FaceNumber['wrong'], row?: FaceNumber['row']) => [
    ...new Set(numbers.filter((one) => one.wrong === wrong && one.row === (row ?? one.row)).map(({ name }) => name)),
  ];
  const [unknown, twice] = [named('unknown'), named('twice')];
  const [stands, itIs, it] = missing.length === 1 ? ['stands', 'it is', 'it'] : ['stand', 'they are', 'them'];
  return {
    // What it leaves out is not drawn at all: any place would be taken for the true one.
    spots: rows(named(undefined, 'top'), named(undefined, 'bottom')),
    stated: true,
    notes: [
      ...(missing.length === 0
        ? []
        : [`Its face does not say where ${listed(missing)} ${stands}, so ${itIs} not drawn: add ${it} to the face.`]),
      ...(unknown.length === 0 ? [] : [`Its face names ${listed(unknown)}, which it does not have.`]),
      ...(twice.length === 0 ? [] : [`Its face names ${listed(twice)} twice; the first place is drawn.`]),
    ],
  };
}

function usualSpots(part: Part): CardSpot[] {
  const names = part.terminals.map(nameOf);
  switch (part.kind.word) {
    case 'selector':
      return [...row(['1', '2'], 'top', 0, 2), ...row(['common'], 'bottom', 1)];
    case 'relay':
      return [...row(['86', '30'], 'top', 0, 1.5), ...row(['85', '87a', '87'], 'bottom', 0, 1.5)];
    case 'diode':
      return rows(
        ['in'],
        names.filter((name) => name !== 'in'),
      );
    case 'fusebox':
      return boardSpots(names);
    default:
      break;
  }
  // A pole’s terminals stand across from each other, in the order of the poles.
  if (part.contacts.length > 0)
    return rows(
      part.contacts.map(({ from }) => from),
      part.contacts.map(({ to }) => to),
    );
  return row(names, 'bottom');
}

/** Feed above, ways down both sides, negative bar below. */
function boardSpots(names: readonly string[]): CardSpot[] {
  const ways = names.filter((name) => /^\d+$/u.test(name));
  const half = Math.ceil(ways.length / 2);
  return [
    ...row(['in'], 'top'),
    ...row(ways.slice(0, half), 'left'),
    ...row(ways.slice(half), 'right'),
    ...row(
      names.filter((name) => name === 'neg'),
      'bottom',
    ),
  ];
}
