/** Fuses put in where a finding asks for them: what is written, and that it mends in every sample and good system. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it, test } from 'vitest';
import type { Analysis } from '../../../server/analysis.ts';
import { codeActions } from '../../../server/editor/code-actions.ts';
import { allRules } from '../../../server/rules/all.ts';
import { withoutMarkers } from '../../../server/rules/pages.ts';
import type { Finding } from '../../../server/rules/rule.ts';
import { analyseText } from '../../analysed.ts';
import { differences } from '../../answers/differences.ts';
import { editedFiles } from '../editing.ts';
import { type Offering, offering, optionsFor, titles } from './offering.ts';

const put = (found: Offering) => titles(found).filter((title) => title.startsWith('Put '));
const slugs = (text: string) => analyseText(text).findings.map(({ slug }) => slug);

/** A lamp whose cable has no fuse yet. */
const hut = (feed: string, more = '') => `system "Hut" 12 V
    ambient 30 °C

place SHED  30 °C
place LOFT  45 °C
enclosure TUB  plastic, IP54, at SHED
battery B1  agm, 12 V, 60 Ah, internal 15 mΩ, at SHED
load LAMP   36 W, at LOFT
${more}
${feed}
`;
const back = 'run W9  2.5 mm² black, 3 m, LAMP:- to B1:-';

