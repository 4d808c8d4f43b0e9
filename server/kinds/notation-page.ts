/**
 * The parts of the reference that follow from the vocabulary: a table of clauses for every statement and kind, the units,
 * the colours and the reserved words. They stand between markers in `grammar/NOTATION.md`; all else there is written by hand.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { compileForm, type Element, quantityTypes } from '../../grammar/forms.ts';
import type { Dimension } from '../../grammar/tree.ts';
import { symbolsOf, units } from '../../grammar/units.ts';
import type { ClauseSpec, StatementSpec } from '../../grammar/vocabulary.ts';
import { allKinds, allStatements } from './all.ts';
import { colourList } from './colours.ts';
import { commonClauses, commonClausesWithContacts } from './common.ts';
import type { Family } from './kind.ts';
import { vocabulary } from './vocabulary.ts';

/** Rewrites what stands between the markers; true when something changed. Throws where a marker is missing. */
export function writeNotation(path: string): boolean {
  const before = readFileSync(path, 'utf8');
  const text = notationText(before);
  if (before === text) return false;
  writeFileSync(path, text);
  return true;
}

export function notationText(page: string): string {
  let text = page;
  for (const [name, make] of Object.entries(pieces)) {
    const [open, close] = [`<!-- from the vocabulary: ${name} -->`, `<!-- end: ${name} -->`];
    const [start, end] = [text.indexOf(open), text.indexOf(close)];
    if (start === -1 || end < start) throw new Error(`the page has no place for ${name}`);
    text = `${text.slice(0, start + open.length)}\n\n${make()}\n\n${text.slice(end)}`;
  }
  return text;
}

const pieces: Readonly<Record<string, () => string>> = {
  statements: () => allStatements.map((spec) => section(spec)).join('\n\n'),
  'clauses of any part': () =>
    `${table(commonClauses)}\n\nA part with ways through it (${ors(
      allKinds.filter(hasContacts).map(({ word }) => `\`${word}\``),
      'or',
    )}) may also say:\n\n${table(commonClausesWithContacts.filter((one) => !commonClauses.includes(one)))}`,
  kinds: () =>
    families
      .map(([family, title]) => {
        const own = allKinds.filter((kind) => kind.family === family);
        return [`### ${title}`, ...own.map((kind) => section(kind))].join('\n\n');
      })
      .join('\n\n'),
  units: unitTable,
  colours: () =>
    lines(
      ['word', 'IEC 60757'],
      colourList.map(({ word, code }) => [`\`${word}\``, code]),
    ),
  'reserved words': () => [...vocabulary.reserved].map((word) => `\`${word}\``).join(' '),
};

/** Every family, in the order in which a fitter meets them. */
const families: readonly (readonly [Family, string])[] = [
  ['source', 'Sources'],
  ['conversion', 'Controllers, chargers and converters'],
  ['protection', 'Fuses and breakers'],
  ['switching', 'Isolators, switches and relays'],
  ['joint', 'Joints'],
  ['measurement', 'Measuring'],
  ['load', 'Loads'],
  ['return', 'The vehicle’s body'],
  ['enclosure', 'Enclosures and entries'],
  ['material', 'Cable'],
  ['limits', 'Sets of limits of your own'],
];

function hasContacts({ clauses }: StatementSpec): boolean {
  return commonClausesWithContacts.every((clause) => clauses.includes(clause));
}

function section(spec: StatementSpec): string {
  const hash = spec.category === 'kind' ? '####' : '###';
  const title = spec.title === spec.word ? '' : ` · ${spec.title}`;
  const takesCommon = commonClauses.every((clause) => spec.clauses.includes(clause));
  const own = takesCommon ? spec.clauses.filter((one) => !commonClausesWithContacts.includes(one)) : spec.clauses;
  const common = hasContacts(spec)
    ? 'Also the [clauses of any part](#clauses-of-any-part), and `contacts`.'
    : 'Also the [clauses of any part](#clauses-of-any-part).';
  return [
    `${hash} \`${spec.word}\`${title}`,
    spec.meaning,
    `\`\`\`amps\n${spec.example}\n\`\`\``,
    ...(own.length === 0 ? [] : [table(own)]),
    ...(takesCommon ? [common] : []),
  ].join('\n\n');
}

