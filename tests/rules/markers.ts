/**
 * Findings expected inside a text: a comment at a line's end, `# finds: slug "words underlined"; slug 2nd "words"`, says that
 * a finding of that slug underlines exactly those words on that line. `# finds above: …` on a line of its own speaks of the
 * line above it, for what would swallow a comment.
 */
import type { Finding } from '../../server/rules/rule.ts';

export interface Mark {
  readonly slug: string;
  readonly line: number;
  readonly start: number;
  readonly end: number;
  readonly words: string;
}

export function marksIn(text: string): Mark[] {
  const marks: Mark[] = [];
  let offset = 0;
  const lines = text.split('\n');
  lines.forEach((line, number) => {
    const above = (lines[number + 1] ?? '').startsWith('# finds above: ');
    const at = above ? line.length : line.indexOf('# finds: ');
    if (at !== -1) {
      const told = above ? (lines[number + 1] ?? '').slice(15) : line.slice(at + 9);
      for (const piece of told.split(/;\s*(?=[a-z-]+ )/)) {
        const match = /^([a-z-]+) (?:(\d)(?:st|nd|rd|th) )?"((?:\\.|[^"\\])*)"\s*$/.exec(piece.trim());
        if (match?.[1] === undefined || match[3] === undefined) throw new Error(`mark cannot be read: ${piece}`);
        const words = match[3].replaceAll('\\"', '"');
        let from = -1;
        for (let n = 0; n < Number(match[2] ?? 1); n++) from = line.indexOf(words, from + 1);
        if (from === -1 || from >= at) throw new Error(`“${words}” does not stand on line ${number + 1}: ${line}`);
        marks.push({
          slug: match[1],
          line: number + 1,
          start: offset + from,
          end: offset + from + words.length,
          words,
        });
      }
    }
    offset += line.length + 1;
  });
  return marks;
}

/** Findings and marks as lines that compare well: `7 cable-too-small "2.5 mm²"`. */
export function expected(text: string): string[] {
  return marksIn(text)
    .map(({ slug, line, words }) => `${line} ${slug} "${words}"`)
    .sort();
}

export function actual(text: string, findings: readonly Finding[]): string[] {
  return findings
    .map(
      ({ slug, place }) =>
        `${text.slice(0, place.span.start).split('\n').length} ${slug} "${text.slice(place.span.start, place.span.end)}"`,
    )
    .sort();
}
