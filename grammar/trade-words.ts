/** What the trade says for words of the notation that are spelt quite otherwise: no edit distance leads from one to the other. */

/** By the word in small letters, what it may mean, likeliest first (common practice, no source). */
const meanings: ReadonlyMap<string, readonly string[]> = new Map([
  ['lifepo4', ['lithium-iron-phosphate']],
  ['lifepo', ['lithium-iron-phosphate']],
  ['lfp', ['lithium-iron-phosphate']],
  ['lithium', ['lithium-iron-phosphate', 'lithium-ion']],
  ['li-ion', ['lithium-ion']],
  ['nmc', ['lithium-ion']],
  ['flooded', ['lead-acid']],
  ['wet', ['lead-acid']],
  ['way', ['studs']],
  ['ways', ['studs']],
  ['post', ['studs']],
  ['posts', ['studs']],
  ['soc', ['charge']],
  ['min', ['lowest', 'least']],
  ['minimum', ['lowest', 'least']],
  ['max', ['highest']],
  ['maximum', ['highest']],
  ['unpolarized', ['unpolarised']],
  ['polarized', ['polarised']],
  ['drop', ['loses']],
  ['loss', ['loses']],
  ['efficient', ['efficiency']],
  ['important', ['essential']],
  ['critical', ['essential']],
  ['peak', ['surge']],
  ['inrush', ['surge']],
  ['start', ['surge']],
  ['starting', ['surge']],
  ['startup', ['surge']],
  ['start-up', ['surge']],
  // Codes of IEC 60757 (from memory).
  ...named('red', 'rd'),
  ...named('black', 'bk'),
  ...named('blue', 'bu'),
  ...named('brown', 'bn'),
  ...named('white', 'wh'),
  ...named('yellow', 'ye'),
  ...named('green', 'gn'),
  ...named('grey', 'gy'),
  ...named('orange', 'og'),
  ['via', ['by', 'along']],
  ['through', ['by', 'along']],
  ['into', ['enters']],
  ['inside', ['indoors']],
  ['interior', ['indoors']],
  ['outside', ['outdoors']],
  ['exterior', ['outdoors']],
  // German and French words of the sort that stay behind when a list is translated.
  ...named('to', 'nach', 'zu', 'bis', 'vers', 'à', 'au', 'jusqu’à'),
  ...named('and', 'und', 'et', 'sowie'),
  ...named('with', 'mit', 'avec'),
  ...named('red', 'rot', 'rouge'),
  ...named('black', 'schwarz', 'noir'),
  ...named('blue', 'blau', 'bleu'),
  ...named('brown', 'braun', 'marron', 'brun'),
  ...named('white', 'weiß', 'weiss', 'blanc'),
  ...named('yellow', 'gelb', 'jaune'),
  ...named('green', 'grün', 'gruen', 'vert'),
  ...named('grey', 'grau', 'gris'),
]);

function named(word: string, ...others: readonly string[]): (readonly [string, readonly string[]])[] {
  return others.map((other) => [other, [word]]);
}

/** Those of the known words that a word of the trade means, likeliest first. */
export function meantByTrade(written: string, known: ReadonlySet<string>): string[] {
  return (meanings.get(written.toLowerCase()) ?? []).filter((one) => known.has(one));
}

const counts: ReadonlyMap<string, number> = new Map([
  ['one', 1],
  ['single', 1],
  ['two', 2],
  ['double', 2],
  ['twin', 2],
  ['three', 3],
  ['triple', 3],
  ['four', 4],
]);

/** How many poles `double` or `double-pole` says; undefined for other words. `whole` when the word says “pole” itself. */
export function polesByTrade(written: string): { readonly poles: number; readonly whole: boolean } | undefined {
  const [, count = '', pole] = /^([a-z]+?)(-?poles?)?$/.exec(written.toLowerCase()) ?? [];
  const poles = counts.get(count);
  return poles === undefined ? undefined : { poles, whole: pole !== undefined };
}
