import { describe, expect, it } from 'vitest';
import { allRules } from '../../server/rules/all.ts';
import type { Rule, RuleContext } from '../../server/rules/rule.ts';
import { runRules } from '../../server/rules/run.ts';
import { analyseText, slugs, specUri } from '../analysed.ts';
import { applied } from './applied.ts';

const lamp = (fuse: string, ...more: string[]) =>
  [
    'system "Shed" 12 V',
    'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
    `fuse F1 ${fuse}, blade, 32 V`,
    'load LAMP 12 W',
    'run W1 10 mm² red, 0.1 m, B1:+ to F1:in',
    'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+',
    'run W3 10 mm² black, 1.3 m, LAMP:- to B1:-',
    ...more,
    '',
  ].join('\n');

const some = allRules.find(({ slug }) => slug === 'cable-too-small') as Rule;
const check = (context: RuleContext) => some.check?.(context) ?? [];
const throwing = (fails: typeof check): Rule => ({ ...some, slug: 'made-to-fail', check: fails });

describe('a rule that throws', () => {
  const { model, answers, findings } = analyseText(lamp('30 A'));

  it.each([
    [
      'at once',
      () => {
        throw new Error('no such table');
      },
    ],
    [
      'in the middle',
      function* (): Generator<never> {
        yield* [];
        throw new Error('no such table');
      },
    ],
    [
      'something that is no error',
      () => {
        throw 'no such table';
      },
    ],
  ] as const)('%s gives one finding rule-failed, and the others stay', (_, check) => {
    const list = [throwing(check), ...allRules];
    const { findings: found } = runRules({ model, answers }, list);
    const [failed, ...more] = found.filter(({ slug }) => slug === 'rule-failed');
    expect(more).toEqual([]);
    expect(failed?.severity).toBe('warning');
    expect(failed?.figures).toEqual({ rule: 'made-to-fail' });
    expect(failed?.place.uri).toBe(specUri);
    expect(failed?.message).toContain('made-to-fail');
    expect(failed?.message).toContain('no such table');
    expect(failed?.message).not.toMatch(/\n|at .*\.ts|Error:/);
    expect(found.filter(({ slug }) => slug !== 'rule-failed')).toEqual(findings);
    expect(findings.map(({ slug }) => slug)).toEqual(['cable-too-small']);
  });

  it('keeps what it found before', () => {
    const rule = throwing(function* (context) {
      yield* check(context);
      throw new Error('no such table');
    });
    const { findings: found } = runRules({ model, answers }, [rule]);
    expect(found.map(({ slug }) => slug)).toEqual(['rule-failed', 'made-to-fail']);
  });

  it('in an empty file has a place all the same', () => {
    const empty = analyseText('');
    const rule = throwing(() => {
      throw new Error('no such table');
    });
    const { findings: found } = runRules({ model: empty.model, answers: empty.answers }, [rule]);
    expect(found.map(({ slug, place }) => [slug, place.span])).toEqual([['rule-failed', { start: 0, end: 0 }]]);
  });
});

