/** Near matches: which of the known words was meant. */

/** Edit distance with neighbouring letters swapped as one edit (optimal string alignment). */
export function distance(a: string, b: string): number {
  const rows = a.length + 1;
  const columns = b.length + 1;
  const table = new Uint16Array(rows * columns);
  const at = (i: number, j: number) => table[i * columns + j] ?? 0;
  for (let i = 0; i < rows; i++) table[i * columns] = i;
  for (let j = 0; j < columns; j++) table[j] = j;
  for (let i = 1; i < rows; i++) {
    for (let j = 1; j < columns; j++) {
      const same = a[i - 1] === b[j - 1];
      let best = Math.min(at(i - 1, j) + 1, at(i, j - 1) + 1, at(i - 1, j - 1) + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) best = Math.min(best, at(i - 2, j - 2) + 1);
      table[i * columns + j] = best;
    }
  }
  return at(rows - 1, columns - 1);
}

/**
 * The known words near to `word`, nearest first, at most `most`. Other case, `_` for `-` and a word that begins alike count
 * as nearer; words further than a third of the length (at least one edit) are left out.
 */
export function nearWords(word: string, known: Iterable<string>, most = 3): string[] {
  const scored = scoredNear(word, known);
  scored.sort((a, b) => a.score - b.score || (a.name < b.name ? -1 : 1));
  // Only the case or a hyphen is amiss: nothing else was meant.
  const same = scored.filter(({ score }) => score <= 0);
  return (same.length > 0 ? same : scored).slice(0, most).map(({ name }) => name);
}

/** All that may be offered for `word` by anyone who knows some of the words. */
export function allNear(word: string, known: Iterable<string>): string[] {
  return scoredNear(word, known).map(({ name }) => name);
}

const contrary = /^(?:non|not|un)/;

function scoredNear(word: string, known: Iterable<string>): { readonly name: string; readonly score: number }[] {
  const plain = (text: string) => text.toLowerCase().replaceAll(/[-_]/g, '');
  const wanted = plain(word);
  const scored: { name: string; score: number }[] = [];
  for (const name of known) {
    if (name === word) continue;
    const candidate = plain(name);
    const room = Math.max(1, Math.floor(Math.max(wanted.length, candidate.length) / 3));
    // `non-isolated` is the contrary of what it is near to.
    if (contrary.test(wanted) && wanted.replace(contrary, '') === candidate) continue;
    if (Math.abs(candidate.length - wanted.length) > room) {
      if (wanted.length >= 3 && candidate.startsWith(wanted)) scored.push({ name, score: room + 0.5 });
      continue;
    }
    const edits = distance(wanted, candidate);
    if (edits <= room && edits < Math.max(wanted.length, 1)) {
      scored.push({ name, score: edits - (candidate[0] === wanted[0] ? 0.25 : 0) });
    }
  }
  return scored;
}
