import type { ClauseNode } from '../../grammar/shaped.ts';
import { slotWord } from '../model/facts.ts';
import type { Model, Origin, Part } from '../model/model.ts';
import { isBroken, placeIn } from '../model/place.ts';
import { isPosition, positionsOf, type SelectorPosition, turnedByHand, wordsOf } from '../model/selector-positions.ts';
import { notationsOwn } from './language.ts';
import type { Example, Reported, Rule } from './rule.ts';

/** Two batteries, one of which a selector joins to a lamp. */
const chosen = (position: string, lamp = 'on'): Example => ({
  spec: `system "Shed" 12 V
battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ
battery B2 lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1 5 A, blade, 32 V
fuse F2 5 A, blade, 32 V
selector S1 100 A dc, 32 V, positions off 1 2
load LAMP 12 W
busbar NEG 50 A
run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in
run W2 1.5 mm² red, 0.1 m, B2:+ to F2:in
run W3 1.5 mm² red, 0.4 m, F1:out to S1:1
run W4 1.5 mm² red, 0.4 m, F2:out to S1:2
run W5 1.5 mm² red, 1.2 m, S1:common to LAMP:+
run W6 1.5 mm² black, 1.3 m, LAMP:- to NEG
run W7 1.5 mm² black, 0.3 m, B1:- to NEG
run W8 1.5 mm² black, 0.3 m, B2:- to NEG
case night LAMP ${lamp}, ${position}
`,
});

export const rule: Rule = {
  slug: 'unknown-position',
  severity: 'error',
  group: 'language',
  // Any case may turn any selector of the spec.
  scope: 'whole',
  reads: [],
  page: {
    title: 'A position that the switch does not have',
    why: 'What the case says of the switch cannot be, so it is worked out as if nothing were said of it.',
    limit: notationsOwn,
    mend: 'Write one of the positions that the selector has. A switch, isolator or breaker has none: it is on or off.',
    see: ['unknown-name', 'unknown-terminal'],
    wrong: [chosen('S1 at both # finds: unknown-position "both"'), chosen('NEG off # finds: unknown-position "NEG"')],
    right: [chosen('S1 at 2'), chosen('S1 off', 'off')],
  },
  *check({ model: { cases, readings, parts } }) {
    for (const origin of [...cases, ...readings].map((one) => one.origin)) {
      const { word } = origin.statement.shaped.spec ?? {};
      // Cases that are implied stand at another statement. What reads badly is told of first.
      if ((word !== 'case' && word !== 'reading') || isBroken(origin)) continue;
      for (const clause of origin.statement.shaped.clauses) {
        const part = isPosition(clause) ? parts.get(wordsOf(clause).name?.word ?? '') : undefined;
        const found = part === undefined ? undefined : amiss(part, origin, clause);
        if (found !== undefined) yield found;
        if (isState(clause)) yield* neverTurned(parts, origin, clause);
      }
    }
  },
};

function isState({ spec: { id } }: ClauseNode): boolean {
  return id === 'state' || id === 'with-state';
}

/** Names of parts that nothing turns on or off. */
function* neverTurned(parts: Model['parts'], origin: Origin, clause: ClauseNode): Generator<Reported> {
  for (const value of clause.values) {
    const part = value.slot === 'part' ? parts.get(slotWord(value) ?? '') : undefined;
    if (part === undefined || part.contacts.length > 0 || part.kind.behaviour.is !== 'none') continue;
    yield {
      message: `${part.name} is ${part.kind.withArticle}, which nothing turns on or off: leave it out here.`,
      place: placeIn(origin, value.span),
      subject: part.name,
      related: [{ message: `${part.name} is declared here`, place: part.namePlace }],
    };
  }
}

function amiss(part: Part, origin: Origin, clause: ClauseNode): Reported | undefined {
  const { position } = wordsOf(clause);
  const names = part.kind.word === 'selector' ? positionsOf(part).map((one) => one.name) : [];
  const told = (place: Reported['place'], message: string, right: readonly string[]): Reported => ({
    message,
    place,
    subject: part.name,
    related: [{ message: `${part.name} is declared here`, place: part.namePlace }],
    fixes: right.map((one) => ({ title: `Write ${one}`, safe: false, edits: [{ place, newText: one }] })),
  });
  if (turnedByHand.has(part.kind.word)) {
    const [on, off] = [`${part.name} on`, `${part.name} off`];
    const message = `${part.name} is ${part.kind.withArticle}, with no positions to say: write ${on} or ${off}.`;
    return told(placeIn(origin, clause.span), message, [on, off]);
  }
  if (position === undefined || names.length === 0 || names.some((one) => one === position.text)) return undefined;
  const message = `${part.name} has no position ${position.text}: it has ${listed(names)}.`;
  return told(placeIn(origin, position.span), message, names);
}

/** As they stand on such a switch. */
function listed(names: readonly SelectorPosition['name'][]): string {
  const order = ['off', '1', '2', 'both'];
  const [only, ...more] = order.filter((one) => names.some((name) => name === one));
  return more.length === 0 ? `${only} alone` : `${[only, ...more.slice(0, -1)].join(', ')} and ${more.at(-1)}`;
}
