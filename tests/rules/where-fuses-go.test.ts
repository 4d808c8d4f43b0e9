/** Where a message says that fuses go, so that what is fitted by it protects and does not blow. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

function found(text: string, slug: string) {
  return analyseText(text).findings.filter((one) => one.slug === slug);
}

describe('a coil fed from the lead of an alternator', () => {
  const spec = (size: string) => `system "Yard" 12 V
battery B1 lead-acid, 12 V, 100 Ah
alternator A1 14.2 V, 90 A
relay K1 coil 12 V 140 mA, contact 40 A
fuse F1 5 A, blade, 32 V, breaks 10 kA
load LAMP 10 W
run W1 35 mm² red, 1 m, A1:+ to B1:+
run W2 35 mm² black, 1 m, A1:- to B1:-
run W3 1.5 mm² red, 0.1 m, B1:+ to F1:in
run W4 1.5 mm² red, 1 m, F1:out to K1:30
run W5 1.5 mm² red, 1 m, K1:87 to LAMP:+
run W6 1.5 mm² black, 1 m, B1:- to LAMP:-
run W7 ${size} red, 1 m, A1:+ to K1:86
run W8 1 mm² black, 1 m, B1:- to K1:85
`;

  it('gets a fuse of its own, since one so small would blow in the lead', () => {
    expect(found(spec('1 mm²'), 'supply-unfused').map(({ message }) => message)).toEqual([
      'W1 feeds K1 from B1 with no fuse or breaker on the way: put one at its beginning, of at most 141 A, which is what 35 mm² may have here, and one at the beginning of W7 (1 mm²) of at most 15.5 A.',
    ]);
  });

  it('is behind that of the lead where its cable bears as much', () => {
    expect(found(spec('25 mm²'), 'supply-unfused').map(({ message }) => message)).toEqual([
      'W1 feeds K1 from B1 with no fuse or breaker on the way: put one at its beginning, of at most 114 A, which is what 25 mm² may have here.',
    ]);
  });
});

it('strings of batteries in parallel get one fuse each, at the battery whose positive they meet at', () => {
  const text = `system "Bus" 24 V
battery B1 and B2 and B3 and B4 agm, 12 V, 100 Ah, internal 4 mΩ
fuse F1 60 A, class-t, 125 V, breaks 20 kA
load LAMP 24 W
run W1 25 mm² black, 0.3 m, B1:+ to B2:-
run W2 25 mm² black, 0.3 m, B3:+ to B4:-
run W3 25 mm² red, 0.3 m, B2:+ to B4:+
run W4 25 mm² black, 0.3 m, B1:- to B3:-
run W5 25 mm² red, 0.3 m, B2:+ to F1:in
run W6 25 mm² red, 0.3 m, F1:out to LAMP:+
run W7 25 mm² black, 0.3 m, B3:- to LAMP:-
`;
  const [only, ...others] = found(text, 'bank-fuse-each');
  expect(others).toEqual([]);
  expect(only?.message).toContain('B3 and B4 can drive');
  expect(only?.message).toMatch(/: put a fuse at the positive of each of B2 and B4\.$/);
  expect(only?.figures).toMatchObject({ batteries: 4 });
});

describe('panel strings in parallel', () => {
  const roof = (first: string, fused: readonly string[] = []) => {
    const panels = ['P1', 'P2', 'P3', 'P4'];
    const plus = (name: string) =>
      fused.includes(name)
        ? `fuse F${name} 10 A, gpv, 125 V\nrun W${name} 6 mm² red, 1 m, ${name}:+ to F${name}:in\nrun V${name} 6 mm² red, 1 m, F${name}:out to JP`
        : `run W${name} 6 mm² red, 1 m, ${name}:+ to JP`;
    return `system "Roof" 12 V
panel P1 and P2 and P3 100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.6 A
panel P4 100 W, voc 22 V, isc 6 A, vmp 18 V, imp 5.6 A${first}
splice JP and JN
${panels.map((name) => `${plus(name)}\nrun N${name} 6 mm² black, 1 m, ${name}:- to JN`).join('\n')}
isolator QP 2 poles, 40 A dc, 60 V, category DC-PV2
controller U1 mppt, pv 100 V 40 A, output 30 A
battery B1 lead-acid, 12 V, 200 Ah, internal 15 mΩ
fuse F1 40 A, bolt-in, 58 V
run W1 10 mm² red, 1 m, JP to QP:1
run W2 10 mm² black, 1 m, JN to QP:3
run W3 10 mm² red, 1 m, QP:2 to U1:pv+
run W4 10 mm² black, 1 m, QP:4 to U1:pv-
run W5 10 mm² red, 1 m, U1:bat+ to F1:out
run W6 10 mm² red, 0.2 m, F1:in to B1:+
run W7 10 mm² black, 1 m, U1:bat- to B1:-
`;
  };
  const told = (text: string) =>
    found(text, 'string-fuse-needed').map(({ message, severity, subject }) => [
      severity,
      subject,
      message.slice(0, message.indexOf(':')),
    ]);

  it('of which nothing is stated are one finding', () => {
    expect(told(roof(''))).toEqual([
      [
        'warning',
        'P1',
        '4 panel strings in parallel have no fuse, so the others drive 18 A backwards through one that fails',
      ],
    ]);
    const [only] = found(roof(''), 'string-fuse-needed');
    expect(only?.message).toContain('fit one in each string, 10 A or 12 A, which is 1.5 to 2.4 times its 6 A');
    expect(only?.related.map(({ message }) => message)).toEqual([
      ...['P2', 'P3', 'P4'].map((name) => `${name} is one of their panels`),
      'That it is told of from three strings on is common practice, no source',
    ]);
  });

  it('of which one is stated stand beside it', () => {
    expect(told(roof(', most series fuse 15 A')).map(([severity, subject]) => `${severity} ${subject}`)).toEqual([
      'warning P1',
      'error P4',
    ]);
  });

  it('that have a fuse are not counted', () => {
    expect(told(roof('', ['P2', 'P3'])).map(([, , what]) => what)).toEqual([
      '2 of 4 panel strings in parallel have no fuse, so the others drive 18 A backwards through one that fails',
    ]);
    expect(told(roof('', ['P2', 'P3', 'P4'])).map(([, , what]) => what)).toEqual([
      'P1 has no fuse, so the others drive 18 A backwards through it',
    ]);
  });
});

it('a charger on a busbar gets a fuse where it branches off, though the main fuse carries less than it gives', () => {
  const text = `system "Kiosk" 12 V
battery B1 agm, 12 V, 100 Ah, internal 5 mΩ
busbar POS 100 A
busbar NEG 100 A
fuse F1 100 A, bolt-in, 58 V, breaks 5 kA
charger C1 14.4 V, 20 A, from mains, insulated case
load FRIDGE 10 A
run W1 25 mm² red, 0.3 m, B1:+ to F1:in
run W2 25 mm² red, 0.3 m, F1:out to POS
run W3 25 mm² black, 0.3 m, B1:- to NEG
run W4 4 mm² red, 2 m, C1:out+ to POS
run W5 4 mm² black, 2 m, C1:out- to NEG
run W6 25 mm² red, 2 m, POS to FRIDGE:+
run W7 25 mm² black, 2 m, FRIDGE:- to NEG
case day all loads on, all sources on
`;
  const [only] = found(text, 'cable-too-small');
  expect(only?.message).toMatch(/use 25 mm² or larger, or give it a fuse of its own where it branches off\.$/);
  expect(only?.fixes.map(({ title }) => title)).toEqual(['Use 25 mm²']);
});

describe('batteries on a selector with one fuse behind it', () => {
  const selected = (positions: string) => `system "Shed" 12 V
battery B1 and B2 lithium-iron-phosphate, 12.8 V, 100 Ah, internal 5 mΩ
fuse F1 60 A, class-t, 125 V, breaks 20 kA
selector S9 200 A dc, 48 V${positions}
busbar NEG 200 A
load LAMP 12 W
run W1 25 mm² red, 90 °C, 0.5 m, B1:+ to S9:1
run W2 25 mm² red, 90 °C, 0.5 m, B2:+ to S9:2
run W5 25 mm² red, 0.2 m, S9:common to F1:in
run W3 25 mm² black, 0.5 m, B1:- to NEG
run W4 25 mm² black, 0.5 m, B2:- to NEG
run W6 25 mm² red, 1 m, F1:out to LAMP:+
run W7 25 mm² black, 1 m, LAMP:- to NEG
`;
  const found = (text: string) => analyseText(text).findings;

  it('are joined by a position both, and by none where it is not said', () => {
    expect(found(selected(', positions off 1 2'))).toEqual([]);
    const [joined, ...others] = found(selected(', positions off 1 2 both'));
    expect(others).toEqual([]);
    expect(joined?.severity).toBe('warning');
    expect(joined?.message).toMatch(/^B2 can drive .* put a fuse at the positive of each of B1 and B2\.$/);
  });

  it('are told to have their positions said where they are not, and nothing worse', () => {
    const [advice, ...others] = found(selected(''));
    expect(others).toEqual([]);
    expect(advice).toMatchObject({ slug: 'bank-fuse-each', severity: 'advice', subject: 'W1' });
    expect(advice?.message).toMatch(
      /^What positions S9 has is not said; .*: say them, such as positions off 1 2, or put/,
    );
  });

  it('are warned of where a third is joined to one of them for sure', () => {
    const third = `${selected('')}battery B3 lithium-iron-phosphate, 12.8 V, 100 Ah, internal 5 mΩ
run W8 25 mm² red, 90 °C, 0.5 m, B3:+ to B1:+
run W9 25 mm² black, 0.5 m, B3:- to NEG
`;
    expect(found(third).map(({ slug, subject, severity }) => `${slug} ${subject} ${severity}`)).toEqual([
      'bank-fuse-each W8 warning',
    ]);
  });
});