describe('a fuse for a cable that has none', () => {
  const kind = 'quickfix';

  it('stands close to the battery, with a lead that is taken from the cable, which keeps its name and remarks', () => {
    const found = offering(
      hut(
        `# the feed\nrun |W1 "Lamp"  2.5 mm² red, 3 m, along SHED 1 m and LOFT 2 m, B1:+ to LAMP:+  # by hand\n${back}`,
      ),
      kind,
    );
    expect(put(found)).toEqual(['Put fuse F1 into W1, 0.1 m from B1: 4 A, blade, 32 V, breaks 1 kA; W2 leads there']);
    const mended = hut(`fuse F1  4 A, blade, 32 V, breaks 1 kA, at SHED
run W2  2.5 mm² red, 0.1 m, along SHED 0.1 m, B1:+ to F1:in
# the feed
run W1 "Lamp"  2.5 mm² red, 2.9 m, along SHED 0.9 m and LOFT 2 m, F1:out to LAMP:+  # by hand
${back}`);
    expect(found.chosen('Put')).toBe(mended);
    expect(slugs(mended)).not.toContain('supply-unfused');
  });

  it('is found whichever way the cable is written, and in its own unit', () => {
    const feed = 'run |W1  12 AWG red, 10 ft, LAMP:+ to B1:+\n';
    expect(offering(hut(feed + back), kind).chosen('Put')).toContain(
      'run W2  12 AWG red, 0.3 ft, F1:in to B1:+\nrun W1  12 AWG red, 9.7 ft, LAMP:+ to F1:out\n',
    );
  });

  it('is in the box that the cable leaves, whose wall the long piece passes', () => {
    const boxed = (feed: string) =>
      hut(`${feed}\n${back}\n    enters TUB by gland M12`).replace('15 mΩ, at SHED', '15 mΩ, in TUB');
    const mended = offering(
      boxed('run |W1  2.5 mm² red, 3 m, B1:+ to LAMP:+\n    enters TUB by gland M12  # left'),
      kind,
    ).chosen('Put');
    expect(mended).toBe(
      boxed(`fuse F1  4 A, blade, 32 V, breaks 1 kA, in TUB
run W2  2.5 mm² red, 0.1 m, B1:+ to F1:in
run W1  2.5 mm² red, 2.9 m, F1:out to LAMP:+
    enters TUB by gland M12  # left`),
    );
  });

  it('is put into the one conductor of a sheathed cable that wants it, with a lead of its own', () => {
    const feed = `run |W1  = twin, 3 m
    red    B1:+ to LAMP:+  # above
    black  LAMP:- to B1:-`;
    const stock = 'stock twin  cable 2 x 2.5 mm², class 5, 105 °C, od 7 mm\n';
    const found = offering(hut(feed, stock), kind);
    expect(put(found)).toEqual([
      'Put fuse F1 into W1, 0.1 m from B1: 4 A, blade, 32 V, breaks 1 kA; W2 leads there, which adds 0.1 m',
    ]);
    expect(found.chosen('Put')).toBe(
      hut(
        `fuse F1  4 A, blade, 32 V, breaks 1 kA, at SHED
run W2  2.5 mm² red, class 5, 105 °C, 0.1 m, B1:+ to F1:in
run W1  = twin, 3 m
    red    F1:out to LAMP:+  # above
    black  LAMP:- to B1:-`,
        stock,
      ),
    );
  });

  it('keeps what others say of the cable true: it is still called so', () => {
    const others = `run W1  2.5 mm² red, 3 m, B1:+ to LAMP:+\n${back}, bunched with W1\nexpect W1 drop at most 3 %\n`;
    const mended = offering(hut(others.replace('run W1', 'run |W1')), kind).chosen('Put');
    expect(mended).toContain('bunched with W1\nexpect W1 drop at most 3 %');
    expect(slugs(mended)).toEqual(slugs(hut(others)).filter((slug) => slug !== 'supply-unfused'));
  });

  it('is strong enough for the battery, and for its voltage', () => {
    const strong = (volts: number, cells: number) =>
      hut(`run |W1  2.5 mm² red, 3 m, B1:+ to LAMP:+\n${back}`)
        .replace('12 V\n', `${volts} V\n`)
        .replace('agm, 12 V, 60 Ah, internal 15 mΩ', `lithium-iron-phosphate, ${cells} V, 200 Ah, internal 4 mΩ`);
    expect(put(offering(strong(12, 12.8), kind))[0]).toContain(': 4 A, cartridge, 125 V, breaks 10 kA;');
    expect(put(offering(strong(48, 51.2), kind))[0]).toContain(': 1 A, cartridge, 125 V, breaks 20 kA;');
    // What no fuse of the tables breaks has none that could be named.
    expect(put(offering(strong(48, 51.2).replace('4 mΩ', '1 mΩ'), kind))).toEqual([]);
  });

  it('is at each battery of a cable between two', () => {
    const two = 'battery B2  agm, 12 V, 60 Ah, internal 15 mΩ, at LOFT\nrun W2  16 mm² black, 3 m, B2:- to B1:-\n';
    const spec = hut('relay K1  coil 12 V 150 mA, contact 200 A\nrun |W1  16 mm² red, 4 m, B1:+ to B2:+', two).replace(
      '\nrelay K1  coil 12 V 150 mA, contact 200 A',
      '',
    );
    const found = offering(spec, kind);
    expect(put(found)).toEqual([
      'Put fuses F1 and F2 into W1, 0.1 m from B1 and B2: 60 A, bolt-in, 58 V, breaks 2 kA each; W3 and W4 lead there',
    ]);
    expect(found.chosen('Put')).toContain(`run W3  16 mm² red, 0.1 m, B1:+ to F1:in
fuse F2  60 A, bolt-in, 58 V, breaks 2 kA, at LOFT
run W4  16 mm² red, 0.1 m, F2:in to B2:+
run W1  16 mm² red, 3.8 m, F1:out to F2:out
`);
  });

  it('is smaller than what its cable, a switch and an appliance behind it may have', () => {
    const parts = (most: string) =>
      `switch S1  1 pole, 10 A dc, 24 V, at LOFT\nload PUMP   5 A${most}, at LOFT\nrun W4  2.5 mm² black, 3 m, PUMP:- to B1:-\n`;
    const feed = 'run |W1  2.5 mm² red, 3 m, B1:+ to S1:1\nrun W2  2.5 mm² red, 0.2 m, S1:2 to PUMP:+';
    expect(put(offering(hut(feed, parts('')), kind))[0]).toContain(': 7.5 A, blade');
    expect(put(offering(hut(feed, parts(', most fuse 5 A')), kind))[0]).toContain(': 5 A, blade');
    expect(put(offering(hut(feed, parts(', most fuse 3 A')), kind))).toEqual([]);
    expect(put(offering(hut(feed, parts('').replace('10 A dc', '4 A dc')), kind))).toEqual([]);
  });

  it('is not offered where none would mend it: a way round it, a size that is not known, a cable of another file', () => {
    const none = (feed: string, more = '') => expect(put(offering(hut(feed, more), kind))).toEqual([]);
    none(`run |W1  2.5 mm² red, 3 m, B1:+ to LAMP:+\nrun W2  2.5 mm² red, 3 m, B1:+ to LAMP:+\n${back}`);
    none(`run |W1  ? mm² red, 3 m, B1:+ to LAMP:+\n${back}`);
    none(`run |W1  2.5 mm² red, ? m, B1:+ to LAMP:+\n${back}`);
    // No fuse carries the load and protects the cable.
    none(`run |W1  0.5 mm² red, 3 m, B1:+ to LAMP:+\n${back}`.replaceAll('LAMP', 'OVEN'), 'load OVEN  400 W\n');
  });
});

const files = { 'stock.amps': readFileSync('samples/stock.amps', 'utf8') };
const all = [
  ...readdirSync('tests/good-systems').map((name) => `tests/good-systems/${name}`),
  ...readdirSync('samples').map((name) => `samples/${name}`),
].filter((name) => name.endsWith('.amps') && !name.includes('as-found') && !name.includes('stock'));

const mended: ReadonlySet<string> = new Set([
  'supply-unfused',
  'protection-too-far',
  'both-ends-need-protection',
  'bank-fuse-each',
  'string-fuse-needed',
  'controller-output-unfused',
  'cable-too-small',
  'fuse-above-appliance',
]);

const key = ({ slug, subject }: Finding) => `${slug} ${subject ?? ''}`;
const serious = ({ findings }: Analysis) => findings.filter(({ severity }) => severity !== 'advice');
const metres = ({ model }: Analysis) =>
  [...model.runs.values()].reduce((sum, { lengthMetres = 0 }) => sum + lengthMetres, 0);

