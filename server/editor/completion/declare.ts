/**
 * Names that are new where something declared is wanted: the offer writes the name, and puts its declaration above the
 * statement. What kind of thing is meant is told by the letters of the name, as the spec uses them or as the trade does.
 */
import type { Expected } from '../../../grammar/forms.ts';
import type { Analysis } from '../../analysis.ts';
import { kindOf } from '../../kinds/vocabulary.ts';
import { glandFor } from '../../rules/glands.ts';
import type { Context } from './context.ts';
import { likelyPole } from './likely.ts';
import { exampleName, nextName } from './new-names.ts';
import { kinds, type Offer } from './offers.ts';
import { usageOf } from './usage.ts';

/** Which names are to be had where a slot takes one: whatever can be the end of a core, a place, a box, an entry, a stock. */
type Declared = 'end' | 'place' | 'enclosure' | 'entry' | 'stock';

export interface Declarable {
  readonly word: string;
  /** What it must say, left open. */
  readonly says: string;
  /** Which of its terminals the core at the pointer ends at, and at which it begins; none for what is one node. */
  readonly terminals?: { readonly ends: string; readonly begins: string };
}

const between = { ends: 'in', begins: 'out' };
const switched = { ends: '1', begins: '2' };

/** Parts that a core is often drawn to before they are declared, those first that nothing in a name tells of. */
export const parts: readonly Declarable[] = [
  { word: 'load', says: '? W' },
  { word: 'fuse', says: '? A', terminals: between },
  { word: 'switch', says: '1 pole, ? A dc', terminals: switched },
  { word: 'isolator', says: '1 pole, ? A dc', terminals: switched },
  { word: 'busbar', says: '? A' },
  { word: 'splice', says: '' },
];
/** Of these any may be meant by a name that has no letters of its own. */
export const mostGuessed = 3;

const nodes: ReadonlySet<string> = new Set(['busbar', 'splice']);
const nameOnly = /^\p{L}[\p{L}\p{M}\p{N}_-]*$/u;

/** Offers for the name that is typed, if nothing has it. */
export function declareOffers(context: Context, { clause, types }: Expected & { is: 'slot' }): Offer[] {
  const { at, analysis } = context;
  const [typed = ''] = at.prefix.split(':');
  // A word that is complete and fits here is no name.
  if (at.expected.some((one) => one.is === 'word' && one.word === typed)) return [];
  if (!nameOnly.test(typed) || at.statement === undefined || isTaken(analysis, typed)) return [];
  const wanted = wantedBy(types, clause.id);
  if (wanted === 'end') return candidates(analysis, typed).map(([part, name]) => partOffer(context, part, name));
  if (mayGoOn(analysis, typed)) return [];
  switch (wanted) {
    case 'place':
      return [offer(typed, 'place', leftOpen(analysis).warmth)];
    case 'enclosure':
      return [offer(typed, 'enclosure', '')];
    case 'entry':
      return entryOffers(context, typed);
    case 'stock':
      return at.spec?.spec.word === 'run'
        ? [offer(typed, 'stock', leftOpen(analysis).size, `stock ${typed}  cable`)]
        : [];
    default:
      return [];
  }
}

/** Blanks in the units that the spec writes. */
export function leftOpen(analysis: Analysis): { readonly warmth: string; readonly size: string } {
  const { fahrenheit, gauges } = usageOf(analysis);
  return { warmth: fahrenheit ? '? °F' : '? °C', size: gauges ? '? AWG' : '? mm²' };
}

/** Whether a name may be new at a slot: then the offers are others with every letter. */
export function mayDeclare({ clause, ...one }: Expected): boolean {
  return one.is === 'slot' && wantedBy(one.types, clause.id) !== undefined;
}

export function wantedBy(types: readonly string[], clauseId: string): Declared | undefined {
  if (clauseId === 'ends' && types.includes('end')) return 'end';
  const [, wanted] =
    types.map((type) => /^name<(place|enclosure|entry|stock)>$/u.exec(type)).find((found) => found !== null) ?? [];
  return wanted as Declared | undefined;
}

/** What is declared under a name; that it is used says nothing, since it is being typed. */
export function isTaken({ model }: Analysis, name: string): boolean {
  return model.parts.has(name) || model.runs.has(name) || model.locations.has(name) || model.stocks.has(name);
}

/** Whether a name that is there begins so: then that is being typed. */
function mayGoOn({ model }: Analysis, typed: string): boolean {
  const named = [model.parts, model.locations, model.stocks].flatMap((names) => [...names.keys()]);
  return named.some((name) => name.startsWith(typed));
}

/** Kinds whose names begin with the same letters; where these are all that is typed, the next number goes on from them. */
function candidates(analysis: Analysis, typed: string): (readonly [Declarable, string])[] {
  const stem = typed.replace(/\d+$/u, '');
  const alike = parts.flatMap((part): (readonly [Declarable, string])[] => {
    const next = nextOf(analysis, part.word);
    if (next === undefined || next.replace(/\d+$/u, '') !== stem) return [];
    return [[part, typed === stem ? next : typed]];
  });
  if (alike.length > 0) return alike;
  return mayGoOn(analysis, typed) ? [] : parts.slice(0, mostGuessed).map((part) => [part, typed]);
}

export function nextOf(analysis: Analysis, word: string): string | undefined {
  const example = kindOf(word)?.example ?? '';
  const next = nextName(analysis, word, example);
  return next ?? exampleName(word, example);
}

function partOffer(context: Context, part: Declarable, name: string): Offer {
  const begins = !/\bto\s*$/u.test(context.segment);
  const from = /(\S+)\s+to\s*$/u.exec(context.segment)?.[1];
  const terminal = nodes.has(part.word)
    ? ''
    : `:${part.terminals?.[begins ? 'begins' : 'ends'] ?? likelyPole(context, from) ?? '+'}`;
  const declared = offer(name, part.word, part.says);
  return { ...declared, label: `${name}${terminal}` };
}

/** In the wall that is passed, with the gland that suits the cable. */
function entryOffers(context: Context, name: string): Offer[] {
  const box = /\benters\s+(\S+)\s+by\s*$/u.exec(context.segment)?.[1];
  if (box === undefined || context.analysis.model.parts.get(box)?.kind.word !== 'enclosure') return [];
  return [offer(name, 'entry', `in ${box}, gland ${glandFor(context.run?.outerDiameterMm)}`)];
}

function offer(name: string, word: string, says: string, head = `${word} ${name}`): Offer {
  const declaration = says === '' ? head : `${head}${head.includes('  ') ? ' ' : '  '}${says}`;
  return {
    label: name,
    kind: kinds.Variable,
    detail: `write it above: ${declaration.replace('  ', ' ')}`,
    above: declaration,
  };
}
