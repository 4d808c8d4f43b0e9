/** Titles and texts that have no quotes, other quotes, or stand elsewhere than behind the name. */
import { openingTypes } from './forms.ts';
import type { Leftover, Surroundings } from './leftover.ts';
import { spanOf, textOf } from './mend.ts';
import { wordsInRow } from './names-of-words.ts';
import { capital, problem, replace } from './phrases.ts';
import type { Atom, Problem } from './tree.ts';

/** `fuse F1 5 A, "Main fuse"`: a title behind what the statement says. */
export function titleBehind({ span, text }: Atom, { node }: Surroundings): Problem | undefined {
  const { names, title, body } = node;
  const name = names.at(-1);
  const before = body
    .filter((atom) => atom.span.end <= span.start && atom.kind !== 'comma' && atom.kind !== 'line')
    .at(-1);
  if (title !== undefined || name === undefined) return undefined;
  const [comma] = body;
  if (before === undefined && comma?.kind === 'comma')
    return problem(
      'unknown-clause',
      comma.span,
      `No comma stands between a name and its text: write ${name.text} ${text}.`,
      [replace('Take the comma out', comma.span, '', true)],
    );
  if (before === undefined) return undefined;
  const between = { start: before.span.end, end: span.end };
  const movable = !node.text.slice(between.start, span.start).includes('#');
  const right = `${name.text} ${text}`;
  return problem('unknown-clause', span, `A text stands behind the name: write ${right}.`, [
    ...(movable
      ? [
          {
            title: `Write ${right}`,
            safe: true,
            edits: [
              { span: { start: name.span.end, end: name.span.end }, newText: ` ${text}` },
              { span: between, newText: '' },
            ],
          },
        ]
      : []),
  ]);
}

/** A file or a title without quotes. */
export function unquoted(
  first: Atom,
  { segment, from, previous, atoms }: Leftover,
  { spec, node, clauses }: Surroundings,
): Problem | undefined {
  const onlyText = spec.forms.length === 1 && spec.open.some((form) => openingTypes(form).includes('text'));
  if (onlyText && first.kind !== 'text' && clauses.length === 0) {
    const span = { start: first.span.start, end: spanOf(segment.atoms).end };
    const written = node.text.slice(span.start, span.end);
    const [, , inside] = /^([<'‘`])(.+)[>'’`]$/u.exec(written) ?? [];
    const right = `${spec.spec.word} "${inside ?? written}"`;
    if (inside !== undefined)
      return problem('unknown-clause', span, `${capital(spec.spec.word)} takes a text in quotes: write ${right}.`, [
        replace('Put it in quotes', span, `"${inside}"`, true),
      ]);
    return problem('unknown-clause', span, `${capital(spec.spec.word)} takes a text in quotes: write ${right}.`, [
      {
        title: 'Put it in quotes',
        safe: true,
        edits: [
          { span: { start: span.start, end: span.start }, newText: '"' },
          { span: { start: span.end, end: span.end }, newText: '"' },
        ],
      },
    ]);
  }
  const titled = spec.spec.word === 'system' && node.title === undefined && first === node.body[0];
  if (!titled || first.kind !== 'word' || from > 0 || previous !== undefined || spec.byWord.has(first.value))
    return undefined;
  const words = wordsInRow(atoms, true);
  const text = `"${textOf(words)}"`;
  return problem('unknown-clause', spanOf(words), `A title stands in quotes: ${text}.`, [
    replace(`Write ${text}`, spanOf(words), text, true),
  ]);
}

/** What some languages put around a text, by the mark that opens it. */
const otherQuotes: ReadonlyMap<string, string> = new Map([
  ["'", "'"],
  ["''", "''"],
  ['(', ')'],
  ['[', ']'],
  ['`', '`'],
  ['´', '´'],
  ['‘', '’'],
  ['‚', '‘'],
  ['’', '’'],
  ['‹', '›'],
  ['«', '»'],
  ['»', '«'],
]);

/** `'Main fuse'` behind a name. */
export function quotedOtherwise(first: Atom, { node }: Surroundings): Problem | undefined {
  const closing = first.kind === 'junk' ? otherQuotes.get(first.text) : undefined;
  if (closing === undefined || first !== node.body[0] || node.title !== undefined) return undefined;
  const from = first.span.end;
  const to = node.text.indexOf(closing, from);
  const words = node.text.slice(from, to === -1 ? from : to);
  if (words.trim() === '' || /["\n]/.test(words)) return undefined;
  const span = { start: first.span.start, end: to + closing.length };
  return problem('unknown-clause', span, `A text stands in double quotes: write "${words}".`, [
    replace(`Write "${words}"`, span, `"${words}"`, true),
  ]);
}
