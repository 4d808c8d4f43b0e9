import { describe, expect, it } from 'vitest';
import { analyseText } from '../../analysed.ts';
import { offering, titles } from './offering.ts';

const hut = (runs: string, parts = '') => `system "Hut" 12 V

place LOFT  50 °C
place SHED  30 °C

enclosure BOX  plastic, IP54, at LOFT
battery B1     agm, 12 V, 60 Ah, at SHED
fuse F1        5 A, blade, 32 V, breaks 2 kA, at SHED
load LAMP      9 W, at LOFT
${parts}
run W1  1.5 mm² red, 0.1 m, B1:+ to F1:in
${runs}`;
const feed = `# the feed
run W2  1.5 mm² red, 2.5 m, along SHED 1.5 m and LOFT 1 m, F1:out to LAMP:+  # kept
run W3  1.5 mm² black, 2 m, LAMP:- to B1:-
`;
const two = `run W2 "Loft"  2 x 1.5 mm², od 6.2 mm, 3 m, along LOFT
    red    F1:out to LAMP:+  # above
    black  LAMP:- to B1:-
    enters BOX open
    sheathed  # grey
`;

describe('a run split in a box', () => {
  const kind = 'refactor.rewrite.split';

  it('goes on from a splice there, half its lengths on either side, with a gland for each half', () => {
    const found = offering(hut(feed.replace('W2', '|W2')), kind);
    expect(titles(found)).toEqual([
      'Split W2 in BOX: W4 carries on from splice J1, half the length each, a gland for each half (M20)',
    ]);
    expect(found.chosen('Split')).toBe(
      hut(`splice J1  in BOX
# the feed
run W2  1.5 mm² red, 1.25 m, along SHED 0.75 m and LOFT 0.5 m, F1:out to J1  # kept
    enters BOX by gland M20
run W4  1.5 mm² red, 1.25 m, along SHED 0.75 m and LOFT 0.5 m, J1 to LAMP:+
    enters BOX by gland M20
run W3  1.5 mm² black, 2 m, LAMP:- to B1:-
`),
    );
  });

  it('has a splice for each core, whichever way it is written, and keeps how it enters already', () => {
    expect(offering(hut(two.replace('F1:out', 'F1:|out')), kind).chosen('Split')).toBe(
      hut(`splice J1  in BOX
splice J2  in BOX
run W2 "Loft"  2 x 1.5 mm², od 6.2 mm, 1.5 m, along LOFT
    red    F1:out to J1  # above
    black  J2     to B1:-
    enters BOX open
    sheathed  # grey
run W3         2 x 1.5 mm², od 6.2 mm, 1.5 m, along LOFT
    red    J1     to LAMP:+
    black  LAMP:- to J2
    sheathed
    enters BOX by gland M16
`),
    );
  });

  it('is not one that never leaves another box, whose wall it would pass twice', () => {
    const within = hut(feed.replace('W2', '|W2'), 'enclosure TUB  plastic, IP54, at LOFT\n').replace(
      /(fuse F1|load LAMP)(.*), at \w+/gu,
      '$1$2, in TUB',
    );
    expect(titles(offering(within, kind))).toEqual([]);
    const inside = within.replace('plastic, IP54, at LOFT\nbattery', 'plastic, IP54, in TUB\nbattery');
    expect(titles(offering(inside, kind))).toHaveLength(1);
  });

  it('says so where the box has no ready holes left, and where other limits hold then', () => {
    const title = (text: string) => titles(offering(text, kind)).find((one) => one.startsWith('Split W2 in BOX'));
    const holes = (ready: string) =>
      hut(two.replace('F1:out', 'F1:|out')).replace('plastic, IP54', `plastic, IP54, knockouts ${ready}`);
    expect(title(holes('2 x M16'))).toBe(
      'Split W2 in BOX: W3 carries on from splices J1 and J2, half the length each, a gland for each half (M16)',
    );
    // One of the two goes through the hole that is open now.
    const taken = 'entry E1       in BOX, gland M16\n';
    expect(title(holes('1 x M16').replace('battery', `${taken}battery`))).toContain(
      '; BOX has no hole M16 left for that',
    );
    const cables = hut('run |W2  2.5 mm² red, 2 m, F1:out to LAMP:+\nrun W3  14 AWG black, 2 m, LAMP:- to B1:-\n');
    expect(title(cables)).not.toContain('limits');
    expect(title(cables.replace('W1  1.5 mm²', 'W1  14 AWG'))).toContain(
      '; the limits are then those of IEC 60364-5-52',
    );
  });

  it('leaves each wall to the half that passes it', () => {
    const parts = 'enclosure TIN  metal, IP54, at SHED\nfuse F2        5 A, blade, in TIN\n';
    const runs = 'run W2  1.5 mm² red, 2 m, LAMP:+ to F2:out\n    enters TIN by gland M12\n';
    expect(offering(hut(runs.replace('W2', '|W2'), parts), kind).chosen('Split W2 in BOX')).toBe(
      hut(
        `splice J1  in BOX
run W2  1.5 mm² red, 1 m, LAMP:+ to J1
    enters BOX by gland M20
run W3  1.5 mm² red, 1 m, J1 to F2:out
    enters TIN by gland M12
    enters BOX by gland M20
`,
        parts,
      ),
    );
  });

  it('says the way of both halves where one would get cooler without', () => {
    const parts = 'enclosure TUB  plastic, IP54, at SHED\n';
    expect(offering(hut('run |W2  1.5 mm² red, 2 m, LAMP:+ to F1:out\n', parts), kind).chosen('Split W2 in TUB')).toBe(
      hut(
        `splice J1  in TUB
run W2  1.5 mm² red, 1 m, along LOFT and SHED, LAMP:+ to J1
    enters TUB by gland M20
run W3  1.5 mm² red, 1 m, along LOFT and SHED, J1 to F1:out
    enters TUB by gland M20
`,
        parts,
      ),
    );
  });

  it('is not offered for a run that others speak of, that has no length yet, or shares the way of another', () => {
    const none = (runs: string, parts = '') => expect(titles(offering(hut(runs, parts), kind))).toEqual([]);
    none(`${feed.replace('W2', '|W2')}expect W2 drop at most 2 %\n`);
    none(feed.replace('W2', '|W2').replace('2.5 m', '? m'));
    none(`${feed.replace('W2', '|W2')}run W4  1.5 mm² red, 2 m, F1:out to LAMP:+\n`);
    none('run |W2  1.5 mm² red, 2 m, F1:out to NOWHERE:+\n');
    none('run |W2  1.5 mm² red, 2 m, F1:out to J1\n', 'splice J1  in BOX\n');
  });
});

