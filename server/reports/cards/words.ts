/** A card in words: for a screen reader, and where there is no room to draw. */
import { listed } from '../figures.ts';
import type { BeepState, Card, CardCore } from './card.ts';

/** `W5 core 2 brown 1.5 mm² to F1:out`. */
export function coreWords({ run, core, colour, size, other }: CardCore): string {
  return `${[run, core, colour ?? '', size].filter((word) => word !== '').join(' ')} to ${other}`;
}

/** `1–2`; of more, `1, 2 and 3 together`; names that end in a sign are kept apart from the dash. */
export function groupWords(group: readonly string[]): string {
  if (group.length > 2) return `${listed(group)} together`;
  return group.join(group.some((name) => /[+-]$/u.test(name)) ? ' with ' : '–');
}

/** `ON: 1–2 and 3–4 beep.` */
export function beepSentence({ when, groups }: BeepState): string {
  const start = when === '' ? '' : `${when}: `;
  return `${start}${groups.length === 0 ? 'nothing beeps' : `${listed(groups.map(groupWords))} beep`}.`;
}

export function spokenOf(card: Omit<Card, 'spoken'>): string {
  const title = card.title === undefined ? '' : `, ${card.title}`;
  const on = card.terminals.map(({ name, cores, barsTo, empty }) => {
    const things = [...cores.map(coreWords), ...barsTo.map((other) => `a bar to ${other}`)];
    return `Terminal ${name}: ${empty ? 'empty' : listed(things)}.`;
  });
  return [`${card.kindWord} ${card.part}${title}.`, ...on, ...card.beeps.map(beepSentence)].join(' ');
}
