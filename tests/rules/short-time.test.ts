/** Currents for a time, just within what cable and device bear and just beyond it, by closed forms. */
import { describe, expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const lamp = (load: string, fuse: string, thin = '1.5 mm² red', more = '') => `system "Shed" 12 V
battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1 ${fuse}
load L1 ${load}
run W1 35 mm² red, 0.1 m, B1:+ to F1:in
run W2 ${thin}, 0.2 m, F1:out to L1:+
run W3 35 mm² black, 1 m, L1:- to B1:-
${more}`;

const findings = (text: string) => analyseText(text).findings;
const slugs = (text: string) => findings(text).map(({ slug, subject, severity }) => `${slug} ${subject} ${severity}`);

/** A device that holds anything a minute, so that the cable alone is judged. */
const patient =
  '20 A, cartridge, 60 V, breaks 3 kA, operates 110 % in 60 s to 90 s, operates 350 % in 60 s to 90 s, operates 700 % in 0.01 s to 0.1 s';

describe('a horn for 4 s', () => {
  it('is no matter to a cable and a fuse that bear it, though both are rated below it', () => {
    // 1 mm² carries 15.5 A (4D1A); 18 A are 1.2 times 15 A, which a maxi-blade holds for minutes.
    const horn = lamp('18 A, for 4 s', '15 A, maxi-blade, 32 V', '1 mm² red');
    expect(slugs(horn)).toEqual([]);
    expect(slugs(horn.replace(', for 4 s', ''))).toEqual(['fuse-below-load F1 warning', 'cable-too-small W2 error']);
  });

  it('without any fuse is still found', () => {
    const bare = `battery B1 lead-acid, 12 V, 80 Ah
load HORN 5 A, for 4 s
run W1 2.5 mm² red, 1 m, B1:+ to HORN:+
run W2 2.5 mm² black, 1 m, HORN:- to B1:-
`;
    expect(slugs(bare)).toEqual(['supply-unfused W1 error']);
  });
});

describe('a cable', () => {
  // 1.5 mm², 20 A at 30 °C: τ = 226² ln(304.5/264.5) · 1.5²/20² = 40.5 s, and 40 A for τ ln(4/3) = 11.6 s.
  const tau = (226 ** 2 * Math.log(304.5 / 264.5) * 1.5 ** 2) / 400;
  const seconds = tau * Math.log(4 / 3);

  it('bears twice its capacity for τ ln(4/3)', () => {
    expect(seconds).toBeCloseTo(11.64, 2);
    expect(slugs(lamp(`40 A, for ${(seconds * 0.999).toFixed(3)} s`, patient))).toEqual([]);
    const [found, ...others] = findings(lamp(`40 A, for ${(seconds * 1.001).toFixed(3)} s`, patient));
    expect([found?.slug, found?.subject, others]).toEqual(['cable-too-small', 'W2', []]);
    expect(found?.message).toContain('W2 carries 40 A for 12 s while L1 runs, which warms it like 20 A without end');
    expect(found?.fixes.map(({ title }) => title)).toContain('Use 2.5 mm²');
  });

  it('bears less when it comes again before the cable has cooled', () => {
    expect(slugs(lamp('40 A, for 8 s, 1 h/day', patient))).toEqual([]);
    expect(slugs(lamp('40 A, for 8 s, 8 h/day', patient))).toEqual(['cable-too-small W2 error']);
  });

  it('is warmed by what a load takes when it starts, for as long as that is said to last', () => {
    const start = (time: string) => lamp(`5 A, surge 40 A${time}`, patient);
    expect(slugs(start(' for 11 s'))).toEqual([]);
    const [found] = findings(start(' for 20 s'));
    expect(found?.message).toContain('carries 40 A for 20 s when L1 starts');
    expect(slugs(start(''))).toEqual([]);
  });

  it('is offered a size that bears it', () => {
    const text = lamp('60 A, for 20 s', patient);
    const [found] = findings(text);
    expect(found?.slug).toBe('cable-too-small');
    const use = found?.fixes.find(({ title }) => title.startsWith('Use '));
    expect(use?.title).toBe('Use 4 mm²');
    for (const size of ['2.5 mm²', '4 mm²'])
      expect([size, slugs(text.replace('1.5 mm²', size)).length]).toEqual([size, size === '4 mm²' ? 0 : 1]);
  });
});

describe('a fuse', () => {
  const blade = (load: string, style = 'blade') => lamp(load, `10 A, ${style}, 32 V`, '4 mm² red');

  it('by the gates of a blade holds twice its rating 0.15 s, and is gone after 5 s (ISO 8820-3, from memory)', () => {
    expect(slugs(blade('4 A, surge 20 A for 0.15 s'))).toEqual([]);
    expect(slugs(blade('4 A, surge 20 A for 0.16 s'))).toEqual(['fuse-below-load F1 advice']);
    expect(slugs(blade('4 A, surge 20 A for 4.9 s'))).toEqual(['fuse-below-load F1 advice']);
    expect(slugs(blade('4 A, surge 20 A for 5 s'))).toEqual(['fuse-below-load F1 warning']);
    const [found] = findings(blade('4 A, surge 20 A for 5 s'));
    expect(found?.message).toContain(
      'F1 is 10 A, but 20 A flow through it for 5 s when L1 starts, and it opens within 5 s',
    );
    expect(found?.message).toContain('fit 20 A.');
    expect(found?.figures).toMatchObject({ deviceAmps: 10, takenSeconds: 5, pole: 1 });
    expect(found?.figures.takenAmps).toBeCloseTo(20, 6);
    expect(found?.figures.opensWithinSeconds).toBeCloseTo(5, 6);
    expect(slugs(blade('4 A, surge 20 A for 5 s').replace('fuse F1 10 A', 'fuse F1 20 A'))).toEqual([]);
  });

  it('of a slower style holds it longer', () => {
    expect(slugs(blade('20 A, for 4 s', 'maxi-blade'))).toEqual([]);
    expect(slugs(blade('20 A, for 4.1 s', 'maxi-blade'))).toEqual(['fuse-below-load F1 advice']);
    expect(slugs(blade('20 A, for 60 s', 'maxi-blade'))).toEqual(['fuse-below-load F1 warning']);
  });

  it('goes by what its maker states', () => {
    const stated = (time: string) =>
      lamp(`4 A, surge 20 A for ${time}`, '10 A, glass, 32 V, breaks 3 kA, operates 200 % in 2 s to 9 s', '4 mm² red');
    expect(slugs(stated('2 s'))).toEqual([]);
    expect(slugs(stated('2.1 s'))).toEqual(['fuse-below-load F1 advice']);
    expect(findings(stated('10 s'))[0]?.message).toContain('it opens within 9 s at that by its curve');
  });

  it('of which no curve is known is asked about a load that runs, not about a moment', () => {
    const cartridge = (load: string) => lamp(load, '10 A, cartridge, 60 V, breaks 3 kA', '4 mm² red');
    expect(slugs(cartridge('4 A, surge 80 A for 1 s'))).toEqual([]);
    expect(findings(cartridge('20 A, for 4 s'))[0]?.message).toContain(
      'nothing tells how long it holds that: fit 20 A, or say with operates',
    );
  });

  it('is not asked to hold what nobody says how long it lasts', () => {
    expect(slugs(blade('4 A, surge 60 A'))).toEqual([]);
  });

  it('sees the others’ current too', () => {
    const two = (surge: string) =>
      lamp(
        `4 A, surge ${surge} for 1 s`,
        '10 A, blade, 32 V',
        '4 mm² red',
        'load L2 5 A\nrun W4 4 mm² red, 1 m, F1:out to L2:+\nrun W5 4 mm² black, 1 m, L2:- to B1:-\n',
      );
    // 5 A and 6 A are 1.1 times its rating, which it holds for hours.
    expect(slugs(two('6 A'))).toEqual([]);
    expect(slugs(two('20 A'))).toEqual(['fuse-below-load F1 advice']);
  });

  it('below its load all the time is told as that, once', () => {
    expect(findings(blade('12 A, surge 60 A for 3 s')).map(({ message }) => message)).toEqual([
      expect.stringContaining('L1 can take 12 A, so it will blow in ordinary use'),
    ]);
  });
});

describe('a larger fuse', () => {
  const start = (more: string, fuse = '5 A, blade, 32 V', rest = '') =>
    lamp(`4 A, surge 8 A for 0.5 s${more}`, fuse, '2.5 mm² red', rest);

  it('is offered where what it protects may have it', () => {
    const [found] = findings(start(''));
    expect([found?.slug, found?.severity, found?.fixes.map(({ title }) => title)]).toEqual([
      'fuse-below-load',
      'advice',
      ['Fit 7.5 A'],
    ]);
  });

  it('is not asked for where its maker allows no larger one, unless the one he allows is sure to open', () => {
    expect(slugs(start(', most fuse 5 A'))).toEqual([]);
    expect(slugs(start(', most fuse 7.5 A'))).toEqual(['fuse-below-load F1 advice']);
    const [found] = findings(lamp('4 A, surge 25 A for 5 s, most fuse 5 A', '5 A, blade, 32 V', '2.5 mm² red'));
    expect(found?.message).toMatch(/: ask the maker of L1, who allows a fuse of 5 A at most, which one bears it\.$/u);
    expect([found?.severity, found?.fixes]).toEqual(['warning', []]);
  });

  it('is not offered before a switch or joint that is made for less', () => {
    const behind = (part: string, first: string, second = first) =>
      findings(
        start('', '5 A, blade, 32 V', `${part}\nrun W4 2.5 mm² red, 1 m, ${second} to L1:+\n`).replace(
          'F1:out to L1:+',
          `F1:out to ${first}`,
        ),
      );
    const [switched] = behind('switch S1 1 pole, 6 A dc, 24 V', 'S1:1', 'S1:2');
    expect(switched?.message).toContain('fit 7.5 A and a larger S1, which is rated 6 A');
    expect(switched?.fixes).toEqual([]);
    expect(behind('splice J 7 A', 'J')[0]?.message).toContain('fit 7.5 A and a larger J, which is rated 7 A');
    expect(behind('splice J 7.5 A', 'J')[0]?.fixes.map(({ title }) => title)).toEqual(['Fit 7.5 A']);
  });
});

describe('a starter motor', () => {
  const starter = (amps: number, more: string, size = '4 mm²') => `system "Shed" 12 V
battery B1 lead-acid, 12 V, 80 Ah, internal 10 mΩ
load STARTER ${amps} A, cranking${more}
run W1 ${size} red, 1 m, B1:+ to STARTER:+
run W2 35 mm² black, 1 m, STARTER:- to B1:-
`;

  it('must leave its cable’s insulation whole: k²S² over the time it turns', () => {
    // 4 mm² in 70 °C PVC: k = 115 (IEC 60364-4-43 table 43A), 460² = 211 600 A²s: 230 A for 4 s.
    expect(slugs(starter(230, ', for 4 s'))).toEqual([]);
    const [found, ...others] = findings(starter(230.5, ', for 4 s'));
    expect([found?.slug, found?.subject, found?.severity, others]).toEqual(['cable-too-small', 'W1', 'error', []]);
    expect(found?.message).toContain('4 mm² bears that for 4 s before its insulation is lost');
    expect(found?.figures).toMatchObject({ crankingSeconds: 4, assumed: false });
    expect(found?.figures.withstandAmps).toBeCloseTo(230, 6);
    expect(found?.fixes.map(({ title }) => title)).toEqual(['Use 6 mm²']);
  });

  it('of which no time is said is taken to turn for 10 s, as a warning that says so', () => {
    expect(slugs(starter(140, ''))).toEqual([]);
    const [found] = findings(starter(230, ''));
    expect([found?.severity, found?.figures.assumed]).toEqual(['warning', true]);
    expect(found?.message).toContain('10 s is assumed (common practice, no source): say it with for');
  });

  it('counts on a cable that it shares', () => {
    const shared = (size: string) => `battery B1 lead-acid, 12 V, 80 Ah, internal 10 mΩ
busbar POS 300 A
fuse F1 5 A, blade, 32 V, breaks 3 kA
load LAMP 12 W
load STARTER 250 A, cranking, for 4 s
run W1 ${size} red, 0.3 m, B1:+ to POS
run W2 2.5 mm² red, 0.1 m, POS to F1:in
run W3 2.5 mm² red, 1 m, F1:out to LAMP:+
run W4 2.5 mm² black, 1 m, LAMP:- to B1:-
run W5 25 mm² red, 1 m, POS to STARTER:+
run W6 25 mm² black, 1 m, STARTER:- to B1:-
`;
    expect(slugs(shared('6 mm²'))).toEqual([]);
    expect(slugs(shared('4 mm²'))).toEqual(['cable-too-small W1 error']);
  });

  it('must have its lowest voltage left at its current', () => {
    // 12 V − 100 A × (10 mΩ + 1 m of 10 mm², 1.91 mΩ, + 1 m of 35 mm², 0.554 mΩ; IEC 60228 class 5) = 10.754 V.
    const turned = (lowest: string) =>
      `${starter(100, `, for 2 s, lowest ${lowest}`, '10 mm²')}case start STARTER on, conductors at 20 °C\n`;
    expect(slugs(turned('10.75 V'))).toEqual([]);
    const [found, ...others] = findings(turned('10.76 V'));
    expect([found?.slug, found?.subject, found?.severity, others]).toEqual(['drop-over-limit', 'W1', 'warning', []]);
    expect(found?.figures.volts).toBeCloseTo(12 - 100 * (0.01 + 0.00191 + 0.000554), 6);
    expect(found?.message).toContain('STARTER gets 10.75 V while it cranks and works down to 10.76 V');
    // 11 V is all that the battery has at 100 A: no cable helps.
    expect(slugs(turned('11.1 V'))).toEqual([]);
    expect(slugs(turned('10.99 V'))).toEqual(['drop-over-limit W1 warning']);
  });

  it('does not turn because all loads are on, so that nothing else is said to want for voltage', () => {
    const spec = `${starter(300, ', for 4 s', '35 mm²')}load LAMP 12 W, lowest 11 V
fuse F1 5 A, blade, 32 V, breaks 3 kA
run W3 1.5 mm² red, 0.1 m, B1:+ to F1:in
run W4 1.5 mm² red, 1 m, F1:out to LAMP:+
run W5 1.5 mm² black, 1 m, LAMP:- to B1:-
`;
    expect(slugs(spec)).toEqual([]);
    expect(slugs(`${spec}case all-on all loads on\n`)).toEqual([]);
    expect(slugs(`${spec}case start all loads on, STARTER on\n`)).toEqual(['load-below-lowest-voltage LAMP warning']);
  });

  it('goes through a fuse that holds it', () => {
    const fused = (rating: number) => `battery B1 lead-acid, 12 V, 80 Ah, internal 10 mΩ
fuse F1 ${rating} A, bolt-in, 58 V, breaks 3 kA
load STARTER 200 A, cranking, for 2 s
run W1 35 mm² red, 0.3 m, B1:+ to F1:in
run W2 35 mm² red, 1 m, F1:out to STARTER:+
run W3 35 mm² black, 1 m, STARTER:- to B1:-
`;
    expect(slugs(fused(125))).toEqual([]);
    expect(slugs(fused(50))).toEqual(['fuse-below-load F1 advice']);
    expect(slugs(fused(30))).toEqual(['fuse-below-load F1 warning']);
  });
});
