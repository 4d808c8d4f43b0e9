/** One cause has one finding: what lacks is told where it is put right, and not of all else that follows from it. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';
import { applied } from './applied.ts';

/** Findings of some rules, by rule and subject. */
function told(text: string, ...of: readonly string[]): readonly string[] {
  return analyseText(text)
    .findings.filter(({ slug }) => of.includes(slug))
    .map(({ slug, subject }) => `${slug} ${subject}`);
}

const messages = (text: string, of: string) =>
  analyseText(text)
    .findings.filter(({ slug }) => slug === of)
    .map(({ message }) => message);

/** What stands beside the findings of a rule. */
const beside = (text: string, of: string) =>
  analyseText(text)
    .findings.filter(({ slug }) => slug === of)
    .flatMap(({ related }) => related.map(({ message }) => message));

describe('a fuse that is missing at a charger', () => {
  const charger = `system "Yard" 12 V
battery B1 lead-acid, 12 V, 100 Ah, internal 15 mΩ
charger U1 12 V, 30 A, from mains, insulated case
busbar POS 100 A
busbar NEG 100 A
fuse F1 60 A, bolt-in, 58 V, breaks 2 kA
run W1 16 mm² red, 0.1 m, B1:+ to F1:in
run W2 16 mm² red, 1 m, F1:out to POS
run W3 16 mm² black, 1 m, NEG to B1:-
run W4 6 mm² red, 2 m, POS to U1:out+
run W5 4 mm² black, 2 m, U1:out- to NEG
case day U1 on
`;
  const sizes = ['cable-too-small', 'return-thinner-than-feed'];

  it('is told of its feed, and no more of its return', () => {
    expect(told(charger, ...sizes)).toEqual(['cable-too-small W4']);
    expect(beside(charger, 'cable-too-small')).toContain('W5 is the return of it, and too small with it');
  });

  it('leaves the return to be told once the feed is right without it', () => {
    const right = charger.replace('W4 6 mm²', 'W4 16 mm²');
    expect(told(right, ...sizes)).toEqual(['return-thinner-than-feed W5']);
    expect(messages(right, 'return-thinner-than-feed')[0]).toContain('the return of what W4 (16 mm²) feeds');
  });

  it('is all that was wrong once it is there', () => {
    const fused = charger.replace('POS to U1', 'F2:out to U1');
    const tail = 'fuse F2 30 A, blade, 32 V, breaks 2 kA\nrun W6 6 mm² red, 0.1 m, POS to F2:in\n';
    expect(told(fused + tail, ...sizes)).toEqual([]);
  });
});

describe('a return that is too thin', () => {
  const two = (pump: string) => `system "Yard" 12 V
battery B1 lead-acid, 12 V, 100 Ah, internal 15 mΩ
fuse F1 60 A, bolt-in, 58 V, breaks 2 kA
load HEATER 300 W
run W1 16 mm² red, 0.1 m, B1:+ to F1:in
run W2 16 mm² red, 1 m, F1:out to HEATER:+
run W3 4 mm² black, 1 m, HEATER:- to B1:-
fuse F2 30 A, blade, 32 V, breaks 2 kA
load PUMP 100 W
run W4 ${pump}, B1:+ to F2:in
run W5 6 mm² red, 2 m, F2:out to PUMP:+
run W6 6 mm² black, 2 m, PUMP:- to B1:-
case day HEATER on, PUMP on
`;

  it('is told also where the feed of another circuit at the same battery is too small', () => {
    const of = ['cable-too-small', 'return-thinner-than-feed'];
    expect(told(two('6 mm² red, 0.1 m'), ...of)).toEqual(['return-thinner-than-feed W3']);
    expect(told(two('1 mm² red, 4 m'), ...of)).toEqual(['return-thinner-than-feed W3', 'cable-too-small W4']);
    expect(beside(two('1 mm² red, 4 m'), 'cable-too-small').join()).not.toContain('W3 is the return');
  });
});

