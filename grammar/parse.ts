/** From a text to its tree with shaped statements. Statements are cached by their text: an edit reads only what it touches. */
import { readStatement, type Heads } from './atoms.ts';
import { compile } from './compiled.ts';
import { shapeStatement } from './shape.ts';
import type { ShapedPlaced, ShapedStatement } from './shaped.ts';
import { splitStatements } from './statements.ts';
import type { Gap, SpecTree } from './tree.ts';
import type { Vocabulary } from './vocabulary.ts';

export interface ShapedTree extends SpecTree {
  readonly items: readonly (ShapedPlaced | Gap)[];
  readonly statements: readonly ShapedPlaced[];
}

/** Shaped statements by their text, those of the last tree only: equal text gives the same objects again. */
export class ParseCache {
  private byText = new Map<string, ShapedStatement>();
  /** Statements lexed and parsed since this cache was made. */
  parsed = 0;

  renew(reading: (get: (text: string) => ShapedStatement) => void, make: (text: string) => ShapedStatement): void {
    const next = new Map<string, ShapedStatement>();
    reading((text) => {
      let shaped = next.get(text) ?? this.byText.get(text);
      if (shaped === undefined) {
        shaped = make(text);
        this.parsed += 1;
      }
      next.set(text, shaped);
      return shaped;
    });
    this.byText = next;
  }
}

const openers = new WeakMap<Vocabulary, (line: string) => boolean>();

/** An indented line is a statement when it begins with a statement or kind word followed by what only its head has. */
function opensStatement(vocabulary: Vocabulary): (line: string) => boolean {
  const known = openers.get(vocabulary);
  if (known) return known;
  const opens = (line: string): boolean => {
    const match = /^\s+([\p{L}-]+)\s+(\S)/u.exec(line);
    if (!match) return false;
    const spec = vocabulary.statements.get(match[1] ?? '');
    if (spec === undefined) return false;
    return spec.head === 'none' ? /["\p{L}\d]/u.test(match[2] ?? '') : /\p{L}/u.test(match[2] ?? '');
  };
  openers.set(vocabulary, opens);
  return opens;
}

export function parseDocument(text: string, vocabulary: Vocabulary, cache: ParseCache = new ParseCache()): ShapedTree {
  const compiled = compile(vocabulary);
  const heads: Heads = {
    headOf: (word) => compiled.specs.get(word)?.spec.head ?? 'name',
    titled: (word) => word === 'system',
  };
  const items: (ShapedPlaced | Gap)[] = [];
  const statements: ShapedPlaced[] = [];
  cache.renew(
    (shapedOf) => {
      let above = '';
      for (const chunk of splitStatements(text, opensStatement(vocabulary))) {
        const slice = text.slice(chunk.start, chunk.end);
        if (chunk.kind === 'gap') {
          items.push({ kind: 'gap', text: slice, offset: chunk.start, line: chunk.line });
          above = slice;
          continue;
        }
        const shaped = shapedOf(slice);
        const placed: ShapedPlaced = {
          kind: 'statement',
          node: shaped.node,
          shaped,
          offset: chunk.start,
          line: chunk.line,
          notes: notesAbove(above),
        };
        above = '';
        items.push(placed);
        statements.push(placed);
      }
    },
    (slice) => shapeStatement(readStatement(slice, heads), vocabulary),
  );
  return { text, items, statements };
}

/** Comment lines directly above a statement are its notes; a blank line parts them from it. */
function notesAbove(gap: string): string {
  const lines = gap.split(/\r?\n/);
  // A gap ends with the line end before the statement.
  if (lines.at(-1) === '') lines.pop();
  const notes: string[] = [];
  for (let line = lines.pop(); line !== undefined && /^\s*#/.test(line); line = lines.pop()) {
    notes.unshift(line.replace(/^\s*#\s?/, '').trimEnd());
  }
  return notes.join('\n');
}
