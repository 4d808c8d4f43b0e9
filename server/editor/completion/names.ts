/** Names that are declared: those of exactly the kinds that a slot takes. */
import type { Expected } from '../../../grammar/forms.ts';
import type { ContactSpec } from '../../kinds/kind.ts';
import type { Named, Part } from '../../model/model.ts';
import { allRules } from '../../rules/all.ts';
import type { Finding } from '../../rules/rule.ts';
import { tellStatus } from '../../tables/table.ts';
import { said } from '../hover/about.ts';
import type { Block } from '../markup.ts';
import { type Context, workedOut } from './context.ts';
import { kinds, type Offer } from './offers.ts';

export function isNamed(type: string): boolean {
  return type.startsWith('name<');
}

export function nameOffers(context: Context, { clause, slot }: Expected & { is: 'slot' }, type: string): Offer[] {
  const targets = type.slice('name<'.length, -1).split('|');
  const offers = targets.flatMap((target) => namesOf(context, target, clause.id, slot));
  const mentioned = new Set(context.segment.split(/\s+/u));
  // A list of names (`along LOFT and …`, `LAMPS and …`) has each once.
  const open = /\band\s*$/u.test(context.segment) ? offers.filter(({ label }) => !mentioned.has(label)) : offers;
  return clause.id === 'finding' && slot === 'subject' ? foundFirst(context, open) : open;
}

function namesOf(context: Context, target: string, clauseId: string, slot: string): Offer[] {
  const { model } = context.analysis;
  const parts = [...model.parts.values()];
  switch (target) {
    case 'part':
      return partNames(context, parts, clauseId, slot);
    case 'enclosure':
      return passedFirst(
        context,
        parts.filter((part) => part.kind.word === 'enclosure' && part !== context.part),
      ).map(partOffer);
    case 'entry':
      return parts.filter((part) => part.kind.word === 'entry' && isOfBox(context, part)).map(partOffer);
    case 'run':
      return [...model.runs.values()].map((run) => offer(run, 'run', kinds.Interface));
    case 'place':
      return [...model.locations.values()].map((place) =>
        offer(
          place,
          ['place', ...(place.celsius === undefined ? [] : [`${Math.round(place.celsius)} °C`])].join(', '),
          kinds.Folder,
        ),
      );
    case 'stock': {
      // A run takes stock of a cable; everything else takes that of its own kind.
      const word = context.at.spec?.spec.word;
      const wanted = word === 'run' ? 'cable' : word;
      const stocking = context.at.statement?.shaped.wrapper !== undefined;
      return [...model.stocks.values()]
        .filter(
          ({ kindWord, name }) => (word === 'allow' || kindWord === wanted) && !(stocking && name === context.name),
        )
        .map((stock) => ({
          ...offer(stock, `stock of ${stock.kindWord}`, kinds.Class),
          documentation: said(stock.facts),
        }));
    }
    case 'case':
      return model.cases
        .filter(({ implied }) => !implied)
        .map((stated) => ({ ...offer(stated, 'case', kinds.Event), documentation: saidOf(stated) }));
    case 'slug':
      return slugOffers(context);
    default:
      return [];
  }
}

/** Boxes that an end of the run stands in: their walls it passes. */
function passedFirst({ run }: Context, boxes: readonly Part[]): readonly Part[] {
  const within = new Set(run?.cores.flatMap(({ from, to }) => [from?.part.enclosure, to?.part.enclosure]));
  return within.size === 0 ? boxes : [...boxes].sort((a, b) => Number(within.has(b)) - Number(within.has(a)));
}

/** Sets of limits in stock. */
export function ownSets({ analysis: { model } }: Context): Offer[] {
  return [...model.stocks.values()]
    .filter(({ kindWord }) => kindWord === 'limit-set')
    .map((stock) => ({ ...offer(stock, 'set of limits of your own', kinds.Class), documentation: said(stock.facts) }));
}

function offer(named: Pick<Named, 'name' | 'title'>, what: string, kind: Offer['kind']): Offer {
  return { label: named.name, kind, detail: `${what}${named.title === undefined ? '' : ` “${named.title}”`}` };
}

function partOffer(part: Part): Offer {
  return offer(part, part.kind.word, kinds.Variable);
}

function saidOf({ origin }: Named): Block[] {
  const { node } = origin.statement;
  return [{ is: 'spec', text: node.text.trimEnd() }];
}

/** Kinds that a case can turn on or off; what a relay does is for its coil to say. */
const switched: ReadonlySet<string> = new Set(['load', 'source', 'conversion', 'protection', 'switching']);

