/** Runs: their cores in every form they may be written, and what else they say. */
import { describe, expect, it } from 'vitest';
import type { Run } from '../../server/model/model.ts';
import { modelOf } from './built.ts';

const world =
  'splice AA and BB\nload LAMP 5 W\nplace LOFT 50 °C\nplace CAB 45 °C\nenclosure BOX plastic\nentry E1 in BOX, gland M25\nstock drum cable 6 mm², class 5, tinned, 105 °C, 60 V, od 4.8 mm, blue\n';

function run(text: string): Run {
  const model = modelOf(world + text);
  const found = model.runs.get('W1');
  if (found === undefined) throw new Error('no run W1');
  const own = model.problems.filter(({ slug }) => slug !== 'terminal-unconnected');
  expect(own.map(({ message }) => message)).toEqual([]);
  return found;
}

/** `red: AA to LAMP:+`. */
function cores(text: string): string[] {
  return run(text).cores.map(
    ({ label, spare, from, to }) => `${label}: ${spare ? 'spare' : `${from?.id} to ${to?.id}`}`,
  );
}

describe('cores', () => {
  it.each([
    ['one on one line', 'run W1 6 mm² red, 1 m, AA to BB\n', ['red: AA to BB']],
    ['one with the colour apart', 'run W1 6 mm², red, 1 m, AA to BB\n', ['red: AA to BB']],
    ['one with its ends below', 'run W1 6 mm² red, 1 m\n  AA to BB\n', ['red: AA to BB']],
    ['one with all below', 'run W1 6 mm², 1 m\n  red AA to BB\n', ['red: AA to BB']],
    ['one with no colour', 'run W1 6 mm², 1 m, AA to BB\n', ['core 1: AA to BB']],
    ['one in the colour of its stock', 'run W1 = drum, 1 m, AA to BB\n', ['blue: AA to BB']],
    ['one in another colour than its stock', 'run W1 = drum red, 1 m, AA to BB\n', ['red: AA to BB']],
    [
      'a line each',
      'run W1 2 x 6 mm², 1 m\n  red AA to LAMP:+\n  black BB to LAMP:-\n',
      ['red: AA to LAMP:+', 'black: BB to LAMP:-'],
    ],
    [
      'two-tone',
      'run W1 2 x 6 mm², 1 m\n  green/yellow AA to LAMP:+\n  blue BB to LAMP:-\n',
      ['green/yellow: AA to LAMP:+', 'blue: BB to LAMP:-'],
    ],
    [
      'numbered',
      'run W1 2 x 6 mm², 1 m\n  core 2 AA to LAMP:+\n  core 1 BB to LAMP:-\n',
      ['core 2: AA to LAMP:+', 'core 1: BB to LAMP:-'],
    ],
    [
      'numbered and coloured',
      'run W1 2 x 6 mm², 1 m\n  core 1 black AA to LAMP:+\n  core 2 black BB to LAMP:-\n',
      ['core 1: AA to LAMP:+', 'core 2: BB to LAMP:-'],
    ],
    [
      'partly numbered',
      'run W1 3 x 6 mm², 1 m\n  core 2 AA to LAMP:+\n  BB to LAMP:-\n  spare\n',
      ['core 2: AA to LAMP:+', 'core 1: BB to LAMP:-', 'core 3: spare'],
    ],
    [
      'of like colours',
      'run W1 2 x 6 mm², 1 m\n  red AA to LAMP:+\n  red BB to LAMP:-\n',
      ['core 1: AA to LAMP:+', 'core 2: BB to LAMP:-'],
    ],
    [
      'spare',
      'run W1 3 x 6 mm², 1 m\n  red AA to LAMP:+\n  black BB to LAMP:-\n  white spare\n',
      ['red: AA to LAMP:+', 'black: BB to LAMP:-', 'white: spare'],
    ],
    [
      'on one line with commas',
      'run W1 2 x 6 mm², 1 m, red AA to LAMP:+, black BB to LAMP:-\n',
      ['red: AA to LAMP:+', 'black: BB to LAMP:-'],
    ],
    [
      'with the ends on the next line',
      'run W1 2 x 6 mm², 1 m\n  red AA to\n    LAMP:+\n  black BB to LAMP:-\n',
      ['red: AA to LAMP:+', 'black: BB to LAMP:-'],
    ],
  ])('%s', (_, text, expected) => {
    expect(cores(text)).toEqual(expected);
  });

  it('take a colour behind the ends for another core, since it stands before them', () => {
    const found = modelOf(`${world}run W1 AA to BB, 1 m, 6 mm² red\n`).problems.map(({ slug, place }) => [
      slug,
      place.uri,
    ]);
    expect(found).toContainEqual(['cores-miscounted', 'memory:///spec.amps']);
  });

  it('know where they are written', () => {
    const text = `${world}run W1 2 x 6 mm², 1 m\n  red AA to LAMP:+\n  black spare\n`;
    const [red, black] = modelOf(text).runs.get('W1')?.cores ?? [];
    const words = (place: { span: { start: number; end: number } } | undefined) =>
      place === undefined ? undefined : text.slice(place.span.start, place.span.end);
    expect([red?.place, red?.colourPlace, red?.fromPlace, red?.toPlace].map(words)).toEqual([
      'red AA to LAMP:+',
      'red',
      'AA',
      'LAMP:+',
    ]);
    expect([black?.place, black?.fromPlace].map(words)).toEqual(['black spare', undefined]);
  });
});

