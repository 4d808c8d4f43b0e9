/** How serious findings are told to be, and the settings that say so. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { allRules } from '../../server/rules/all.ts';
import { listedIn, listPage } from '../../server/rules/generate-list.ts';
import { manifestText } from '../../server/rules/generate-settings.ts';
import type { Finding, Severity } from '../../server/rules/rule.ts';
import { levelsFor, readSeverities, withLevels } from '../../server/rules/severities.ts';

const finding = (slug: string, severity: Severity): Finding => ({
  slug,
  severity,
  message: '',
  place: { uri: 'file:///van/old/a.amps', span: { start: 0, end: 0 } },
  subject: 'W1',
  figures: {},
  related: [],
  fixes: [],
});

const told = (severity: object, ...findings: Finding[]) =>
  withLevels(findings, readSeverities({ severity }).everywhere).map((one) => `${one.slug} ${one.severity}`);

describe('a finding', () => {
  it('is told as the settings say', () => {
    const small = finding('cable-too-small', 'error');
    const drop = finding('drop-over-limit', 'warning');
    expect(told({}, small, drop)).toEqual(['cable-too-small error', 'drop-over-limit warning']);
    expect(told({ 'cable-too-small': 'warning' }, small, drop)).toEqual([
      'cable-too-small warning',
      'drop-over-limit warning',
    ]);
    expect(told({ 'drop-over-limit': 'error' }, small, drop)).toEqual([
      'cable-too-small error',
      'drop-over-limit error',
    ]);
    expect(told({ 'cable-too-small': 'off', 'drop-over-limit': 'advice' }, small, drop)).toEqual([
      'drop-over-limit advice',
    ]);
  });

  it('that its rule tells as less than usual stays at most that', () => {
    const mild = finding('cable-too-small', 'advice');
    expect(told({ 'cable-too-small': 'error' }, mild)).toEqual(['cable-too-small advice']);
    expect(told({ 'cable-too-small': 'warning' }, mild)).toEqual(['cable-too-small advice']);
    expect(told({ 'cable-too-small': 'off' }, mild)).toEqual([]);
    const milder = finding('cable-too-small', 'warning');
    expect(told({ 'cable-too-small': 'advice' }, milder)).toEqual(['cable-too-small advice']);
  });

  it('that something failed is always told', () => {
    expect(told({ 'rule-failed': 'off' }, finding('rule-failed', 'warning'))).toEqual(['rule-failed warning']);
  });
});

describe('settings', () => {
  it.each([
    ['*.amps', true],
    ['a.amps', true],
    ['old/*.amps', true],
    ['/van/old/a.amps', true],
    ['van/**/a.amps', true],
    ['van/**', true],
    ['**/a.amps', true],
    ['van/*.amps', false],
    ['ld/a.amps', false],
    ['?.amps', true],
    ['b*.amps', false],
    ['a.amp', false],
    ['a+amps', false],
  ])('for %s hold in van/old/a.amps: %j', (pattern, fits) => {
    const settings = readSeverities({
      severity: { 'cable-too-small': 'warning', 'drop-over-limit': 'off' },
      severityByFile: { [pattern]: { 'cable-too-small': 'advice' } },
    });
    expect(levelsFor(settings, 'file:///van/old/a.amps')).toEqual({
      'cable-too-small': fits ? 'advice' : 'warning',
      'drop-over-limit': 'off',
    });
  });

  it('with a space or an odd letter in the path hold too', () => {
    const settings = readSeverities({ severityByFile: { 'my vän/*.amps': { 'cable-too-small': 'off' } } });
    expect(levelsFor(settings, 'file:///my%20v%C3%A4n/a.amps')).toEqual({ 'cable-too-small': 'off' });
    expect(levelsFor(settings, 'file:///%/a.amps')).toEqual({});
  });

  it.each([
    undefined,
    null,
    7,
    'off',
    [],
    { severity: 'off' },
    { severity: { 'cable-too-small': 'loud', nothing: 'off' } },
  ])('that make no sense change nothing: %j', (settings) => {
    expect(levelsFor(readSeverities(settings), 'file:///a.amps')).toEqual({});
  });
});

describe('what is made from the rules', () => {
  const manifest = readFileSync('package.json', 'utf8');

  it('is up to date: the settings in the manifest', () => {
    expect(manifest).toBe(manifestText(manifest));
    const { properties } = JSON.parse(manifest).contributes.configuration;
    const offered = properties['ampscribe.severity'];
    expect(offered).toMatchObject({ type: 'object', scope: 'resource', additionalProperties: false });
    expect(Object.keys(offered.properties)).toEqual(allRules.map(({ slug }) => slug));
    for (const { slug, severity } of allRules)
      expect(offered.properties[slug]).toMatchObject({
        default: severity,
        enum: ['off', 'advice', 'warning', 'error'],
      });
  });

  it('is up to date: the findings in the reference', () => {
    const notation = readFileSync('grammar/NOTATION.md', 'utf8');
    expect(notation).toBe(listedIn(notation));
    for (const { slug } of allRules) expect(notation).toContain(`| \`${slug}\` |`);
  });

  it('lists every page once', () => {
    const links = [...listPage().matchAll(/\]\(([a-z-]+)\.md\)/g)].map(([, slug]) => slug);
    expect(links.sort()).toEqual(allRules.map(({ slug }) => slug).sort());
  });

  it('has no place to stand in a page without its marks', () => {
    expect(() => listedIn('# A page\n')).toThrow('no place');
  });
});
