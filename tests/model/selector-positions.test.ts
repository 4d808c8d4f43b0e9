/** What a case says of a selector’s position, and what it says twice: each mistake told once, with what to write. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';
import { applied } from '../rules/applied.ts';

const shed = (conditions: string, positions = 'positions off 1 2') => `system "Shed" 12 V
battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ
battery B2 lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1 and F2 5 A, blade, 32 V
selector S1 100 A dc, 32 V, ${positions}
switch S2 1 pole, 10 A dc, 24 V
load LAMP 12 W
run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 1.5 mm² red, 0.1 m, B2:+ to F2:in
run W3 1.5 mm² red, 0.4 m, F1:out to S1:1
run W4 1.5 mm² red, 0.4 m, F2:out to S1:2
run W5 1.5 mm² red, 1.2 m, S1:common to S2:1
run W6 1.5 mm² red, 1.2 m, S2:2 to LAMP:+
run W7 1.5 mm² black, 1.3 m, LAMP:- to B1:-
run W8 1.5 mm² black, 0.3 m, B1:- to B2:-
case night LAMP on, ${conditions}
`;

/** What is found, but that nothing feeds the lamp where the switch stands so: dead-in-case.test.ts has that. */
const foundIn = (text: string) => analyseText(text).findings.filter(({ slug }) => slug !== 'dead-in-case');

/** Which battery feeds the lamp. */
function feeding(text: string): string {
  const { parts } = analyseText(text).answers.cases[0] ?? { parts: new Map() };
  return ['B1', 'B2'].filter((name) => Math.abs(parts.get(name)?.amps ?? 0) > 0.1).join();
}