describe('allow', () => {
  it('accepts a finding on its subject, with a reason', () => {
    const { findings, accepted } = analyseText(lamp('30 A', 'allow cable-too-small on W2 "bench test, one hour"'));
    expect(findings).toEqual([]);
    expect(accepted.map(({ slug, subject }) => [slug, subject])).toEqual([['cable-too-small', 'W2']]);
  });

  it('without “on” accepts it in the whole file', () => {
    const { findings, accepted } = analyseText(lamp('30 A', 'allow cable-too-small "bench test"'));
    expect(findings).toEqual([]);
    expect(accepted.length).toBe(1);
  });

  it('on another subject accepts nothing, and says so', () => {
    expect(slugs(lamp('30 A', 'allow cable-too-small on W1 "bench test"'))).toEqual([
      'cable-too-small',
      'allow-unused',
    ]);
  });

  it('that no longer matches is a finding with a fix', () => {
    const { findings } = analyseText(lamp('5 A', 'allow cable-too-small on W2 "bench test"'));
    expect(findings.map(({ slug, subject, severity }) => [slug, subject, severity])).toEqual([
      ['allow-unused', 'W2', 'warning'],
    ]);
    expect(findings[0]?.fixes.map(({ title, safe }) => [title, safe])).toEqual([['Take this allow out', false]]);
  });

  it.each([
    ['its subject is misspelt', 'on W2', 'on WW2'],
    ['its subject is noted out', 'run W2', '#run W2'],
    ['a unit cannot be read', '12 W', '12 Q'],
    ['a kind cannot be read', 'battery B1', 'batery B1'],
    ['a load is not known yet', '12 W', '? W'],
    ['a length is not known yet', '1.2 m', '? m'],
    ['a place has a blank', 'load LAMP 12 W', 'place SHED ? °C\nload LAMP 12 W, at SHED'],
    ['what draws the current is noted out', 'load', '# load'],
    ['a run ends nowhere', 'F1:out to LAMP:+', 'F1:out to LAMP:x'],
    ['a run is half written', 'F1:out to LAMP:+', 'F1:out to'],
    ['another file is missing', 'battery B1', 'use "gone.amps"\nbattery B1'],
    ['nothing feeds the spec', /^battery.*\n/mu, ''],
    ['a battery is the wrong way round', 'B1:+ to F1:in', 'B1:- to F1:in'],
    ['a battery is shorted', 'F1:out to LAMP:+', 'F1:out to B1:-'],
  ])('is not told of as unused while %s', (_, from, to) => {
    const spec = lamp('5 A', 'allow cable-too-small on W2 "bench test"');
    expect(slugs(spec)).toEqual(['allow-unused']);
    const broken = spec.replace(from, to);
    expect(broken).not.toBe(spec);
    expect(slugs(broken)).not.toContain('allow-unused');
  });

  it('is told of as unused beside what leaves nothing unknown', () => {
    const spec = lamp('5 A', 'allow cable-too-small on W2 "bench test?"');
    expect(slugs(spec.replace('5 A', '30 A').replace('on W2', 'on W3'))).toEqual(['cable-too-small', 'allow-unused']);
    // A question in a title or a remark is no blank.
    expect(slugs(`${spec}place SHED "cold?" 10 °C # or 5 °C?\n`)).toEqual(['allow-unused']);
  });

  it('is taken out without its remarks becoming notes of the next statement', () => {
    const taken = (text: string) => {
      const fix = analyseText(text).findings.find(({ slug }) => slug === 'allow-unused')?.fixes[0];
      return applied({ 'spec.amps': text }, fix?.edits ?? [])['spec.amps'];
    };
    const allow = 'allow cable-too-small on LAMP "bench"';
    const load = 'load LAMP  9 W\n';
    expect(taken(`# why\n${allow}  # soon\n${load}`)).toBe(`# why\n# soon\n\n${load}`);
    expect(taken(`${allow}  # soon\n# bought new\n${load}`)).toBe(`# soon\n\n# bought new\n${load}`);
    expect(taken(`${allow}\n${load}`)).toBe(load);
    expect(taken(`# why\n${allow}\n\n${load}`)).toBe(`# why\n\n${load}`);
    expect(taken(`${load}# why\r\n${allow}  # soon\r\n`)).toBe(`${load}# why\r\n# soon\r\n`);
  });

  it('without a reason accepts nothing and asks for one', () => {
    const { findings, accepted } = analyseText(lamp('30 A', 'allow cable-too-small on W2'));
    expect(accepted).toEqual([]);
    expect(findings.map(({ slug }) => slug)).toEqual(['cable-too-small', 'missing-required-clause']);
    expect(findings[1]?.message).toMatch(/reason|why/);
  });

  it('with an empty reason asks for one too', () => {
    const { findings, accepted } = analyseText(lamp('30 A', 'allow cable-too-small on W2 "  "'));
    expect(accepted).toEqual([]);
    expect(findings.map(({ slug }) => slug)).toContain('cable-too-small');
  });

  it('of a slug there is not offers the near one', () => {
    const { findings } = analyseText(lamp('5 A', 'allow cable-to-small on W2 "bench test"'));
    expect(findings.map(({ slug }) => slug)).toEqual(['allow-unknown']);
    expect(findings[0]?.fixes[0]?.title).toBe('Write cable-too-small');
  });

  it('cannot hide that a check failed', () => {
    const { model, answers } = analyseText(lamp('5 A', 'allow rule-failed "never mind"'));
    const rule = throwing(() => {
      throw new Error('no such table');
    });
    const { findings } = runRules({ model, answers }, [rule, ...allRules]);
    expect(findings.map(({ slug }) => slug)).toContain('rule-failed');
  });
});
