/** Which conductors are told as driven with no device before them, by name and by what they lead to. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const base = ['system "Dray" 12 V', 'battery B1 lead-acid, 12 V, 100 Ah'];

function stretches(...lines: string[]): string[] {
  const { answers } = analyseText(`${[...base, ...lines].join('\n')}\n`);
  return answers.unfusedStretches.map(({ cores, batteries, feeds }) => {
    const list = (parts: readonly { readonly name: string }[]) => parts.map(({ name }) => name).join(' ');
    return `${list(cores.map(({ run }) => run))} | ${list(batteries)} | ${list(feeds)}`;
  });
}

const split = (between: string, first: string, second: string) =>
  stretches(
    'battery B2 lead-acid, 12 V, 80 Ah',
    between,
    `run W1 16 mm² red, 1 m, B2:+ to ${first}`,
    `run W2 16 mm² red, 1 m, ${second} to B1:+`,
    'run W3 16 mm² black, 1 m, B1:- to B2:-',
  );

describe('a stretch without a device', () => {
  it('is the cable of a controller, from the battery', () => {
    const controller = 'controller U1 pwm, pv 25 V 10 A, output 10 A';
    const back = 'run W2 4 mm² black, 2 m, U1:bat- to B1:-';
    expect(stretches(controller, 'run W1 4 mm² red, 2 m, U1:bat+ to B1:+', back)).toEqual(['W1 | B1 | U1']);
    expect(
      stretches(
        controller,
        'fuse F1 15 A, blade, 32 V',
        'run W1 4 mm² red, 2 m, U1:bat+ to F1:in',
        'run W3 4 mm² red, 0.2 m, F1:out to B1:+',
        back,
      ),
    ).toEqual([]);
  });

  it('is one although a switch lies in it, and another for every branch of a bar that has fuses', () => {
    expect(
      stretches(
        'busbar POS',
        'fuse F1 5 A, blade, 32 V',
        'switch S1 1 pole, 10 A dc',
        'load LAMP 12 W',
        'load FAN 12 W',
        'load BELL 12 W',
        'run W1 6 mm² red, 0.3 m, B1:+ to POS',
        'run W2 1 mm² red, 1 m, POS to F1:in',
        'run W3 1 mm² red, 1 m, F1:out to LAMP:+',
        'run W4 1 mm² red, 1 m, POS to S1:1',
        'run W5 1 mm² red, 1 m, S1:2 to FAN:+',
        'run W6 1 mm² red, 1 m, POS to BELL:+',
        'run W7 1 mm² black, 1 m, LAMP:- to B1:-',
        'run W8 1 mm² black, 1 m, FAN:- to B1:-',
        'run W9 1 mm² black, 1 m, BELL:- to B1:-',
      ),
    ).toEqual(['W4 W5 | B1 | FAN', 'W6 | B1 | BELL']);
  });

  it('joins two batteries by a relay or a long way, but not a bank of two', () => {
    expect(split('relay K1 contact 100 A', 'K1:30', 'K1:87')).toEqual(['W1 W2 | B1 B2 | ']);
    expect(split('isolator Q1 1 pole, 100 A dc', 'Q1:1', 'Q1:2')).toEqual([]);
    expect(
      stretches(
        'battery B2 lead-acid, 12 V, 80 Ah',
        'run W1 16 mm² red, 3.1 m, B2:+ to B1:+',
        'run W2 16 mm² black, 1 m, B1:- to B2:-',
      ),
    ).toEqual(['W1 | B1 B2 | ']);
  });

  it('is a long cable to an alternator, not a short one, and never a starter’s', () => {
    const alternator = (metres: number) =>
      stretches(
        'alternator A1 14.2 V, 70 A',
        'load STARTER 90 A, cranking',
        `run W1 25 mm² red, ${metres} m, A1:+ to B1:+`,
        'run W2 25 mm² black, 1 m, A1:- to B1:-',
        'run W3 25 mm² red, 1 m, B1:+ to STARTER:+',
        'run W4 25 mm² black, 1 m, STARTER:- to B1:-',
      );
    expect(alternator(3.1)).toEqual(['W1 | B1 | A1']);
    expect(alternator(2.9)).toEqual([]);
  });

  it('is what goes on from a load to a fuse', () => {
    expect(
      stretches(
        'fuse F1 5 A, blade, 32 V',
        'load FAN 12 W',
        'load LAMP 12 W',
        'run W1 1 mm² red, 1 m, B1:+ to FAN:+',
        'run W2 1 mm² red, 1 m, FAN:+ to F1:in',
        'run W3 1 mm² red, 1 m, F1:out to LAMP:+',
        'run W4 1 mm² black, 1 m, LAMP:- to B1:-',
        'run W5 1 mm² black, 1 m, FAN:- to B1:-',
      ),
    ).toEqual(['W1 | B1 | FAN']);
  });
});