function partNames(context: Context, parts: readonly Part[], clauseId: string, slot: string): Offer[] {
  // A case says how full a battery is, and where a selector stands.
  if (slot === 'battery' || slot === 'selector') return parts.filter(({ kind }) => kind.word === slot).map(partOffer);
  // Nothing is to be expected of what carries no current.
  if (clauseId === 'what') return parts.filter(({ terminals }) => terminals.length > 0).map(partOffer);
  if (!/^(?:with-)?state$/u.test(clauseId)) return parts.map(partOffer);
  const states = parts.filter(({ kind }) => switched.has(kind.family) && kind.word !== 'relay');
  const loadsFirst = (part: Part) => (part.kind.family === 'load' ? 0 : 1);
  const said = new Set(
    context.at.statement?.shaped.clauses
      .filter(({ spec }) => spec.id === clauseId)
      .flatMap(({ values }) => values.map(({ atom }) => atom))
      .filter(({ span }) => (context.at.statement?.offset ?? 0) + span.end < context.at.replace.start)
      .map(({ text }) => text),
  );
  return states
    .filter(({ name }) => !said.has(name))
    .sort((a, b) => loadsFirst(a) - loadsFirst(b))
    .map(partOffer);
}

/** An entry in the wall that is passed; any, where the box is not known. */
function isOfBox({ segment, analysis }: Context, { enclosure }: Part): boolean {
  const box = /\benters\s+(\S+)/u.exec(segment)?.[1];
  return box === undefined || !analysis.model.parts.has(box) || enclosure?.name === box;
}

/** Parts with several poles between numbered terminals, which bars can join. */
export function linkableParts({ analysis }: Context): Offer[] {
  const isPole = ({ from, to }: ContactSpec) => /^\d+$/u.test(from) && /^\d+$/u.test(to);
  return [...analysis.model.parts.values()]
    .filter(({ contacts }) => contacts.length > 1 && contacts.every((one) => one.operated === 'hand' && isPole(one)))
    .map(partOffer);
}

/** Findings that are about this spec itself, and cannot be accepted. */
const never: ReadonlySet<string> = new Set(['allow-unknown', 'allow-unused', 'rule-failed', 'answers-failed']);

/** While a text is typed its findings are not known yet: those of the one before tell what is likely meant. */
function toldIn(context: Context): readonly Finding[] {
  const { findings, accepted } = workedOut(context) ?? context.analysis;
  return [...findings, ...accepted];
}

/** What is found here comes first, then the electrical findings, then those of the language. */
function slugOffers(context: Context): Offer[] {
  const { at } = context;
  const found = new Map<string, Finding[]>();
  const start = at.statement?.offset ?? 0;
  const end = start + (at.statement?.node.text.length ?? 0);
  // What is amiss with the line that is being written is not there to be accepted.
  const isHere = ({ place: { span } }: Finding) => start <= span.start && span.end <= end;
  for (const finding of toldIn(context).filter((one) => !isHere(one)))
    found.set(finding.slug, [...(found.get(finding.slug) ?? []), finding]);
  const rank = (slug: string, group: string) => (found.has(slug) ? 0 : group === 'language' ? 2 : 1);
  return allRules
    .filter(({ slug }) => !never.has(slug))
    .map((rule) => ({ rule, rank: rank(rule.slug, rule.group) }))
    .sort((a, b) => a.rank - b.rank)
    .map(({ rule }) => {
      const subjects = [...new Set(found.get(rule.slug)?.flatMap(({ subject }) => subject ?? []))];
      const more = subjects.length > 4 ? ' …' : '';
      return {
        label: rule.slug,
        kind: kinds.Constant,
        detail: `${rule.page.title}${subjects.length === 0 ? '' : `: found on ${subjects.slice(0, 4).join(', ')}${more}`}`,
        documentation: pageOf(rule),
      };
    });
}

const pages = new Map<string, readonly Block[]>();

function pageOf({ slug, page }: (typeof allRules)[number]): readonly Block[] {
  let blocks = pages.get(slug);
  if (blocks === undefined) {
    blocks = [
      { is: 'markdown', text: page.why },
      { is: 'markdown', text: tellStatus(page.limit) },
    ];
    pages.set(slug, blocks);
  }
  return blocks;
}

/** Subjects on which the finding before is found, before all others. */
function foundFirst(context: Context, offers: readonly Offer[]): Offer[] {
  const slug = /(\S+)\s+on\s*$/u.exec(context.segment)?.[1];
  const subjects = new Set(
    toldIn(context)
      .filter((one) => one.slug === slug)
      .map(({ subject }) => subject),
  );
  return [...offers].sort((a, b) => Number(subjects.has(b.label)) - Number(subjects.has(a.label)));
}