describe('an isolator added', () => {
  const kind = 'refactor.rewrite.isolator';

  it.each([
    ['run W9  1.5 mm² red, 1 m, B1:+ to Q1:1', 'Q2', 'W4'],
    ['link Q1 1-3', 'Q2', 'W4'],
    ['case night  Q1 off', 'Q2', 'W4'],
    ['reading 2026-01-01 Q1:1 to Q1:2 0.1 Ω', 'Q2', 'W4'],
    ['allow drop-over-limit on W4 "tested"', 'Q1', 'W5'],
    ['expect W4 current at most 3 A', 'Q1', 'W5'],
    ['run W9  1.5 mm² red, 1 m, bunched with W4, B1:+ to F1:in', 'Q1', 'W5'],
    ['rnu W4  1.5 mm² red, 1 m, B1:+ to Q1:2', 'Q2', 'W5'],
    // Cases have names of their own.
    ['expect LAMP voltage at least 11 V in Q1', 'Q1', 'W4'],
  ])('takes no name that is spoken of while nothing has it yet, as in “%s”', (line, isolator, run) => {
    const [title, ...more] = titles(offering(hut(`${feed.replace('W2', '|W2')}${line}\n`), kind));
    expect(more).toEqual([]);
    expect(title).toMatch(
      new RegExp(`^Add isolator ${isolator} in the middle of W2: .*; ${run} carries on from it`, 'u'),
    );
  });

  it('is wired on both sides and rated for its circuit', () => {
    const found = offering(hut(feed.replace('W2', '|W2')), kind);
    expect(titles(found)).toEqual(['Add isolator Q1 in the middle of W2: 1 pole, 6 A dc, 60 V; W4 carries on from it']);
    expect(found.chosen('Add')).toBe(
      hut(`isolator Q1  1 pole, 6 A dc, 60 V, at SHED
# the feed
run W2  1.5 mm² red, 1.25 m, along SHED 0.75 m and LOFT 0.5 m, F1:out to Q1:1  # kept
run W4  1.5 mm² red, 1.25 m, along SHED 0.75 m and LOFT 0.5 m, Q1:2 to LAMP:+
run W3  1.5 mm² black, 2 m, LAMP:- to B1:-
`),
    );
  });

  it('opens both cores of a run that has two', () => {
    const runs = two.replace('    enters BOX open\n', '');
    const named = 'isolator Q4  1 pole, 10 A dc\n';
    expect(offering(hut(runs.replace('black', '|black'), named), kind).chosen('Add')).toBe(
      hut(
        `isolator Q5  2 poles, 6 A dc, 60 V, at LOFT
run W2 "Loft"  2 x 1.5 mm², od 6.2 mm, 1.5 m, along LOFT
    red    F1:out to Q5:1  # above
    black  Q5:3   to B1:-
    sheathed  # grey
run W3         2 x 1.5 mm², od 6.2 mm, 1.5 m, along LOFT
    red    Q5:2   to LAMP:+
    black  LAMP:- to Q5:4
    sheathed
`,
        named,
      ),
    );
  });

  it('takes the remark along of a line that goes to the second half, also where the file ends with it', () => {
    const parts = 'enclosure TUB  plastic, IP54, at LOFT\nload FAN       9 W, in TUB\n';
    const run = (name: string, length: string, ends: string) => `run ${name}  1.5 mm² red, ${length}, ${ends}`;
    for (const remark of ['', '  # at the rear'])
      for (const end of ['', '\n']) {
        const enters = `\n    enters TUB by grommet 8 mm${remark}`;
        const whole = hut(`${run('|W2', '1 m', 'F1:out to FAN:+')}${enters}${end}`, parts);
        const added = 'isolator Q1  1 pole, 6 A dc, 60 V, at LOFT\n';
        const halves = `${run('W2', '0.5 m', 'F1:out to Q1:1')}\n${run('W3', '0.5 m', 'Q1:2 to FAN:+')}${enters}\n`;
        expect(offering(whole, kind).chosen('Add')).toBe(hut(added + halves, parts));
      }
  });

  it('is named like the run and what it joins, where these begin alike', () => {
    const van = (name: string) =>
      `battery ${name}-B1  agm, 12 V, 60 Ah\nload ${name}-L1  9 W\nisolator ${name}-Q1  1 pole, 6 A dc\n`;
    const run = 'run |V1-W1  1.5 mm² red, 1 m, V1-B1:+ to V1-L1:+\nrun V2-W1  1.5 mm² red, 1 m, V2-B1:+ to V2-L1:+\n';
    expect(titles(offering(`${van('V1')}${van('V2')}${run}`, kind))[0]).toMatch(
      /^Add isolator V1-Q2 in the middle of V1-W1: .*; V1-W2 carries on from it$/u,
    );
  });

  it('leaves open what is not known, and takes the panels’ voltage in the cold', () => {
    const idle = offering('system "Hut" 12 V\nbusbar A\nbusbar B\nrun |W1  6 mm² red, 1 m, A to B\n', kind);
    expect(titles(idle)).toEqual(['Add isolator Q1 in the middle of W1: 1 pole, ? A dc, 60 V; W2 carries on from it']);
    const sun = `system "Hut" 12 V
    coldest -10 °C
panel P1  300 W, voc 72 V, isc 6.2 A, vmp 58 V, imp 5.2 A, voc drift -0.3 %/°C
controller U1  mppt, pv 150 V 20 A, output 20 A
battery B1  agm, 12 V, 60 Ah
run |W1  4 mm² red, 2 m, P1:+ to U1:pv+
run W2  4 mm² black, 2 m, P1:- to U1:pv-
run W3  4 mm² red, 2 m, U1:bat+ to B1:+
run W4  4 mm² black, 2 m, U1:bat- to B1:-
`;
    expect(titles(offering(sun, kind))).toEqual([
      'Add isolator Q1 in the middle of W1: 1 pole, 10 A dc, 80 V, category DC-PV2; W5 carries on from it',
    ]);
  });

  describe('between two devices', () => {
    const base = (first: string, second: string) => `system "Hut" 12 V
battery B1  lead-acid, 12 V, 80 Ah, internal 15 mΩ
${first}
${second}
load LAMP  6 A
run W1  10 mm² red, 0.1 m, B1:+ to D1:in
run W2  10 mm² red, 1 m, D1:out to D2:in
run W3  10 mm² red, 1 m, D2:out to LAMP:+
run W4  10 mm² black, 1 m, LAMP:- to B1:-
`;
    const breaker = (name: string, rating: string) => `breaker ${name}  ${rating}, 32 V dc, breaks 3 kA`;
    const fuse = (name: string, rating: string) => `fuse ${name}  ${rating}, blade, 32 V`;

    it('is rated for the smallest that its feed passes, before it or behind it, as the rule asks', () => {
      const pairs = [
        [breaker('D1', '16 A'), fuse('D2', '30 A')],
        [fuse('D1', '30 A'), breaker('D2', '16 A')],
        [fuse('D1', '30 A'), fuse('D2', '15 A')],
      ] as const;
      for (const [first, second] of pairs)
        for (const run of ['W2', 'W3']) {
          const found = offering(base(first, second).replace(`run ${run}`, `run |${run}`), kind);
          expect(titles(found)).toEqual([
            `Add isolator Q1 in the middle of ${run}: 1 pole, 16 A dc, 60 V; W5 carries on from it`,
          ]);
          const rule = (text: string) => analyseText(text).findings.map(({ slug }) => slug);
          const added = found.chosen('Add');
          expect(rule(added)).not.toContain('switch-below-fuse');
          expect(rule(added.replace('1 pole, 16 A dc', '1 pole, 12 A dc'))).toContain('switch-below-fuse');
        }
    });
  });

  it('is never put into a conductor that protects', () => {
    const toBody = 'chassis G1\nrun |W2  6 mm² black, 1 m, B1:- to G1\nrun W3  1.5 mm² red, 1 m, F1:out to LAMP:+\n';
    const asked = (way: string) =>
      titles(offering(hut(`${toBody}run W4  1.5 mm² black, 1 m, LAMP:- to ${way}\n`), kind));
    expect(asked('B1:-')).toEqual([]);
    // The body that is a return is no bond alone.
    expect(asked('G1')).toHaveLength(1);
    const bond = 'run |W2  6 mm² green/yellow, 1 m, LAMP:- to B1:-\n';
    expect(titles(offering(hut(bond), kind))).toEqual([]);
  });
});
