/** What cannot be, or nearly not: each is told in a finding or as the trouble of its cases, and every figure is a number. */
import { describe, expect, it } from 'vitest';
import { answersJson } from '../../server/answers/answers-json.ts';
import { analyseText } from '../analysed.ts';

const lamp = {
  battery: 'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
  fuse: 'fuse F1 5 A, blade, 32 V, breaks 20 kA',
  load: 'load LAMP 12 W',
  feed: 'run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in',
  out: 'run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+',
  back: 'run W3 1.5 mm² black, 1.3 m, LAMP:- to B1:-',
};

const shed = (changes: Partial<Record<keyof typeof lamp, string>>, ...more: string[]) =>
  `system "Shed" 12 V\n${[...Object.values({ ...lamp, ...changes }), ...more].join('\n')}\n`;

interface Bad {
  readonly title: string;
  readonly text: string;
  /** Slugs that must be among the findings, in any order; none other may be an error. */
  readonly finds: readonly string[];
}

const table: readonly Bad[] = [
  {
    title: 'a run of no length',
    text: shed({ out: 'run W2 1.5 mm² red, 0 m, F1:out to LAMP:+' }),
    finds: ['impossible-value'],
  },
  {
    title: 'a run of a thousand kilometres',
    text: shed({ out: 'run W2 1.5 mm² red, 1000000 m, F1:out to LAMP:+' }),
    finds: ['voltage-collapse'],
  },
  {
    title: 'a run of no cross-section',
    text: shed({ out: 'run W2 0 mm² red, 1.2 m, F1:out to LAMP:+' }),
    finds: ['impossible-value', 'missing-required-clause'],
  },
  {
    title: 'a run of next to no cross-section',
    text: shed({ out: 'run W2 0.000000001 mm² red, 1.2 m, F1:out to LAMP:+' }),
    finds: ['voltage-collapse', 'cable-too-small'],
  },
  {
    title: 'a fuse of nothing',
    text: shed({ fuse: 'fuse F1 0 A, blade, 32 V, breaks 20 kA' }),
    finds: ['impossible-value', 'fuse-below-load'],
  },
  {
    title: 'a fuse of a million ampere',
    text: shed({ fuse: 'fuse F1 1000000 A, blade, 32 V, breaks 20 kA' }),
    finds: ['cable-too-small'],
  },
  {
    title: 'a load of a gigawatt',
    text: shed({ load: 'load LAMP 1000000000 W' }),
    finds: ['voltage-collapse', 'fuse-below-load', 'cable-too-small'],
  },
  {
    title: 'a load of a million ampere',
    text: shed({ load: 'load LAMP 1000000 A' }),
    finds: ['fuse-below-load', 'cable-too-small', 'voltage-collapse'],
  },
  {
    title: 'a load of more than all there is',
    text: shed({ load: `load LAMP ${'9'.repeat(300)} W` }),
    finds: ['impossible-value', 'fuse-below-load', 'cable-too-small', 'case-unanswered'],
  },
  { title: 'a load without resistance', text: shed({ load: 'load LAMP 0 Ω' }), finds: ['impossible-value'] },
  {
    title: 'a battery without voltage',
    text: shed({ battery: 'battery B1 lead-acid, 0 V, 80 Ah, internal 15 mΩ' }),
    finds: ['impossible-value', 'case-unanswered'],
  },
  {
    title: 'a battery without capacity',
    text: shed({ battery: 'battery B1 lead-acid, 12 V, 0 Ah' }),
    finds: ['impossible-value'],
  },
  {
    title: 'a battery of a billion ampere hours',
    text: shed({ battery: 'battery B1 lead-acid, 12 V, 1000000000000 Ah' }),
    finds: ['impossible-value'],
  },
  {
    title: 'a battery shorted by a run',
    text: shed({}, 'run W9 16 mm² red, 0.5 m, B1:+ to B1:-'),
    finds: ['short-circuit'],
  },
  {
    title: 'two ideal batteries that contradict each other',
    text: shed(
      { battery: 'battery B1 lead-acid, 12 V, 80 Ah, internal 0 mΩ' },
      'battery B2 lead-acid, 24 V, 80 Ah, internal 0 mΩ',
      'run W7 16 mm² red, 0.001 m, B1:+ to B2:+',
      'run W8 16 mm² black, 0.001 m, B1:- to B2:-',
    ),
    finds: ['voltages-joined', 'bank-fuse-each'],
  },
  {
    title: 'a case colder than cold',
    text: shed({}, 'case frost all loads on, conductors at -300 °C'),
    finds: ['impossible-value'],
  },
];

function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

describe('bad input', () => {
  it.each(table)('$title is told, and leaves every figure a number', ({ text, finds }) => {
    const { answers, findings } = analyseText(text);
    const slugs = new Set(findings.map(({ slug }) => slug));
    for (const slug of finds) expect([...slugs], slug).toContain(slug);
    const errors = findings.filter(({ severity }) => severity === 'error');
    for (const { slug } of errors) expect(finds, slug).toContain(slug);
    const json = answersJson(answers);
    const numbers = numbersIn(json);
    expect(numbers.length).toBeGreaterThan(0);
    expect(numbers.every(Number.isFinite)).toBe(true);
    for (const { converged, trouble } of answers.cases) if (!converged) expect(trouble).toMatch(/^[^\n]{10,}$/);
    for (const { residual } of answers.cases) expect(residual).toBeLessThan(1e-9);
    for (const { message, figures } of findings) {
      expect(message).not.toMatch(/NaN|Infinity|undefined/);
      expect(numbersIn(figures).every(Number.isFinite)).toBe(true);
    }
  });
});
