/** A switch whose utilisation category does not cover what it has to open. */
import type { ContactFigures } from '../answers/answers.ts';
import type { Part } from '../model/model.ts';
import { cite } from '../tables/table.ts';
import { categorySource, dcCategories } from '../tables/utilisation-categories.ts';
import { example, lampSpec, throughS1 } from './language.ts';
import { parallelStrings } from './panel-strings.ts';
import type { Reported, Rule, RuleContext } from './rule.ts';

const { out, on } = throughS1;

function roof(panels: string, isolator: string, ...more: string[]) {
  return example(
    'system "Shed" 12 V',
    `panel ${panels} 100 W, voc 21.5 V, isc 6.2 A, vmp 17.6 V, imp 5.7 A, most series fuse 15 A`,
    `isolator Q1 2 poles, 20 A dc, 60 V, ${isolator}`,
    'controller U1 mppt, pv 100 V 20 A, output 15 A, common negative',
    'fuse F1 20 A, blade, 32 V',
    'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
    'run W1 4 mm² red, 2 m, P1:+ to Q1:1',
    'run W2 4 mm² black, 2 m, P1:- to Q1:3',
    'run W3 4 mm² red, 3 m, Q1:2 to U1:pv+',
    'run W4 4 mm² black, 3 m, Q1:4 to U1:pv-',
    'run W5 4 mm² red, 0.4 m, U1:bat+ to F1:out',
    'run W6 4 mm² red, 0.2 m, F1:in to B1:+',
    'run W7 4 mm² black, 0.4 m, U1:bat- to B1:-',
    ...more,
  );
}

const second = ['run W8 4 mm² red, 2 m, P2:+ to Q1:1', 'run W9 4 mm² black, 2 m, P2:- to Q1:3'];

export const rule: Rule = {
  slug: 'switch-category',
  severity: 'error',
  group: 'switching',
  reads: ['isolator.category', 'switch.category', 'load.cranking', 'panel.isc'],
  page: {
    title: 'A switch of a category unfit for its duty',
    why: 'The category says what a switch may open: nothing at all, a heater, a motor, panels in the sun. Opened beyond it, the arc stays, the contacts burn, and the box may follow.',
    limit: `The utilisation categories of IEC 60947-3: 20 and PV0 open nothing under load; 21 resistive loads; 22 mixed ones; 23 motors; PV1 one string of panels; PV2 strings in parallel (${cite(categorySource)}). That panels and switches in use are opened under load is common practice, no source.`,
    mend: 'Fit one of the category that the duty asks for; an isolator that may not be opened under load is at least marked so, and opened last.',
    see: ['switch-not-dc', 'switch-below-load'],
    wrong: [
      lampSpec(
        { out },
        'switch S1 1 pole, 10 A dc, 24 V, category DC-20B # finds: switch-category "category DC-20B"',
        on,
      ),
      roof('P1', 'category DC-PV0 # finds: switch-category "category DC-PV0"'),
      roof('P1 and P2', 'category DC-PV1 # finds: switch-category "category DC-PV1"', ...second),
      lampSpec(
        { out },
        'isolator S1 1 pole, 10 A dc, 24 V, category DC-20A # finds: switch-category "category DC-20A"',
        on,
      ),
    ],
    right: [
      lampSpec({ out }, 'switch S1 1 pole, 10 A dc, 24 V, category DC-21B', on),
      roof('P1', 'category DC-PV1'),
      roof('P1 and P2', 'category DC-PV2', ...second),
      roof('P1', 'category DC-21B'),
    ],
  },
  forKind: ({ clauses }) => clauses.some(({ id }) => id === 'category'),
  ofPart(part) {
    const category = part.facts.word('category')?.toUpperCase() ?? '';
    return dcCategories.has(category) ? (context) => misused(part, category, context) : undefined;
  },
};

function misused(part: Part, category: string, context: RuleContext): Reported[] {
  const contacts = context.answers.contacts.get(part.name) ?? [];
  if (contacts.length === 0) return [];
  const offLoad = category.startsWith('DC-20') || category === 'DC-PV0';
  const onPanels = contacts.some((one) => one.onPanelSide);
  const meaning = dcCategories.get(category) ?? '';
  const base = { place: part.facts.place('category'), subject: part.name, figures: { category } };
  if (offLoad && (onPanels || part.kind.word === 'switch'))
    return [
      {
        ...base,
        message: `${part.name} is of category ${category} (${meaning}), but ${onPanels ? 'panels are live whenever the sun shines' : 'a switch is opened while current flows'}, and its arc would not go out: fit one of ${onPanels ? 'DC-PV1 or DC-PV2' : 'DC-21 or better'}.`,
      },
    ];
  if (offLoad)
    return [
      {
        ...base,
        severity: 'advice',
        message: `${part.name} is of category ${category} (${meaning}): mark it so that it is opened only when nothing draws, or fit one of DC-21 or better.`,
      },
    ];
  if (category === 'DC-PV1' && onPanels)
    return parallelStrings(context).length === 0
      ? []
      : [
          {
            ...base,
            severity: 'warning',
            message: `${part.name} is of category ${category} (${meaning}), but the panels are in parallel, so that current can come back from the others: fit one of DC-PV2.`,
          },
        ];
  const cranked = category.startsWith('DC-21') ? contacts.flatMap((one) => cranks(one, context))[0] : undefined;
  return cranked === undefined
    ? []
    : [
        {
          ...base,
          severity: 'warning',
          message: `${part.name} is of category ${category} (${meaning}), but it feeds ${cranked}, a motor: fit one of DC-23.`,
        },
      ];
}

/** Names of starter motors that crank through a contact: a charger on the far side of it turns none. */
function cranks({ part, pole, feeds }: ContactFigures, { answers: { directions } }: RuleContext): string[] {
  const motors = feeds.filter(({ facts }) => facts.says('cranking'));
  if (motors.length === 0) return [];
  const flowing = directions.ofContact(part, pole).cranks.flatMap(({ loads }) => loads);
  return motors.filter((motor) => flowing.includes(motor)).map(({ name }) => name);
}
