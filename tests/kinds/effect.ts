/** What a clause does: the findings, answers, hovers and cards of two specs that differ in that clause alone. */
import type { Analysis } from '../../server/analysis.ts';
import type { Answers } from '../../server/answers/answers.ts';
import { answersJson } from '../../server/answers/answers-json.ts';
import { hover } from '../../server/editor/hover.ts';
import { cardOf, hasCard } from '../../server/reports/cards/card-of.ts';
import { drawCard } from '../../server/reports/cards/draw-card.ts';
import { analyseText } from '../analysed.ts';

/** A finding’s slug, `answers`, `hover`, or the terminal `card`. */
export type Shown = string;

/** One clause of a statement, and what shows that it counts. */
export interface Use {
  readonly clause: string;
  /** As it is said at first, and what is said instead; `''` leaves it out. */
  readonly first: string;
  readonly instead: string;
  /** What changes. */
  readonly shows: readonly Shown[];
  /** What both versions say besides. */
  readonly besides?: string;
  /** Ids of what the scene says otherwise and both versions leave out. */
  readonly without?: readonly string[];
  /** Another scene than the statement’s own. */
  readonly scene?: string;
  /** Statements that stand in both versions besides the scene’s. */
  readonly more?: string;
  /** Files that the spec may use. */
  readonly files?: Readonly<Record<string, string>>;
  /** The name (or any words) whose hover is looked at; the statement’s own when unsaid. */
  readonly hoverOf?: string;
}

/** A statement in a spec round it: `@` stands where its clauses go. */
export interface Scene {
  readonly word: string;
  readonly name: string;
  /** Clauses it says unless a use says them otherwise: id and text. */
  readonly base: Readonly<Record<string, string>>;
  readonly spec: string;
  readonly uses: readonly Use[];
}

/** Stands in every spec, for the clauses that any part may have. */
const surroundings = 'place OVEN 90 °C\nenclosure BOX plastic\n';

export function specOf(scene: Scene, use: Use, version: 'first' | 'instead'): string {
  const base = Object.entries(scene.base)
    .filter(([id]) => id !== use.clause && use.without?.includes(id) !== true)
    .map(([, text]) => text);
  const clauses = [...base, use[version], use.besides ?? ''].filter((text) => text !== '').join(', ');
  return `${surroundings}${(use.scene ?? scene.spec).replace('@', clauses).trim()}\n${use.more ?? ''}\n`;
}

export interface Seen {
  readonly analysis: Analysis;
  readonly shown: ReadonlyMap<Shown, string>;
}

export function see(text: string, name: string, files: Readonly<Record<string, string>> = {}): Seen {
  const analysis = analyseText(text, files);
  const shown = new Map<Shown, string>();
  for (const { slug, message } of analysis.findings) shown.set(slug, `${shown.get(slug) ?? ''}${message}\n`);
  shown.set('answers', figures(analysis.answers));
  shown.set('hover', hoverText(analysis, name));
  const part = analysis.model.parts.get(name);
  if (part !== undefined && hasCard(part))
    shown.set('card', drawCard(cardOf(analysis, part), { colours: 'print', size: 'full' }));
  return { analysis, shown };
}

/** What of two specs differs. */
export function changed(first: Seen, instead: Seen): Set<Shown> {
  const names = new Set([...first.shown.keys(), ...instead.shown.keys()]);
  return new Set([...names].filter((name) => first.shown.get(name) !== instead.shown.get(name)));
}

/** Hover on a name where it is declared, else on the first words that are alike. */
export function hoverText(analysis: Analysis, name: string): string {
  const { parts, runs, locations, stocks, cases } = analysis.model;
  const named =
    parts.get(name) ??
    runs.get(name) ??
    locations.get(name) ??
    stocks.get(name) ??
    cases.find((one) => one.name === name);
  const offset = named?.namePlace.span.start ?? String(analysis.text).indexOf(name);
  const contents = offset < 0 ? undefined : hover(analysis, offset, { markdown: false })?.contents;
  return contents !== undefined && typeof contents === 'object' && 'value' in contents ? contents.value : '';
}

/** All that is worked out, in a text that compares well. */
function figures(answers: Answers): string {
  const { cores, contacts, loads, chosen, unfused } = answers;
  const devices = (one: { readonly protection: { readonly amps: number; readonly devices: readonly unknown[] } }) => [
    one.protection.amps,
    one.protection.devices.length,
  ];
  return JSON.stringify([
    answersJson(answers),
    answers.limits.id,
    [...cores.values()].map((one) => [
      one.core.run.name,
      one.core.label,
      one.designAmps,
      one.neededAmps,
      one.capacity?.amps,
      one.ohms,
      one.onPanelSide,
      devices(one),
    ]),
    [...contacts.values()].flat().map((one) => [one.part.name, one.pole, one.designAmps, one.ratedAmps, devices(one)]),
    [...loads.values()].map((one) => [one.load.name, one.designAmps, one.dropPercent, one.source?.name]),
    unfused.map(({ battery, metres }) => [battery.name, metres]),
    chosen.map(({ subject, text }) => [subject, text]),
  ]);
}
