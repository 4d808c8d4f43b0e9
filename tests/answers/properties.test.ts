/**
 * Laws of the whole way from text to answers, over random vans: names, order and units change nothing; current is conserved;
 * scaling scales; more copper and more cold never make it worse.
 */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Analysis } from '../../server/analysis.ts';
import type { CaseAnswer } from '../../server/answers/answers.ts';
import { type AnswersJson, answersJson } from '../../server/answers/answers-json.ts';
import { analyseText } from '../analysed.ts';
import { byName, differences } from './differences.ts';
import { type RandomVan, sizes, statementsOf, textOf, vans } from './random-specs.ts';

function sound(text: string, files?: Readonly<Record<string, string>>): Analysis {
  const analysis = analyseText(text, files);
  const wrong = analysis.model.problems.filter(({ slug }) => slug !== 'terminal-unconnected');
  if (wrong.length > 0) throw new Error(wrong.map(({ message }) => message).join('\n'));
  return analysis;
}

const json = (text: string): AnswersJson => answersJson(sound(text).answers);

/** What was found, with the figures, by place in no order. */
const found = ({ findings }: Analysis) =>
  findings.map(({ slug, subject, severity }) => `${slug} ${subject} ${severity}`).sort();

function now(van: RandomVan, cold = false): CaseAnswer {
  const [one] = sound(textOf(van, { cold })).answers.cases;
  if (one === undefined) throw new Error('there is no case');
  return one;
}

