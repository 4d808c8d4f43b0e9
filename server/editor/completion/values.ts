/** Values: standard ones, colours, codes and threads, what is still open as `?`, numbers that the spec decides. */
import type { Expected } from '../../../grammar/forms.ts';
import { quantityTypes } from '../../../grammar/forms.ts';
import type { Dimension } from '../../../grammar/tree.ts';
import { colourList } from '../../kinds/colours.ts';
import { glandSizes } from '../../kinds/common.ts';
import type { Part } from '../../model/model.ts';
import { glandFor } from '../../rules/glands.ts';
import { ipMeaning, usualIpCodes } from '../../tables/ip-codes.ts';
import type { Context } from './context.ts';
import { likely } from './likely.ts';
import { ownSets } from './names.ts';
import { blanksAsPlaceholders, kinds, leftOpen, type Offer } from './offers.ts';
import { positionsBehind } from './positions.ts';
import { standardOffers } from './standards.ts';
import { symbolsFor, usageOf } from './usage.ts';

type Slot = Expected & { is: 'slot' };

export function valueOffers(context: Context, slot: Slot): Offer[] {
  return [...standardOffers(context, slot), ...slot.types.flatMap((type) => typed(context, slot, type))];
}

function typed(context: Context, slot: Slot, type: string): Offer[] {
  const { clause } = slot;
  if (quantityTypes.has(type)) return blanks(context, slot, quantityTypes.get(type) ?? []);
  switch (type) {
    case 'colour':
      return colourOffers(context);
    case 'thread':
      return clause.standardValues === undefined ? threads(context) : [];
    case 'ip':
      return usualIpCodes.map((code) => ({ label: code, kind: kinds.Value, detail: ipMeaning(code) }));
    case 'times':
      return [
        // The size that the tool would choose comes before all that is only possible.
        ...(clause.id === 'size' && likely(context, clause) !== undefined
          ? standardOffers(context, { ...slot, types: ['conductor'] }).slice(0, 1)
          : []),
        {
          label: '2 x',
          kind: kinds.Value,
          snippet: blanksAsPlaceholders('? x').snippet.replace('?', '2'),
          ...(clause.id === 'size' ? { detail: 'Two cores in one cable.' } : {}),
        },
      ];
    case 'text':
      return isQuotedBehind(context)
        ? []
        : [{ label: '"…"', kind: kinds.Text, text: '""', snippet: '"$1"', filter: '"' }];
    case 'range':
      return clause.id === 'bar' ? barOffers(context) : [];
    case 'number':
      return numberOffers(context, slot);
    case 'date':
      return dateOffers(context);
    case 'word':
      if (clause.id === 'limits') return ownSets(context);
      return clause.id === 'price' ? currencyOffers(context, slot) : [];
    default:
      return [];
  }
}

