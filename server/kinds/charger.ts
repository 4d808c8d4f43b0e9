import { commonClauses } from './common.ts';
import { clause, noContacts, plusMinus, terminal } from './define.ts';
import type { KindSpec, PartFacts, TerminalSpec } from './kind.ts';

function inputs(facts: PartFacts): TerminalSpec[] {
  if (facts.says('from-mains')) return [terminal('case', 'bond of the metal case', { optional: true })];
  const count = facts.number('inputs') ?? 1;
  const sides =
    count <= 1
      ? plusMinus('the input', 'in', 'in')
      : Array.from({ length: Math.min(count, 8) }, (_, i) =>
          plusMinus(`input ${i + 1}`, `in${i + 1}`, `in${i + 1}`),
        ).flat();
  return facts.says('pv') ? [...sides, ...plusMinus('the panel input', 'pv', 'pv')] : sides;
}

export const kind: KindSpec = {
  word: 'charger',
  alsoCalled: ['ladegerät', 'chargeur', 'b2b', 'dc-dc', 'dcdc', 'battery-charger'],
  category: 'kind',
  family: 'conversion',
  title: 'battery charger',
  withArticle: 'a charger',
  meaning:
    'Charges a battery from the alternator (a battery-to-battery or d.c. to d.c. charger), the mains or panels. Its mains side is not checked and belongs to a licensed person.',
  head: 'names',
  example: 'charger U2 12 V, 18 A, efficiency 90 %, common negative',
  behaviour: {
    is: 'converter',
    inputs: ['in', 'in1', 'in2', 'in3', 'in4', 'in5', 'in6', 'in7', 'in8', 'pv'],
    outputs: ['out'],
  },
  oneNode: false,
  symbol: 'charger',
  clauses: [
    clause('voltage', '{voltage:voltage}', 'Nominal voltage of its output.', '12 V', ['answers', 'hover:charger'], {
      required: true,
      standardValues: ['12 V', '24 V', '48 V'],
    }),
    clause('current', '{current:current}', 'Greatest output current.', '18 A', ['answers', 'cable-too-small'], {
      required: true,
      standardValues: ['10 A', '18 A', '30 A', '50 A'],
    }),
    clause(
      'efficiency',
      'efficiency {ratio:ratio}',
      'Output power over input power; 90 % when unsaid.',
      'efficiency 92 %',
      ['answers', 'hover:charger'],
    ),
    clause('inputs', 'inputs {count:number}', 'How many separate inputs it has: in1+, in1-, in2+, …', 'inputs 2', [
      'terminal-unconnected',
      'hover:charger',
    ]),
    clause(
      'pv',
      'pv {voltage:voltage} [{current:current}] [{power:power}]',
      'It has a panel input too, with its greatest voltage and current.',
      'pv 50 V 15 A',
      ['terminal-unconnected', 'hover:charger'],
    ),
    clause('from-mains', 'from mains', 'It is fed from the mains; that side is not checked.', 'from mains', [
      'terminal-unconnected',
      'case-not-bonded',
      'answers',
    ]),
    clause('bond', 'bond {size:conductor}', 'Least size of the conductor that bonds its case.', 'bond 10 mm²', [
      'hover:charger',
      'case-not-bonded',
    ]),
    clause(
      'insulated-case',
      'insulated case',
      'Its case is of plastic or doubly insulated, so there is nothing to bond.',
      'insulated case',
      ['hover:charger', 'case-not-bonded'],
    ),
    clause(
      'common',
      '{common=common|isolated} [{pole=negative|positive}]',
      'Whether input and output share a conductor inside.',
      'common negative',
      ['answers', 'hover:charger'],
    ),
    clause('lowest', 'lowest {voltage:voltage}', 'Lowest input voltage it works at.', 'lowest 11.5 V', [
      'answers',
      'hover:charger',
    ]),
    clause('highest', 'highest {voltage:voltage}', 'Highest input voltage it bears.', 'highest 32 V', [
      'hover:charger',
      'load-above-highest-voltage',
    ]),
    ...commonClauses,
  ],
  terminals: (facts) => [...inputs(facts), ...plusMinus('the output', 'out', 'out')],
  contacts: noContacts,
};
