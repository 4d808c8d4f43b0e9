/**
 * From a text to its tree with shaped statements. Statements are cached by their text, and what lies outside the lines that
 * changed is taken over from the tree before, so an edit reads only what it touches.
 */
import { type Heads, readStatement } from './atoms.ts';
import { compile } from './compiled.ts';
import { shapeStatement } from './shape.ts';
import type { ShapedPlaced, ShapedStatement } from './shaped.ts';
import { type Chunk, type OpensStatement, splitStatements } from './statements.ts';
import { commonEnd, commonStart, type SourceText, TextInBlocks } from './text-in-blocks.ts';
import type { Gap, SpecTree } from './tree.ts';
import type { Vocabulary } from './vocabulary.ts';

type Item = ShapedPlaced | Gap;
type Movable = { -readonly [Field in 'offset' | 'line']: Item[Field] } & { notes?: string };

export interface ShapedTree extends SpecTree {
  readonly vocabulary: Vocabulary;
  readonly items: readonly Item[];
  readonly statements: readonly ShapedPlaced[];
}

/** So many statements that were edited away are kept whole. */
const mostGone = 200;

/** What was read of one document before: its last tree, and shaped statements by their text. */
export class ParseCache {
  /** Statements lexed and parsed since this cache was made. */
  parsed = 0;
  private vocabulary: Vocabulary | undefined;
  private last: ShapedTree | undefined;
  private readonly byText = new Map<string, ShapedStatement>();
  /** Statements that were edited away, the longest gone first: an undo brings them back with all that was worked out of them. */
  private readonly gone = new Map<ShapedStatement, ShapedPlaced>();
  private leaves = false;

  /** For reading a text that is only tried: the tree it is compared with stays as it is. */
  static beside(tree: ShapedTree): ParseCache {
    const cache = new ParseCache();
    cache.treeOf(tree.vocabulary);
    cache.keep(tree);
    cache.leaves = true;
    return cache;
  }

  /** The same item further up or down. It is moved and not copied, so that whatever was worked out of a statement stays with it. */
  moved(item: Item, offset: number, line: number, notes: string | undefined): Item {
    const moved: Movable = this.leaves ? { ...item } : item;
    moved.offset = offset;
    moved.line = line;
    if (notes !== undefined) moved.notes = notes;
    return moved as Item;
  }

  /** The last tree read with this vocabulary. */
  treeOf(vocabulary: Vocabulary): ShapedTree | undefined {
    if (this.vocabulary !== vocabulary) {
      this.vocabulary = vocabulary;
      this.last = undefined;
      this.byText.clear();
      this.gone.clear();
    }
    return this.last;
  }

  /** Statements that the next tree does not have. */
  leave(items: Iterable<Item>): void {
    for (const item of items) if (item.kind === 'statement') this.gone.set(item.shaped, item);
    for (const oldest of this.gone.keys()) {
      if (this.gone.size <= mostGone) return;
      this.gone.delete(oldest);
    }
  }

  /** A statement that says this and was edited away; it is gone no more. */
  comeBack(shaped: ShapedStatement): ShapedPlaced | undefined {
    const found = this.gone.get(shaped);
    this.gone.delete(shaped);
    return found;
  }

  /** The shaped statement of a text: equal text gives the same object again. */
  shaped(text: string, make: (text: string) => ShapedStatement): ShapedStatement {
    const known = this.byText.get(text);
    if (known !== undefined) return known;
    const made = make(text);
    this.parsed += 1;
    this.byText.set(made.node.text, made);
    return made;
  }

  keep(tree: ShapedTree): void {
    this.last = tree;
    // Statements that were edited away stay for an undo, but not for ever.
    if (this.byText.size <= 2 * tree.statements.length + 500) return;
    this.byText.clear();
    for (const { node, shaped } of tree.statements) this.byText.set(node.text, shaped);
  }
}

/**
 * Reads a text. With the cache of the same document's last reading, only the statements that changed are read, and those
 * behind the change are moved: a tree is good until the next one of the same document is read with the same cache.
 */
export function parseDocument(
  text: string | TextInBlocks,
  vocabulary: Vocabulary,
  cache: ParseCache = new ParseCache(),
): ShapedTree {
  const last = cache.treeOf(vocabulary);
  if (last?.text.says(text) === true) return last;
  const reader = new Reader(TextInBlocks.of(text), vocabulary, cache, last !== undefined);
  const tree = last === undefined ? reader.whole() : reader.from(last);
  cache.keep(tree);
  return tree;
}

class Reader {
  private readonly items: Item[] = [];
  /** Statements of the last tree between which the change lies. */
  private reread: Item[] = [];
  private readonly heads: Heads;
  private readonly opens: OpensStatement;

  constructor(
    private readonly text: TextInBlocks,
    private readonly vocabulary: Vocabulary,
    private readonly cache: ParseCache,
    /** Few statements out of a long text: they must not hold on to all of it. */
    private readonly few: boolean,
  ) {
    this.heads = headsOf(vocabulary);
    this.opens = opensStatement(vocabulary);
  }

  whole(): ShapedTree {
    // All of it is read: as one string it is read faster.
    const whole = String(this.text);
    this.read(whole, splitStatements(whole, this.opens).chunks);
    return this.tree();
  }