describe('nothing changes', () => {
  it('when the statements of a random van change places', () => {
    fc.assert(
      fc.property(vans(), fc.infiniteStream(fc.nat()), (van, numbers) => {
        const lines = statementsOf(van);
        const shuffled = lines
          .map((line) => ({ line, at: numbers.next().value ?? 0 }))
          .sort((a, b) => a.at - b.at)
          .map(({ line }) => line);
        const [one, other] = [sound(`${lines.join('\n')}\n`), sound(`${shuffled.join('\n')}\n`)];
        expect(differences(byName(answersJson(one.answers)), byName(answersJson(other.answers)))).toEqual([]);
        expect(found(other)).toEqual(found(one));
      }),
      { numRuns: 60 },
    );
  });

  it('when everything gets another name', () => {
    fc.assert(
      fc.property(vans(1), (van) => {
        const text = textOf(van);
        // Which negative is 0 V goes by name, so there is one battery.
        const renamed = text.replace(/\b(B|M|F|L|W)(\d+)\b/gu, (_, letter, number) => `${letter}x${1000 - number}`);
        const back = JSON.stringify(json(renamed)).replace(
          /\b(B|M|F|L|W)x(\d+)\b/gu,
          (_, letter, number) => `${letter}${1000 - number}`,
        );
        expect(differences(byName(json(text)), byName(JSON.parse(back) as AnswersJson))).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });

  it('when lengths and temperatures are said in feet and °F', () => {
    fc.assert(
      fc.property(vans(), (van) => {
        const other = textOf(van, { feet: true });
        expect(other).toMatch(/ ft/u);
        expect(differences(json(textOf(van)), json(other))).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });
});

const body = 'the body';

/** By node that nothing resists, the sum of currents that arrive, and the greatest of them. */
function arriving(analysis: Analysis, answer: CaseAnswer): { readonly rest: number; readonly greatest: number }[] {
  const sums = new Map<string, { rest: number; greatest: number }>();
  const add = (id: string | undefined, amps: number) => {
    if (id === undefined) return;
    const part = analysis.model.terminals.get(id)?.part;
    // The vehicle's body is one node, wherever something is bolted to it.
    const terminal = part?.kind.word === 'chassis' ? body : id;
    const one = sums.get(terminal) ?? { rest: 0, greatest: 0 };
    sums.set(terminal, { rest: one.rest + amps, greatest: Math.max(one.greatest, Math.abs(amps)) });
  };
  for (const { core, amps } of answer.cores) {
    add(core.from?.id, -amps);
    add(core.to?.id, amps);
  }
  for (const { part, pole, amps, closed } of answer.contacts) {
    const contact = part.contacts.find((one) => one.pole === pole);
    if (contact === undefined || !closed) continue;
    add(`${part.name}:${contact.from}`, -amps);
    add(`${part.name}:${contact.to}`, amps);
  }
  for (const { part, amps = 0 } of answer.parts.values()) {
    const into = part.kind.behaviour.is === 'load' ? amps : part.kind.behaviour.is === 'battery' ? -amps : undefined;
    if (into === undefined) continue;
    add(`${part.name}:+`, -into);
    add(`${part.name}:-`, into);
  }
  // Poles that bars join share their current among themselves: each bar carries some, and has no figure.
  const barred = new Set(analysis.model.bars.map(({ part }) => part));
  // Of other parts the figures here do not tell every terminal's current.
  const told = (terminal: string) => {
    if (terminal === body) return true;
    const part = analysis.model.terminals.get(terminal)?.part;
    return part !== undefined && !barred.has(part) && ['battery', 'load', 'none'].includes(part.kind.behaviour.is);
  };
  return [...sums].filter(([terminal]) => told(terminal)).map(([, sum]) => sum);
}

describe('current is conserved', () => {
  it('at every node of random vans, within a milliardth', () => {
    fc.assert(
      fc.property(vans(3), (van) => {
        const analysis = sound(textOf(van));
        for (const answer of analysis.answers.cases) {
          expect(answer.converged).toBe(true);
          const nodes = arriving(analysis, answer);
          expect(nodes.length).toBeGreaterThan(8);
          const greatest = Math.max(1, ...nodes.map((node) => node.greatest));
          expect(nodes.filter(({ rest }) => Math.abs(rest) > 1e-9 * greatest)).toEqual([]);
        }
      }),
      { numRuns: 80 },
    );
  });

  it.each([
    'first-lamp',
    'spokewagon',
    'orchard-cabin',
    'spokewagon-as-found',
    'towpath-kiosk',
    'ridge-hut',
    'tuning-van',
    'whetstone',
  ])('at every node of %s', (name) => {
    const stock = { 'stock.amps': readFileSync('samples/stock.amps', 'utf8') };
    const analysis = analyseText(readFileSync(`samples/${name}.amps`, 'utf8'), stock);
    let count = 0;
    for (const answer of analysis.answers.cases.filter(({ converged }) => converged)) {
      const nodes = arriving(analysis, answer).filter(({ greatest }) => greatest > 0);
      count += nodes.length;
      const greatest = Math.max(1, ...nodes.map((node) => node.greatest));
      expect(nodes.filter(({ rest }) => Math.abs(rest) > 1e-9 * greatest)).toEqual([]);
      expect(answer.residual).toBeLessThan(1e-9);
    }
    expect(count).toBeGreaterThan(2);
  });
});

describe('scaling', () => {
  it('every resistance k times and every load a kth leaves the voltages, and gives a kth of the currents', () => {
    fc.assert(
      fc.property(vans(), fc.double({ min: 0.2, max: 5, noNaN: true }), (van, k) => {
        const scaled: RandomVan = {
          ...van,
          batteries: van.batteries.map((one) => ({ ...one, milliohms: one.milliohms * k })),
          runs: van.runs.map((run) => ({ ...run, metres: run.metres * k })),
          loads: van.loads.map((one) => ({ ...one, value: one.unit === 'Ω' ? one.value * k : one.value / k })),
        };
        const [one, other] = [now(van, true), now(scaled, true)];
        expect([one.converged, other.converged]).toEqual([true, true]);
        for (const [terminal, volts] of one.volts)
          expect(Math.abs((other.volts.get(terminal) ?? Number.NaN) - volts)).toBeLessThan(1e-8);
        one.cores.forEach(({ amps }, i) => {
          expect(Math.abs((other.cores[i]?.amps ?? Number.NaN) * k - amps)).toBeLessThan(1e-7 * Math.max(1, k));
        });
      }),
      { numRuns: 60 },
    );
  });
});

/** A resistance takes more from a stiffer supply, and so may well lower its neighbours: with these the laws do not hold. */
const withoutResistances = (van: RandomVan): RandomVan => ({
  ...van,
  loads: van.loads.map((one) => (one.unit === 'Ω' ? { ...one, unit: 'A', value: 12 / one.value } : one)),
});

describe('more copper', () => {
  it('in any one run never raises the drop of a load, where one battery feeds all', () => {
    fc.assert(
      fc.property(vans(1).map(withoutResistances), fc.nat(), fc.integer({ min: 1, max: 2 }), (van, which, more) => {
        const at = which % van.runs.length;
        const thicker: RandomVan = {
          ...van,
          runs: van.runs.map((run, i) =>
            i === at ? { ...run, size: Math.min(sizes.length - 1, run.size + more) } : run,
          ),
        };
        const [one, other] = [sound(textOf(van)).answers, sound(textOf(thicker)).answers];
        expect(one.loads.size).toBe(van.loads.length);
        for (const [load, { dropVolts }] of one.loads)
          expect(other.loads.get(load)?.dropVolts).toBeLessThanOrEqual(dropVolts + 1e-9);
      }),
      { numRuns: 80 },
    );
  });
});

describe('hotter', () => {
  it('surroundings never raise a capacity nor lower a drop, under any set', () => {
    fc.assert(
      fc.property(vans(1).map(withoutResistances), fc.double({ min: 0.1, max: 40, noNaN: true }), (van, more) => {
        const hot = { ...van, place: van.place + more, ambient: van.ambient + more };
        const [one, other] = [sound(textOf(van)).answers, sound(textOf(hot)).answers];
        const after = new Map([...other.cores.values()].map(({ core, capacity }) => [core.run.name, capacity?.amps]));
        for (const { core, capacity } of one.cores.values())
          expect(after.get(core.run.name)).toBeLessThanOrEqual((capacity?.amps ?? Number.NaN) + 1e-9);
        for (const [load, { dropVolts }] of one.loads)
          expect(other.loads.get(load)?.dropVolts).toBeGreaterThanOrEqual(dropVolts - 1e-9);
      }),
      { numRuns: 80 },
    );
  });
});