describe('a run', () => {
  it('takes the cable from stock and says the rest', () => {
    expect(run('run W1 = drum, 4 m, AA to BB, bunched with 5, in conduit\n')).toMatchObject({
      size: { system: 'mm2', areaMm2: 6, written: '6 mm²' },
      lengthMetres: 4,
      conductorClass: 5,
      tinned: true,
      material: 'copper',
      insulationCelsius: 105,
      insulationVolts: 60,
      outerDiameterMm: 4.8,
      bunchedWith: 5,
      inConduit: true,
      sizeBlank: false,
    });
  });

  it.each([
    ['2/0 AWG', { size: { system: 'awg', gauge: -1, written: '2/0 AWG' }, sizeBlank: false }],
    ['10 AWG', { size: { system: 'awg', gauge: 10, written: '10 AWG' }, sizeBlank: false }],
    ['2.5 mm²', { size: { system: 'mm2', areaMm2: 2.5, written: '2.5 mm²' }, sizeBlank: false }],
    ['? mm²', { size: undefined, sizeBlank: true }],
    ['? AWG', { size: undefined, sizeBlank: true }],
  ])('of %s', (size, expected) => {
    expect(run(`run W1 ${size}, 3 m, AA to BB\n`)).toMatchObject({ ...expected, lengthMetres: 3 });
  });

  it('lies along places', () => {
    const { along } = run('run W1 6 mm², 4 m, along LOFT 2.4 m and CAB, AA to BB\n');
    expect(along.map(({ location, lengthMetres }) => [location?.name, lengthMetres])).toEqual([
      ['LOFT', 2.4],
      ['CAB', undefined],
    ]);
  });

  it.each([
    ['enters BOX by gland M20', 'gland', 'M20', undefined, 'by gland M20'],
    ['enters BOX by gland', 'gland', undefined, undefined, 'by gland'],
    ['enters BOX by grommet 12 mm', 'grommet', '12 mm', undefined, 'by grommet 12 mm'],
    ['enters BOX by conduit 20 mm', 'conduit', '20 mm', undefined, 'by conduit 20 mm'],
    ['enters BOX by E1', 'entry', undefined, 'E1', 'by E1'],
    ['enters BOX open', 'open', undefined, undefined, 'open'],
    ['enters BOX', 'unstated', undefined, undefined, 'enters BOX'],
  ])('passes a wall: %s', (clause, how, size, entry, words) => {
    const text = `${world}run W1 6 mm², 4 m, AA to BB\n  ${clause}\n`;
    const [passage] = modelOf(text).runs.get('W1')?.passages ?? [];
    expect(passage).toMatchObject({ how, size });
    expect([passage?.enclosure?.name, passage?.entry?.name]).toEqual(['BOX', entry]);
    expect(text.slice(passage?.howPlace.span.start, passage?.howPlace.span.end)).toBe(words);
  });

  it('may have an enclosure called like a way in', () => {
    const { passages } =
      modelOf('enclosure open plastic\nsplice AA and BB\nrun W1 6 mm², 1 m, AA to BB, enters open\n').runs.get('W1') ??
      {};
    expect(passages?.[0]).toMatchObject({ how: 'unstated', enclosure: { name: 'open' } });
  });
});