function table(clauses: readonly ClauseSpec[]): string {
  return lines(
    ['clause', 'meaning', 'unit', 'said', 'used by'],
    clauses.map((clause) => [
      `\`${readableForm(clause)}\``,
      clause.meaning,
      unitsOf(clause).join(', '),
      said(clause, clauses),
      usedBy(clause),
    ]),
  );
}

/** A form for people: slots in angle quotes, `or` between what may be chosen, square brackets round what may be left out. */
export function readableForm(clause: ClauseSpec): string {
  return sequence(compileForm(clause).elements);
}

function sequence(elements: readonly Element[]): string {
  return elements.map(element).join(' ');
}

function element(one: Element): string {
  switch (one.is) {
    case 'word':
      return one.word;
    case 'equals':
      return '=';
    case 'slot':
      return `‹${one.slot}›${one.types.includes('times') ? ' x' : ''}${one.many ? ' …' : ''}`;
    case 'choice':
      return one.words.length > 1 ? `(${ors(one.words, 'or')})` : (one.words[0] ?? '');
    case 'group': {
      const inside = ors(one.alternatives.map(sequence), 'or');
      return `${one.least === 0 ? `[${inside}]` : `(${inside})`}${one.repeats ? ' …' : ''}`;
    }
  }
}

function ors(words: readonly string[], last: string): string {
  return words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} ${last} ${words.at(-1)}`;
}

/** Units that a clause's values may have, in the order of its slots. */
function unitsOf(clause: ClauseSpec): string[] {
  const found = new Set<Dimension>();
  const visit = (one: Element) => {
    if (one.is === 'group') for (const alternative of one.alternatives) alternative.forEach(visit);
    if (one.is !== 'slot') return;
    if (one.types.includes('quantity')) return;
    for (const type of one.types) for (const dimension of quantityTypes.get(type) ?? []) found.add(dimension);
  };
  const { elements } = compileForm(clause);
  elements.forEach(visit);
  const any = JSON.stringify(elements).includes('"quantity"');
  return [...[...found].flatMap((dimension) => symbolsOf(dimension)), ...(any ? ['of what is asked'] : [])];
}

function said(clause: ClauseSpec, clauses: readonly ClauseSpec[]): string {
  const { oneOf } = clause;
  const group = oneOf === undefined ? [] : clauses.filter((one) => one.oneOf === oneOf).map(({ id }) => id);
  return [
    ...(group.length > 0 ? [`one of ${ors(group, 'or')}`] : clause.required === true ? ['must'] : []),
    ...(clause.repeatable === true ? ['several times'] : []),
  ].join(', ');
}

/** Who reads it: findings by name, the answers, hover, the terminal card; what waits for a later check is told apart. */
function usedBy({ readBy }: ClauseSpec): string {
  const now = [
    ...(readBy.includes('answers') ? ['answers'] : []),
    ...readBy.filter((one) => !/^(?:answers|card|(?:hover|later):.*)$/.test(one)).map((slug) => `\`${slug}\``),
    ...(readBy.some((one) => one.startsWith('hover:')) ? ['hover'] : []),
    ...(readBy.includes('card') ? ['terminal card'] : []),
  ];
  const waits = readBy.some((one) => one.startsWith('later:')) ? ['kept for later'] : [];
  return [...now, ...waits].join(', ');
}

function unitTable(): string {
  const dimensions = [...new Set(units.map(({ dimension }) => dimension))];
  return lines(
    ['what', 'units', 'also read as'],
    dimensions.map((dimension) => {
      const own = units.filter((unit) => unit.dimension === dimension);
      const others = own
        .flatMap(({ accepted }) => accepted)
        .filter((spelling) => /^[\x20-\x7e°²]+$/.test(spelling) && !spelling.includes('° '));
      return [
        dimension.replaceAll('-', ' '),
        own.map(({ symbol }) => `\`${symbol}\``).join(' '),
        others.map((spelling) => `\`${spelling}\``).join(' '),
      ];
    }),
  );
}

function lines(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const row = (cells: readonly string[]) => `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
  return [row(head), `|${head.map(() => '---').join('|')}|`, ...rows.map(row)].join('\n');
}