describe('a cable before several fuses', () => {
  const circuit = (n: number) => `fuse F${n} 20 A, blade, 32 V, breaks 2 kA
load LAMP${n} 60 W
run W${n}1 4 mm² red, 0.1 m, POS to F${n}:in
run W${n}2 4 mm² red, 1 m, F${n}:out to LAMP${n}:+
run W${n}3 4 mm² black, 1 m, LAMP${n}:- to NEG
`;
  const bank = (size: string, ...circuits: readonly number[]) => `system "Yard" 12 V
battery B0 lead-acid, 12 V, 100 Ah, internal 15 mΩ
battery B1 lead-acid, 12 V, 100 Ah, internal 15 mΩ
load STARTER 100 A cranking for 3 s
fuse F9 15 A, blade, 32 V, breaks 2 kA
load FAN 24 W
busbar POS 100 A
busbar NEG 100 A
run W6 25 mm² red, 0.5 m, B0:+ to STARTER:+
run W7 25 mm² black, 0.5 m, STARTER:- to B0:-
run W8 2.5 mm² red, 0.1 m, B0:+ to F9:in
run W9 1.5 mm² red, 1 m, F9:out to FAN:+
run W5 2.5 mm² black, 1 m, FAN:- to B0:-
run W1 ${size} red, 0.1 m, B1:+ to POS
run W2 16 mm² black, 1 m, NEG to B1:-
${circuits.map(circuit).join('')}`;

  it('is told that one for them all will do, how large, and at which battery', () => {
    const [message, ...more] = messages(bank('2.5 mm²', 1, 2), 'cable-too-small');
    expect(more).toEqual([]);
    expect(message).toContain(', or put one fuse for them all, of at most 27 A, close to B1.');
  });

  it('is told of a smaller fuse where there is but one', () => {
    const [message] = messages(bank('1 mm²', 1), 'cable-too-small');
    expect(message).toContain('or a smaller fuse');
  });
});

describe('a switch for alternating current', () => {
  const lit = (rating: string) => `system "Shed" 12 V
battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1 5 A, blade, 32 V
switch S1 1 pole, ${rating}
load LAMP 12 W
run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 1.5 mm² red, 1 m, F1:out to S1:1
run W4 1.5 mm² red, 1 m, S1:2 to LAMP:+
run W3 1.5 mm² black, 1.3 m, LAMP:- to B1:-
`;

  it('is told to be another switch before it is written as one, whether it has a rating in ampere or not', () => {
    for (const rating of ['10 A ac, 250 V', '250 V ac']) {
      const [message, ...more] = messages(lit(rating), 'switch-not-dc');
      expect(more).toEqual([]);
      expect(message).toMatch(
        /fit one that its maker rates for direct current .* only then write dc beside its rating\.$/,
      );
    }
  });
});

describe('a lowest voltage above the highest', () => {
  const lamp = (says: string) => `system "Shed" 12 V
battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1 5 A, blade, 32 V
load LAMP 12 W, ${says}
run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+
run W3 1.5 mm² black, 1.3 m, LAMP:- to B1:-
`;

  it('is told with the highest beside it', () => {
    const [message, ...more] = messages(lamp('lowest 13 V, highest 12.6 V'), 'impossible-value');
    expect(more).toEqual([]);
    expect(message).toContain('above the highest, 12.6 V');
  });

  it('is none where both are the same, and is not told of beside a highest that cannot be', () => {
    expect(messages(lamp('lowest 12 V, highest 12 V'), 'impossible-value')).toEqual([]);
    expect(messages(lamp('lowest 10 V, highest -1 V'), 'impossible-value').length).toBe(1);
    expect(messages(lamp('lowest 10 V, highest 0 V'), 'impossible-value').length).toBe(1);
  });
});

