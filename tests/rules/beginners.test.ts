/** What people who begin write, and what they are told to write. */
import { expect, it } from 'vitest';
import { analyseText } from '../analysed.ts';

const found = (line: string, slug: string) =>
  analyseText(`system "Z" 12 V\nbattery B1 agm, 12 V, 60 Ah, internal 5 mΩ\n${line}\n`)
    .findings.filter((one) => one.slug === slug)
    .map(({ message, fixes }) => [message, ...fixes.map(({ title }) => title)]);

it('a converter from one voltage to another says what it gives', () => {
  expect(found('converter CV 24 V to 12 V, 10 A', 'unknown-clause')).toEqual([
    ['“24 V to 12 V” is two figures, where one is said (output voltage): leave the other out.', 'Write 12 V'],
  ]);
});

it('a fuse above all of its style may be of another', () => {
  const fuse = (style: string) =>
    found(
      `fuse F1 80 A, ${style}, 32 V, breaks 5 kA\nload LAMP 12 W\nrun W1 35 mm² red, 0.1 m, B1:+ to F1:in\nrun W2 35 mm² red, 1 m, F1:out to LAMP:+\nrun W3 35 mm² black, 1 m, LAMP:- to B1:-`,
      'fuse-odd-rating',
    );
  expect(fuse('blade')).toEqual([
    [
      'F1 is 80 A, but there is no blade fuse of that (ISO 8820-3): fit 40 A, or say maxi-blade, bolt-in or strip where it is that.',
      'Fit 40 A',
    ],
  ]);
  expect(fuse('maxi-blade')).toEqual([]);
});

it.each([
  ['35', ['35 has no unit: write 35 mm², as in “run W1 6 mm² red, 4.2 m, P1:+ to Q1:1”.', 'Write 35 mm²'], true],
  [
    '6',
    [
      '6 has no unit: write 6 mm² or 6 AWG, as in “run W1 6 mm² red, 4.2 m, P1:+ to Q1:1”.',
      'Write 6 mm²',
      'Write 6 AWG',
    ],
    false,
  ],
  ['14', ['14 has no unit: write 14 AWG, as in “run W1 6 mm² red, 4.2 m, P1:+ to Q1:1”.', 'Write 14 AWG'], false],
  ['2/0', ['2/0 has no unit: write 2/0 AWG, as in “run W1 6 mm² red, 4.2 m, P1:+ to Q1:1”.', 'Write 2/0 AWG'], true],
  ['7', ['7 has no unit: write it with one, as in “run W1 6 mm² red, 4.2 m, P1:+ to Q1:1”.'], undefined],
  ['2 x 35', ['35 has no unit: write 35 mm², as in “2 x 2.5 mm²”.', 'Write 35 mm²'], true],
])('a size of %s without its unit is offered as a size that there is', (size, told, safe) => {
  const line = `run W1 ${size} red, 1 m, B1:+ to B1:-`;
  expect(found(line, 'missing-unit')).toEqual([told]);
  const [one] = analyseText(line).findings.filter(({ slug }) => slug === 'missing-unit');
  expect(one?.fixes[0]?.safe).toBe(safe);
});

it('two kinds before one name are told once, and the name is not missed', () => {
  const { findings } = analyseText(
    'system "Z" 12 V\nbattery switch Q2 1 pole, 200 A dc, 60 V\nrun W1 6 mm² red, 1 m, Q2:1 to Q2:2\n',
  );
  expect(findings.filter(({ slug }) => slug.startsWith('unknown')).map(({ message }) => message)).toEqual([
    '“battery” before “switch” means nothing: take it out.',
  ]);
});

it('a share for a percentage may be read two ways', () => {
  expect(found('case noon sun 0.6', 'missing-unit')).toEqual([
    ['0.6 has no unit: write 60 % or 0.6 %, as in “sun 80 %”.', 'Write 60 %', 'Write 0.6 %'],
  ]);
});

it('a size in mm and a length behind it, with no comma, are two figures', () => {
  const messages = analyseText('run W1 2.5 mm 2 m, B1:+ to B1:-').findings.map(({ message }) => message);
  expect(messages[0]).toContain('A comma is missing before “2 m”');
  expect(messages.some((one) => one.includes('“mm 2”'))).toBe(false);
});

it.each([
  ['bus bar POS 100 A', '“bus bar” is written busbar here.'],
  ['fuse box FB 6 ways', '“fuse box” is written fusebox here.'],
])('a first word in two: %s', (line, message) => {
  expect(found(line, 'unknown-statement')).toEqual([[message, `Write ${line.split(' ').slice(0, 2).join('')}`]]);
  expect(found(line, 'unknown-clause')).toEqual([]);
});