function isQuotedBehind({ analysis, at }: Context): boolean {
  return /^[ \t]*["\u201c\u201d\u201e]/u.test(analysis.text.slice(at.replace.end, at.replace.end + 20));
}

/** `? A`: what is still to be chosen or not known yet. A clause that begins with its number is shown whole: `? studs`. */
function blanks({ analysis }: Context, { clause, types }: Slot, dimensions: readonly Dimension[]): Offer[] {
  const conductor = types.includes('conductor') && usageOf(analysis).gauges ? [...dimensions].reverse() : dimensions;
  return (types.includes('conductor') ? conductor.slice(0, 1) : conductor).flatMap((dimension) => {
    const [symbol] = symbolsFor(analysis, dimension, clause);
    if (symbol === undefined) return [];
    const label = symbol === '°' ? '?°' : `? ${symbol}`;
    return [{ label, kind: kinds.Unit, snippet: blanksAsPlaceholders(label).snippet }];
  });
}

function numberOffers(context: Context, { clause, slot }: Slot): Offer[] {
  const { part, segment } = context;
  // A number begins the clause and words follow: `? holes`, `? in parallel ? A`.
  if (
    segment.trim() === '' &&
    /^\{[\w-]+:number\}\s*[(a-z]/u.test(clause.form) &&
    clause.standardValues === undefined
  ) {
    const label = leftOpen(clause.example);
    return [{ label, kind: kinds.Value, snippet: blanksAsPlaceholders(label).snippet }];
  }
  if (part?.kind.word === 'fusebox' && clause.id === 'way') return wayOffers(context, part);
  if (clause.id === 'core') return coreOffers(context);
  if (slot === 'position') return positionOffers(context);
  return [];
}

/** Numbers of cores that the cable has and no other line of the run says. */
function coreOffers({ run, at, offset }: Context): Offer[] {
  const count = Math.min(run?.facts.number('size', 'cores') ?? 0, mostCounted);
  const here = offset - (at.statement?.offset ?? 0);
  const others = at.statement?.shaped.clauses.filter(
    ({ spec, span }) => spec.id === 'core' && (here < span.start || here > span.end),
  );
  const said = new Set(others?.flatMap(({ values }) => values.map(({ atom }) => atom.text)));
  return oneTo(count)
    .map(String)
    .filter((number) => !said.has(number))
    .map((label) => ({ label, kind: kinds.Value, detail: 'A core that no other line tells of.' }));
}

const oneTo = (count: number) => Array.from({ length: count }, (_, index) => index + 1);

/** More ways or cores than these nobody counts through. */
const mostCounted = 60;

/** Ways that have no fuse yet; behind `ways 2 to` those that come after it. */
function wayOffers({ segment }: Context, { facts }: Part): Offer[] {
  const said = new Set(
    facts.each('way').flatMap((row) => {
      const first = row.number('way', 'way') ?? 0;
      const last = Math.min(row.number('way', 'last') ?? first, mostCounted);
      return oneTo(last).filter((way) => way >= first);
    }),
  );
  const least = Number(/\bways\s+(\d+)\s+to\s*$/u.exec(segment)?.[1] ?? 0);
  return oneTo(Math.min(facts.number('ways') ?? 0, mostCounted))
    .filter((way) => way > least && !said.has(way))
    .map((way) => ({ label: String(way), kind: kinds.Value, detail: 'A way that has no fuse yet.' }));
}

/** Those of a selector that are numbers, behind `S9 at`. */
function positionOffers({ segment, analysis }: Context): Offer[] {
  return positionsBehind(segment.trim().split(/\s+/u), analysis)
    .filter(({ joins }) => joins.length === 1)
    .map(({ name }) => ({ label: name, kind: kinds.Value, detail: `Supply ${name} alone.` }));
}

/** One word for each colour of IEC 60757; its other words find it too. Those the run has already come last. */
function colourOffers({ run, at, analysis }: Context): Offer[] {
  const words = new Map<string, { readonly all: string[]; readonly css: string }>();
  for (const { word, code, css } of colourList) {
    const known = words.get(code);
    if (known === undefined) words.set(code, { all: [word], css });
    else known.all.push(word);
  }
  const said = new Set(
    run?.cores
      .filter(({ colourPlace }) => colourPlace?.uri === analysis.uri && colourPlace.span.end < at.replace.start)
      .map(({ colour }) => colour),
  );
  const offers = [...words].map(([code, { all, css }]): Offer => {
    const [word = code] = all;
    return {
      label: word,
      kind: kinds.Color,
      detail: `Core colour, ${code} in the letters of IEC 60757.`,
      documentation: colourBlocks(word, css),
      filter: all.join(' '),
    };
  });
  const green: Offer = {
    label: 'green/yellow',
    kind: kinds.Color,
    detail: 'Protective conductor, GNYE in the letters of IEC 60757.',
  };
  // Red and black are the poles of nearly every circuit.
  const rank = ({ label }: Offer) => (said.has(label) ? 2 : label === 'red' || label === 'black' ? 0 : 1);
  const redFirst = ({ label }: Offer) => (label === 'red' ? 0 : 1);
  return [...offers, green].sort((a, b) => rank(a) - rank(b) || (rank(a) === 0 ? redFirst(a) - redFirst(b) : 0));
}

const swatches = new Map<string, Offer['documentation']>();

/** Ends with the colour itself, which editors show as a patch. */
function colourBlocks(word: string, css: string): Offer['documentation'] {
  if (!swatches.has(word)) swatches.set(word, [{ is: 'markdown', text: `${word}: ${css}` }]);
  return swatches.get(word);
}

/** The gland that fits the run's diameter first. */
function threads({ run, segment }: Context): Offer[] {
  const best =
    /\bgland\s*$/u.test(segment) && run?.outerDiameterMm !== undefined ? glandFor(run.outerDiameterMm) : undefined;
  return [...glandSizes]
    .sort((a, b) => Number(b === best) - Number(a === best))
    .map((size) => ({
      label: size,
      kind: kinds.Value,
      detail: size === best ? `Usual for a cable of ${run?.outerDiameterMm} mm.` : 'Metric thread of IEC 60423.',
    }));
}

/** Bars between neighbouring poles, those that are not there yet. */
function barOffers({ analysis, name }: Context): Offer[] {
  const part = analysis.model.parts.get(name ?? '');
  const pairs = part?.contacts.map(({ from, to }) => [from, to] as const) ?? [];
  const there = new Set(
    analysis.model.bars
      .filter((bar) => bar.part === part)
      .flatMap(({ from, to }) => [`${from.spec.name}-${to.spec.name}`, `${to.spec.name}-${from.spec.name}`]),
  );
  return pairs
    .slice(1)
    .flatMap(([from, to], index): Offer[] => {
      const [before, behind] = pairs[index] as readonly [string, string];
      const poles = `poles ${index + 1} and ${index + 2}`;
      return [
        { label: `${before}-${from}`, kind: kinds.Value, detail: `With ${behind}-${to}, ${poles} in parallel.` },
        { label: `${behind}-${to}`, kind: kinds.Value, detail: `With ${before}-${from}, ${poles} in parallel.` },
        { label: `${behind}-${from}`, kind: kinds.Value, detail: `${capital(poles)} in series.` },
      ];
    })
    .filter(({ label }) => /^\d+-\d+$/u.test(label) && !there.has(label));
}

const capital = (text: string) => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;

/** Today, then days on which the spec has readings already, the last first. */
function dateOffers({ analysis, at, options: { today } }: Context): Offer[] {
  const dates = analysis.tree.statements.flatMap(({ node, offset }) =>
    offset === at.statement?.offset ? [] : node.body.flatMap((atom) => (atom.kind === 'date' ? [atom.value] : [])),
  );
  const others = [...new Set(dates)]
    .filter((date) => date !== today)
    .sort()
    .reverse();
  return [
    ...(today === undefined ? [] : [{ label: today, kind: kinds.Value, detail: 'Today.' }]),
    ...others.map((date) => ({ label: date, kind: kinds.Value, detail: 'A day with other readings.' })),
  ];
}

/** Currencies that the spec's other prices are in; before the first, some that fitters buy in (ISO 4217). */
function currencyOffers({ analysis }: Context, { slot }: Slot): Offer[] {
  if (slot !== 'currency') return [];
  const used = analysis.model.files.flatMap(({ statements }) =>
    statements.flatMap(({ shaped }) =>
      shaped.clauses
        .filter(({ spec }) => spec.id === 'price')
        .flatMap(({ values }) => values.filter((value) => value.slot === 'currency').map(({ atom }) => atom.text)),
    ),
  );
  return [...new Set([...used, ...(used.length === 0 ? ['EUR', 'GBP', 'USD'] : [])])].map((label) => ({
    label,
    kind: kinds.Value,
    detail: 'Currency.',
  }));
}