describe('a word that is not understood in a statement of several parts', () => {
  it('leaves none of them to be told as never used', () => {
    const spec = (end: string) => `system "Yard" 12 V
battery B1 lead-acid, 12 V, 100 Ah
load L1 and L2 3 W${end}
fuse F1 5 A
run W1 6 mm² red, 0.1 m, B1:+ to F1:in
`;
    expect(told(spec(' each'), 'part-never-used', 'unknown-clause')).toEqual(['unknown-clause L1']);
    expect(told(spec(''), 'part-never-used', 'terminal-unconnected')).toEqual(
      ['B1', 'L1', 'L2', 'F1'].map((name) => `terminal-unconnected ${name}`),
    );
  });
});

describe('a switch with one rating for two poles', () => {
  const switched = (rating: string, fuse = '20 A') => `system "Shed" 12 V
battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1 10 A, blade, 32 V
fuse F2 ${fuse}, blade, 32 V
load LAMP 96 W, lowest 10 V
socket USB 5 A
switch S1 2 poles, ${rating} dc, 24 V
run W1 4 mm² red, 0.1 m, B1:+ to F1:in
run W2 4 mm² red, 1 m, F1:out to S1:1
run W3 4 mm² red, 1 m, S1:2 to LAMP:+
run W4 4 mm² black, 1 m, LAMP:- to B1:-
run W5 4 mm² red, 0.1 m, B1:+ to F2:in
run W6 4 mm² red, 1 m, F2:out to S1:3
run W7 4 mm² red, 1 m, S1:4 to USB:+
run W8 4 mm² black, 1 m, USB:- to B1:-
`;
  const of = ['switch-below-load', 'switch-below-fuse'];

  it('is told once where each is too weak for a reason of its own, with the rating that settles both', () => {
    expect(told(switched('8 A'), ...of)).toEqual(['switch-below-load S1']);
    expect(messages(switched('8 A'), 'switch-below-load')[0]).toBe(
      'S1 is rated 8 A, but carries 9.6 A, and the circuit of its pole 2 is protected at 20 A (F2): use one rated 20 A or more for direct current.',
    );
    expect(told(switched('20 A'), ...of)).toEqual([]);
  });

  it('is told with the fuse of the same pole where that asks for most', () => {
    expect(messages(switched('8 A', '7.5 A'), 'switch-below-load')[0]).toContain('10 A (F1)');
    expect(told(switched('10 A', '7.5 A'), ...of)).toEqual([]);
  });

  it('is told of its fuse where it carries no more than its rating', () => {
    expect(told(switched('10 A'), ...of)).toEqual(['switch-below-fuse S1']);
  });
});

