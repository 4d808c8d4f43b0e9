/** What a case says is on while that very case cuts it off: told with what is in the way, once, and only there. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const found = (text: string) => analyseText(text).findings;
const told = (text: string) => found(text).map(({ slug, subject }) => `${slug} ${subject}`);
const messages = (text: string) =>
  found(text).flatMap(({ slug, message }) => (slug === 'dead-in-case' ? [message] : []));

const lamps = (...more: readonly string[]) => `system "Shed" 12 V
battery B1 agm, 12 V, 100 Ah, internal 15 mΩ
fuse F1 10 A, blade, 32 V, breaks 5 kA
switch S1 1 pole, 16 A dc, 24 V
load LAMP 24 W, lowest 10.5 V
load FAN 12 W, lowest 10.5 V
run W1 2.5 mm² red, 0.2 m, B1:+ to F1:in
run W2 2.5 mm² red, 0.4 m, F1:out to S1:1
run W3 2.5 mm² red, 1 m, S1:2 to LAMP:+
run W4 2.5 mm² red, 1 m, S1:2 to FAN:+
run W5 2.5 mm² black, 1 m, LAMP:- to B1:-
run W6 2.5 mm² black, 1 m, FAN:- to B1:-
${more.join('\n')}
`;

describe('a load behind a switch that its case has off', () => {
  it('is told with the switch, where the case names the load', () => {
    const text = lamps('case night S1 off, LAMP on');
    const [only, ...others] = found(text);
    expect(others).toEqual([]);
    expect(only?.message).toBe(
      'In case night LAMP is on, but nothing feeds it: S1 is off. Have S1 on there, or leave LAMP off.',
    );
    expect(only?.place.span.start).toBe(text.lastIndexOf('LAMP'));
  });

  it('is one finding for all loads and cases that one switch cuts off', () => {
    expect(messages(lamps('case night S1 off, LAMP and FAN on', 'case away FAN on, LAMP on, S1 off'))).toEqual([
      'In cases night and away LAMP and FAN are on, but nothing feeds them: S1 is off. Have S1 on there, or leave LAMP and FAN off.',
    ]);
  });

  it('is no finding where all loads are on, where it is not named, or where that is what is expected', () => {
    expect(told(lamps('case away S1 off, all loads on'))).toEqual([]);
    expect(told(lamps('case away S1 off'))).toEqual([]);
    expect(told(lamps('case away S1 off, LAMP on', 'expect LAMP voltage at most 0.1 V in away'))).toEqual([]);
  });

  it('is told by no expectation as well, unless it is accepted', () => {
    const text = lamps('case night S1 off, LAMP on', 'expect LAMP voltage at least 11 V in night');
    expect(told(text)).toEqual(['dead-in-case LAMP']);
    expect(told(`${text}allow dead-in-case on LAMP "to see what is left"\n`)).toEqual(['expect-not-met LAMP']);
  });

  it('is told of a fuse that is out and of a battery that is off', () => {
    expect(messages(lamps('case night F1 off, LAMP on'))[0]).toContain('nothing feeds it: F1 is off.');
    expect(messages(lamps('case night B1 off, LAMP on'))[0]).toContain('nothing feeds it: B1 is off.');
    expect(messages(lamps('case night F1 off, S1 off, LAMP on'))[0]).toContain(
      'S1 is off and F1 is off. Have S1 on and have F1 on there',
    );
  });

  it('is left to the wire that is missing', () => {
    const text = lamps('case night S1 off, LAMP on').replace('LAMP:- to', 'FAN:- to');
    expect(told(text)).not.toContain('dead-in-case LAMP');
  });
});

describe('a load behind a selector', () => {
  const hut = (positions: string, ...cases: readonly string[]) => `system "Hut" 12 V
battery B1 and B2 agm, 12 V, 100 Ah, internal 15 mΩ
fuse F1 and F2 60 A, bolt-in, 58 V, breaks 5 kA
fuse F3 10 A, blade, 32 V, breaks 5 kA
selector S9 200 A dc, 48 V, positions ${positions}
load LAMP 24 W, lowest 10.5 V
run W1 16 mm² red, 105 °C, 0.2 m, B1:+ to F1:in
run W2 16 mm² red, 105 °C, 0.2 m, B2:+ to F2:in
run W3 16 mm² red, 105 °C, 0.4 m, F1:out to S9:1
run W4 16 mm² red, 105 °C, 0.4 m, F2:out to S9:2
run W5 16 mm² red, 105 °C, 0.4 m, S9:common to F3:in
run W6 2.5 mm² red, 105 °C, 1 m, F3:out to LAMP:+
run W7 2.5 mm² black, 105 °C, 1 m, LAMP:- to B1:-
run W8 16 mm² black, 105 °C, 0.4 m, B1:- to B2:-
${cases.join('\n')}
`;

  it('is told with the positions that would feed it', () => {
    expect(told(hut('off 1 2 both', 'case one S9 at 1, LAMP on', 'case two S9 at 2, LAMP on'))).toEqual([]);
    expect(messages(hut('off 1 2 both', 'case none S9 at off, LAMP on'))).toEqual([
      'In case none LAMP is on, but nothing feeds it: S9 stands at off. Turn S9 to 1 or both there, or leave LAMP off.',
    ]);
    expect(messages(hut('off 1 2', 'case none S9 at off, LAMP on'))[0]).toContain('Turn S9 to 1 there');
  });
});

describe('a load behind a relay', () => {
  const relayed = (relay: string, ...more: readonly string[]) => `system "Hut" 12 V
battery B1 agm, 12 V, 100 Ah, internal 15 mΩ
fuse F1 10 A, blade, 32 V, breaks 5 kA
relay K1 ${relay}, contact 30 A
switch S2 1 pole, 16 A dc, 24 V
load LAMP 24 W, lowest 8 V
run W1 2.5 mm² red, 105 °C, 0.2 m, B1:+ to F1:in
run W2 2.5 mm² red, 105 °C, 0.4 m, F1:out to K1:30
run W3 2.5 mm² red, 105 °C, 0.4 m, K1:87 to LAMP:+
run W4 2.5 mm² black, 105 °C, 1 m, LAMP:- to B1:-
run W5 2.5 mm² red, 105 °C, 0.4 m, F1:out to S2:1
run W6 2.5 mm² red, 105 °C, 0.4 m, S2:2 to K1:86
run W7 2.5 mm² black, 105 °C, 0.4 m, K1:85 to B1:-
${more.join('\n')}
`;

  it('is told with what keeps the relay from pulling in', () => {
    expect(told(relayed('coil 12 V 150 mA', 'case day LAMP on'))).toEqual([]);
    expect(messages(relayed('coil 12 V 150 mA', 'case night S2 off, LAMP on'))).toEqual([
      'In case night LAMP is on, but nothing feeds it: K1 has not pulled in because S2 is off. Have S2 on there, or leave LAMP off.',
    ]);
    expect(messages(relayed('coil 12 V 150 mA', 'case night K1 off, LAMP on'))[0]).toContain(': K1 is off.');
  });

  it('is told of the contact that opens as the relay pulls in', () => {
    const text = relayed('coil 12 V 150 mA', 'case day LAMP on').replace('K1:87 to', 'K1:87a to');
    expect(messages(text)).toEqual([
      'In case day LAMP is on, but nothing feeds it: K1 has pulled in, which opens K1:87a. Leave LAMP off there, or feed it another way; what is to be fed while K1 is pulled in goes on 87.',
    ]);
  });

  it('is no finding where a cut-off opened by itself', () => {
    const cutOff = relayed('coil 12 V 150 mA, opens below 11 V, closes above 12.5 V', 'case low B1 at 10.5 V, LAMP on');
    expect(messages(cutOff)).toEqual([]);
    expect(messages(cutOff.replace('LAMP on', 'LAMP on, S2 off'))[0]).toContain('because S2 is off');
  });
});

describe('what a converter feeds', () => {
  const bus = `system "Bus" 24 V
battery B1 agm, 24 V, 100 Ah, internal 15 mΩ
fuse F1 10 A, blade, 32 V, breaks 5 kA
switch S1 1 pole, 16 A dc, 32 V
converter U1 12 V, 5 A, common negative
load RADIO 24 W, lowest 10.5 V
run W1 2.5 mm² red, 105 °C, 0.2 m, B1:+ to F1:in
run W2 2.5 mm² red, 105 °C, 0.4 m, F1:out to S1:1
run W3 2.5 mm² red, 105 °C, 0.4 m, S1:2 to U1:in+
run W4 2.5 mm² black, 105 °C, 1 m, U1:in- to B1:-
run W5 2.5 mm² red, 105 °C, 0.4 m, U1:out+ to RADIO:+
run W6 2.5 mm² black, 105 °C, 0.4 m, U1:out- to RADIO:-
`;

  it('is told with what opens before the converter, and with it', () => {
    expect(told(`${bus}case day RADIO on\n`)).toEqual([]);
    expect(messages(`${bus}case night S1 off, RADIO on, U1 on\n`)).toEqual([
      'In case night RADIO and U1 are on, but nothing feeds them: S1 is off. Have S1 on there, or leave RADIO and U1 off.',
    ]);
    expect(messages(`${bus}case night U1 off, RADIO on\n`)[0]).toContain(': U1 is off. Have U1 on');
  });
});