describe('a position in a case', () => {
  it.each([
    ['S1 at 1', 'B1'],
    ['S1 at 2', 'B2'],
    ['S1 at off', ''],
    ['S1 off', ''],
    ['S1 on, S1 at 2', 'B2'],
    ['sun 0 %', 'B1'],
  ])('“%s” is sound, and fed by %s', (conditions, fed) => {
    expect(foundIn(shed(conditions)).map(({ message }) => message)).toEqual([]);
    expect(feeding(shed(conditions))).toBe(fed);
  });

  it.each([
    ['S1 at both', 'unknown-position', 'both', 'S1 has no position both: it has off, 1 and 2.', 'B1'],
    ['S1 at 3', 'unknown-position', '3', 'S1 has no position 3: it has off, 1 and 2.', 'B1'],
    [
      'S2 at 1',
      'unknown-position',
      'S2 at 1',
      'S2 is a switch, with no positions to say: write S2 on or S2 off.',
      'B1',
    ],
    ['B1 at 12.5', 'missing-unit', '12.5', '12.5 has no unit: write 12.5 V, as in “B1 at 12.5 V”.', 'B1'],
    [
      'LAMP at 2',
      'unknown-name',
      'LAMP',
      '“LAMP” is a load, where the name of a selector belongs: correct the name.',
      'B1',
    ],
    ['S1 at', 'unknown-clause', 'S1 at', '“S1 at” is not finished: say its position, as in S1 at 2.', 'B1'],
    ['B1 at', 'unknown-clause', 'B1 at', 'This is not finished: it reads like “B1 at 12.5 V”.', 'B1'],
    ['S7 at 2', 'unknown-name', 'S7', 'There is no selector “S7”: did you mean S1?', 'B1'],
    // Read as what is meant.
    ['S1 to 2', 'unknown-clause', 'to 2', '“to 2” is written at 2 here.', 'B2'],
    ['S1 on 2', 'unknown-clause', 'on 2', '“on 2” is written at 2 here.', 'B2'],
    ['S1 in position 2', 'unknown-clause', 'in position 2', '“in position 2” is written at 2 here.', 'B2'],
    ['S1 to Off', 'unknown-clause', 'to Off', '“to Off” is written at off here.', ''],
    // Twice.
    [
      'S1 at 2, S1 at 1',
      'clause-twice',
      'S1 at 1',
      'This says S1 at 2 and S1 at 1; only S1 at 2 counts: keep one.',
      'B2',
    ],
    ['S1 at 2, S1 off', 'clause-twice', 'S1 off', 'This says S1 at 2 and S1 off; only S1 off counts: keep one.', ''],
    ['S1 off, S1 at 2', 'clause-twice', 'S1 at 2', 'This says S1 off and S1 at 2; only S1 off counts: keep one.', ''],
    ['LAMP off', 'clause-twice', 'LAMP off', 'This says LAMP on and LAMP off; only LAMP on counts: keep one.', 'B1'],
    ['LAMP on', 'clause-twice', 'LAMP on', '“LAMP on” stands here twice: keep one.', 'B1'],
    [
      'B1 at 12 V, B1 at 13 V',
      'clause-twice',
      'B1 at 13 V',
      'This says B1 at 12 V and B1 at 13 V; only B1 at 12 V counts: keep one.',
      'B1',
    ],
    [
      'B1 charge 60 %, B1 charge 40 %',
      'clause-twice',
      'B1 charge 40 %',
      'This says B1 charge 60 % and B1 charge 40 %; only B1 charge 60 % counts: keep one.',
      'B1',
    ],
    [
      'all sources on, all sources off',
      'clause-twice',
      'all sources off',
      'This says all sources on and all sources off; only all sources on counts: keep one.',
      'B1',
    ],
  ])('“%s” is told once', (conditions, slug, marked, message, fed) => {
    const text = shed(conditions);
    const findings = foundIn(text);
    expect(findings.map((one) => [one.slug, one.message])).toEqual([[slug, message]]);
    const { place, fixes } = findings[0] ?? { place: { span: { start: 0, end: 0 } }, fixes: [] };
    expect(text.slice(place.span.start, place.span.end)).toBe(marked);
    expect(feeding(text)).toBe(fed);
    for (const { edits } of fixes) {
      const files = { 'spec.amps': text };
      const after = applied(files, edits)['spec.amps'] ?? '';
      expect(foundIn(after).map((one) => one.message)).toEqual([]);
    }
  });

  it('of a selector that does not say its positions may be any', () => {
    for (const said of ['1', '2', 'off', 'both']) {
      const { findings } = analyseText(shed(`S1 at ${said}`).replace(', positions off 1 2', ''));
      expect(findings.filter(({ slug }) => slug === 'unknown-position')).toEqual([]);
    }
  });

  it('of a reading is told the same way', () => {
    const reading = (conditions: string) =>
      analyseText(`${shed('S1 at 1')}reading 2026-04-18 LAMP:+ 12.1 V with LAMP on, ${conditions}\n`).findings;
    expect(reading('S1 at 2, B1 at 10 V, B2 at 12.2 V')).toEqual([]);
    expect(reading('S1 at 1, B1 at 10 V, B2 at 12.2 V').map(({ slug }) => slug)).toEqual([
      'reading-outside-expectation',
    ]);
    expect(reading('S1 at 3').map(({ slug, message }) => `${slug}: ${message}`)).toEqual([
      'unknown-position: S1 has no position 3: it has off, 1 and 2.',
    ]);
    expect(reading('LAMP off').map(({ slug }) => slug)).toEqual(['clause-twice']);
  });

  it.each([
    ['LAMP', ['LAMP on', 'LAMP off']],
    ['B1, LAMP', ['B1 and LAMP on', 'B1 and LAMP off']],
    ['all sources', ['all sources on', 'all sources off']],
  ])('“%s” is offered with what it lacks', (said, offered) => {
    const text = shed(said).replace('LAMP on, ', '');
    const { findings } = analyseText(text);
    expect(findings).toHaveLength(1);
    const after = (findings[0]?.fixes ?? []).map(
      ({ edits }) => applied({ 'spec.amps': text }, edits)['spec.amps'] ?? '',
    );
    expect(after).toEqual(offered.map((right) => text.replace(`case night ${said}`, `case night ${right}`)));
    for (const one of after) expect(analyseText(one).model.problems).toEqual([]);
  });
});