describe('a coil behind its own contact', () => {
  const contactor = (from: string, ...more: readonly string[]) => `system "Yard" 12 V
battery B1 lead-acid, 12 V, 100 Ah, internal 15 mΩ
fuse F1 40 A, bolt-in, 58 V, breaks 5 kA
fuse F2 5 A, blade, 32 V, breaks 2 kA
relay K1 coil 12 V 150 mA, contact 60 A
switch S1 1 pole, 10 A dc, 24 V
busbar LOADS 60 A
load FAN 120 W, lowest 10 V
run W1 10 mm² red, 0.1 m, B1:+ to F1:in
run W2 10 mm² red, 1 m, F1:out to K1:30
run W3 10 mm² red, 1 m, K1:87 to LOADS
run W9 10 mm² red, 1 m, LOADS to FAN:+
run W4 10 mm² black, 1 m, FAN:- to B1:-
run W5 1.5 mm² red, 0.1 m, ${from} to F2:in
run W6 1.5 mm² red, 1 m, F2:out to S1:1
run W7 1.5 mm² red, 1 m, S1:2 to K1:86
run W8 1.5 mm² black, 1 m, K1:85 to B1:-
case day FAN on
case dusk FAN on, charge 50 %
${more.join('\n')}
`;
  const all = (text: string) => analyseText(text).findings.map(({ slug, subject }) => `${slug} ${subject}`);

  it('is told at the core that leads to it from there, once for all cases, and its mend leaves nothing', () => {
    for (const from of ['K1:87', 'LOADS']) {
      const text = contactor(from);
      expect(all(text)).toEqual(['coil-behind-own-contact K1']);
      const [one] = analyseText(text).findings;
      expect(text.slice(one?.place.span.start, one?.place.span.end)).toBe(from);
      expect(one?.message).toContain('move this end of W5 to K1:30, before the contact.');
      const after = applied({ 'spec.amps': text }, one?.fixes[0]?.edits ?? [])['spec.amps'] ?? '';
      expect(all(after)).toEqual([]);
    }
  });

  it('is told where its loads draw no power, too', () => {
    const lamp = contactor('LOADS').replace('load FAN 120 W, lowest 10 V', 'load FAN 2 Ω');
    expect(all(lamp)).toEqual(['coil-behind-own-contact K1']);
  });

  it('takes no answer away: what it feeds is without voltage, and the others are worked out', () => {
    const other = [
      'relay K2 coil 12 V 150 mA, contact 60 A',
      'fuse F3 and F4 5 A, blade, 32 V, breaks 2 kA',
      'switch S2 1 pole, 10 A dc, 24 V',
      'load LAMP 12 W',
      'run W10 1.5 mm² red, 0.1 m, B1:+ to F3:in',
      'run W11 1.5 mm² red, 1 m, F3:out to K2:30',
      'run W12 1.5 mm² red, 1 m, K2:87 to LAMP:+',
      'run W13 1.5 mm² black, 1 m, LAMP:- to B1:-',
      'run W14 1.5 mm² red, 0.1 m, B1:+ to F4:in',
      'run W15 1.5 mm² red, 1 m, F4:out to S2:1',
      'run W16 1.5 mm² red, 1 m, S2:2 to K2:86',
      'run W17 1.5 mm² black, 1 m, K2:85 to B1:-',
      'case night all loads on',
    ];
    expect(all(contactor('LOADS', ...other))).toEqual(['coil-behind-own-contact K1']);
    const { answers } = analyseText(contactor('LOADS', ...other));
    const night = answers.cases.find(({ name }) => name === 'night');
    expect(night?.converged).toBe(true);
    expect(night?.parts.get('FAN')?.volts).toBe(0);
    expect(night?.parts.get('LAMP')?.volts).toBeGreaterThan(11);
    expect(all(contactor('K1:30', ...other))).toEqual([]);
  });

  it('tells what is expected behind it where it is accepted alone', () => {
    const expected = 'expect FAN voltage at least 11 V in day';
    expect(all(contactor('LOADS', expected))).toEqual(['coil-behind-own-contact K1']);
    const accepted = contactor('LOADS', expected, 'allow coil-behind-own-contact on K1 "pushed in by hand"');
    expect(all(accepted)).toEqual(['expect-not-met FAN']);
  });

  it('is none where a button starts it, which it then holds in, or where something feeds it from behind', () => {
    const button = contactor(
      'LOADS',
      'switch S2 1 pole, 10 A dc, 24 V',
      'fuse F3 5 A, blade, 32 V, breaks 2 kA',
      'run W10 1.5 mm² red, 0.1 m, K1:30 to F3:in',
      'run W11 1.5 mm² red, 1 m, F3:out to S2:1',
      'run W12 1.5 mm² red, 1 m, S2:2 to K1:86',
    );
    const second = contactor(
      'LOADS',
      'battery B2 lead-acid, 12 V, 100 Ah, internal 15 mΩ',
      'fuse F3 40 A, bolt-in, 58 V, breaks 5 kA',
      'run W10 10 mm² red, 0.1 m, B2:+ to F3:in',
      'run W11 10 mm² red, 1 m, F3:out to LOADS',
      'run W12 10 mm² black, 1 m, B2:- to B1:-',
    );
    for (const text of [button, second]) expect(all(text)).not.toContain('coil-behind-own-contact K1');
  });
});