  /** Reads between the last certain statement before the first difference and the next one after the last. */
  from(last: ShapedTree): ShapedTree {
    const { text } = this;
    const prefix = commonStart(last.text, text);
    const suffix = commonEnd(last.text, text, Math.min(last.text.length, text.length) - prefix);
    const shift = text.length - last.text.length;
    const before = this.certainBefore(last, prefix);
    for (let i = 0; i < before; i++) this.items.push(last.items[i] as Item);
    const first = last.items[before];
    let after = last.items.length;
    const { chunks, line } = splitStatements(text, this.opens, {
      from: first?.offset ?? 0,
      line: first?.line ?? 0,
      known: (start) => {
        if (start < text.length - suffix) return false;
        const found = itemAt(last.items, start - shift);
        const item = last.items[found];
        if (found <= before || item?.kind !== 'statement' || item.offset !== start - shift) return false;
        after = found;
        return true;
      },
    });
    this.reread = last.items.slice(before, after);
    this.read(text, chunks);
    this.cache.leave(this.reread);
    const resumed = last.items[after];
    if (resumed === undefined) return this.tree();
    const lines = line - resumed.line;
    const gap = this.items.at(-1);
    for (let i = after; i < last.items.length; i++) {
      const item = last.items[i] as Item;
      const notes = i === after && item.kind === 'statement' ? notesAbove(gap) : undefined;
      this.items.push(this.cache.moved(item, item.offset + shift, item.line + lines, notes));
    }
    return this.tree();
  }

  /** Index of the last statement at the margin that begins before `offset`: whatever comes behind, it begins there. */
  private certainBefore({ items, text }: ShapedTree, offset: number): number {
    for (let i = itemAt(items, offset); i > 0; i--) {
      const item = items[i];
      if (item?.kind === 'statement' && item.offset < offset && !/[\s#]/.test(text.charAt(item.offset))) return i;
    }
    return 0;
  }

  private read(text: SourceText, chunks: readonly Chunk[]): void {
    for (const { kind, start, end, line } of chunks) {
      const slice = text.slice(start, end);
      if (kind === 'gap') {
        this.items.push({ kind: 'gap', text: slice, offset: start, line });
        continue;
      }
      const shaped = this.cache.shaped(slice, (own) =>
        shapeStatement(readStatement(this.few ? apart(own) : own, this.heads), this.vocabulary),
      );
      const notes = notesAbove(this.items.at(-1));
      this.items.push(
        this.stillThere(shaped, start, line, notes) ?? {
          kind: 'statement',
          node: shaped.node,
          shaped,
          offset: start,
          line,
          notes,
        },
      );
    }
  }

  /** A statement beside the change that says what it said, or one that an undo brings back. */
  private stillThere(shaped: ShapedStatement, offset: number, line: number, notes: string): Item | undefined {
    const at = this.reread.findIndex((item) => item.kind === 'statement' && item.shaped === shaped);
    const [found = this.cache.comeBack(shaped)] = at === -1 ? [] : this.reread.splice(at, 1);
    return found === undefined ? undefined : this.cache.moved(found, offset, line, notes);
  }

  private tree(): ShapedTree {
    const { items, text, vocabulary } = this;
    return { text, vocabulary, items, statements: items.filter((item) => item.kind === 'statement') };
  }
}

/** A copy of its own: a slice keeps the whole text it was cut from alive. */
function apart(slice: string): string {
  return ` ${slice}`.slice(1);
}

/** Index of the item that begins last at or before `offset`; 0 when none does. */
function itemAt(items: readonly Item[], offset: number): number {
  let low = 0;
  let high = items.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((items[middle] as Item).offset <= offset) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Comment lines directly above a statement are its notes; a blank line parts them from it. */
function notesAbove(above: Item | undefined): string {
  if (above?.kind !== 'gap' || !above.text.includes('#')) return '';
  const lines = above.text.split(/\r?\n/);
  // A gap ends with the line end before the statement.
  if (lines.at(-1) === '') lines.pop();
  const notes: string[] = [];
  for (let line = lines.pop(); line !== undefined && /^\s*#/.test(line); line = lines.pop())
    notes.unshift(line.replace(/^\s*#\s?/, '').trimEnd());
  return notes.join('\n');
}

const knownHeads = new WeakMap<Vocabulary, Heads>();

export function headsOf(vocabulary: Vocabulary): Heads {
  const known = knownHeads.get(vocabulary);
  if (known !== undefined) return known;
  const { specs, words } = compile(vocabulary);
  // `Panel P1 and P2`: telephones and tables begin every line with a capital.
  const specOf = (word: string) => specs.get(word) ?? specs.get(word.toLowerCase());
  const heads: Heads = {
    headOf: (word) => specOf(word)?.spec.head ?? 'name',
    titled: (word) => specOf(word)?.spec.word === 'system',
    opensClause: (word, first) => words.reserved.has(word) && specOf(first)?.byWord.has(word) === true,
  };
  knownHeads.set(vocabulary, heads);
  return heads;
}

/** As much of a first line as says of what kind a statement is. */
const longestHead = 200;
const leadingWord = /^\s+([\p{L}-]+)(?:[^\S\n]+|(?=["\u201c\u201d\u201e]))(\S+)/u;

/**
 * An indented line is a statement when it begins with a statement or kind word followed by what only its head has, unless
 * these are two keywords of a clause of the statement above (`load output 15 A` of a controller).
 */
function opensStatement(vocabulary: Vocabulary): OpensStatement {
  const { specs } = compile(vocabulary);
  return (line, statement) => {
    const [, word = '', next = ''] = leadingWord.exec(line) ?? [];
    const spec = specs.get(word)?.spec;
    if (spec === undefined) return false;
    if (!(spec.head === 'none' ? /^["\u201c\u201d\u201e\p{L}\d]/u : /^\p{L}/u).test(next)) return false;
    const above = statement().slice(0, longestHead).trim().split(/\s+/);
    const owner = specs.get(above[0] === 'stock' ? (above[2] ?? '') : (above[0] ?? ''));
    const clause = owner?.byWord
      .get(word)
      ?.some(({ elements: [, second] }) => second?.is === 'word' && next.startsWith(second.word));
    return clause !== true;
  };
}