/** Every fuse that findings of a spec offer, applied: each mends its finding and brings nothing serious. */
function applyEach(text: string, own: Readonly<Record<string, string>>, where: string): string[] {
  const before = analyseText(text, own);
  const applied: string[] = [];
  for (const finding of before.findings.filter(({ slug }) => mended.has(slug))) {
    const actions = codeActions(before, finding.place.span, { ...optionsFor(own), only: ['quickfix'] }).filter(
      ({ title, diagnostics }) => title.startsWith('Put ') && diagnostics?.[0]?.code === finding.slug,
    );
    for (const { title, edit } of actions) {
      const after = analyseText(editedFiles({ ...own, 'spec.amps': text }, edit)['spec.amps'] ?? '', own);
      const had = new Set(before.findings.map(key));
      expect([
        where,
        title,
        serious(after)
          .filter((one) => !had.has(key(one)))
          .map(key),
      ]).toEqual([where, title, []]);
      expect(after.findings.map(key), `${where}: ${title}`).not.toContain(key(finding));
      const more = title.includes('which adds') ? 0.11 : 1e-9;
      const added = metres(after) - metres(before);
      expect([where, title, added > -1e-9 && added < more]).toEqual([where, title, true]);
      const comments = (of: Analysis) => of.tree.statements.flatMap(({ node }) => node.comments.map((one) => one.text));
      expect(comments(after).sort()).toEqual(comments(before).sort());
      for (const [load, { designAmps, dropVolts }] of before.answers.loads) {
        const now = after.answers.loads.get(load);
        expect(differences({ designAmps }, { designAmps: now?.designAmps })).toEqual([]);
        // A lead more in a sheathed cable, or a bank that is fused, may lose a little more.
        expect(Math.abs((now?.dropVolts ?? Number.NaN) - dropVolts)).toBeLessThan(0.02);
      }
      applied.push(key(finding));
    }
    if (actions.length === 0) applied.push(`none: ${key(finding)}`);
  }
  return applied;
}

/** A fuse taken out, and what it joined joined by a splice. */
function without(text: string, name: string): string {
  const own = new RegExp(`^fuse\\s+(?:[^\\n,]*\\band\\s+)?${name}\\b`, 'mu').exec(text);
  if (own === null) throw new Error(`no fuse ${name}`);
  const list = /^fuse\s+((?:[\w-]+\s*,\s*|[\w-]+\s+and\s+)*[\w-]+)/u.exec(text.slice(own.index))?.[1] ?? name;
  const others = list.split(/\s*,\s*|\s+and\s+/u).filter((one) => one !== name);
  const statement = /^.*\n(?:[ \t]+.*\n)*/u.exec(text.slice(own.index))?.[0] ?? '';
  const rest = others.length === 0 ? '' : statement.replace(list, others.join(' and '));
  return text.replace(statement, `splice ${name}\n${rest}`).replace(new RegExp(`\\b${name}:(?:in|out)\\b`, 'gu'), name);
}

/** What wants a decision: leads between batteries, or one that several sources feed from either end. */
const undecided: Readonly<Record<string, readonly string[]>> = {
  'tests/good-systems/bank-48-v.amps': ['none: cable-too-small W5', 'none: cable-too-small W6'],
  'tests/good-systems/long-van.amps': [1, 3, 5, 2, 4, 6].map((run) => `none: cable-too-small W${run}`),
  'tests/good-systems/small-camper.amps': ['none: cable-too-small W12'],
};

describe.each(all)('%s', (name) => {
  it('without any one of its fuses, is mended by putting one in', () => {
    const text = withoutMarkers(readFileSync(name, 'utf8'));
    const whole = analyseText(text, files);
    const names = [...whole.model.parts.values()].flatMap((part) =>
      part.kind.word === 'fuse' && part.origin.file.uri === whole.uri ? part.name : [],
    );
    expect(names.length).toBeGreaterThan(0);
    const left = names.flatMap((one) =>
      applyEach(without(text, one), files, `${name} without ${one}`).filter((done) => done.startsWith('none: ')),
    );
    expect(left).toEqual(undecided[name] ?? []);
  }, 120_000);
});

test('of what rules show as wrong, as many as a fuse can mend are', () => {
  const done = allRules
    .filter(({ slug }) => mended.has(slug))
    .flatMap(({ slug, page }) =>
      page.wrong.flatMap(({ spec, files: own = {} }, i) => applyEach(withoutMarkers(spec), own, `${slug} ${i}`)),
    );
  expect(done.filter((one) => !one.startsWith('none: '))).toEqual([
    'bank-fuse-each W2',
    'both-ends-need-protection W9',
    'both-ends-need-protection W9',
    'cable-too-small W6',
    'controller-output-unfused U1',
    'protection-too-far W1',
    'protection-too-far W1',
    'string-fuse-needed P1',
    'supply-unfused W1',
    'supply-unfused W6',
    'supply-unfused W4',
  ]);
  // Of these the cable, or the rating of the only device, is what is wrong.
  expect(new Set(done.filter((one) => one.startsWith('none: ')).map((one) => one.split(' ')[1]))).toEqual(
    new Set(['cable-too-small', 'fuse-above-appliance']),
  );
});
