/**
 * What the grammar is told about the words of the notation. The grammar itself knows no kind and no electrics:
 * `server/kinds` hands it these tables.
 *
 * ## Forms
 * A clause's form is one line that drives matching, completion, hover and the reference alike:
 *
 * - a bare word is that keyword: `voc`
 * - `=` is the equals sign
 * - `{slot:type}` takes one value into `slot`; several types: `{size:thread|length}`; `+` takes one or more: `{n:number+}`
 * - `{slot=a|b|c}` takes one of these keywords
 * - `[ … ]` may be left out; `( … | … )` is a choice; a `*` behind `)` or `]` repeats it nought or more times
 *
 * Types: every `Dimension` of tree.ts (quantity or blank in that dimension), `conductor` (area or gauge), `drift` (any of
 * the three drifts), `quantity` (any), `number`, `times`, `range`, `text`, `date`, `clock`, `word` (any word), `colour`
 * (a core colour, also two-tone `green/yellow`), `thread` (`M20`), `ip` (`IP65`), `end` (a terminal, or the name of a part
 * with one node), `terminal`, and `name<target>` where target is one or more of `part run place enclosure entry stock case
 * slug kind any`, joined by `|`.
 */
export interface ClauseSpec {
  /** Kebab-case, unique within its statement or kind. */
  readonly id: string;
  readonly form: string;
  /** One sentence for hover, completion and the reference. */
  readonly meaning: string;
  readonly required?: boolean;
  /** Any of the ids in the same group satisfies `required` (a load's power, current or resistance). */
  readonly oneOf?: string;
  readonly repeatable?: boolean;
  /** Clause ids that may follow this one without a separator (size then colour; colour then ends). */
  readonly joins?: readonly string[];
  /** An example of the clause as it is written. */
  readonly example: string;
  /** Rules (slugs), `answers`, `hover:<what>`, or `later: <what will use it>`. */
  readonly readBy: readonly string[];
  /** Offered in completion for the first quantity slot, in canonical text (`5 A`, `M20`). */
  readonly standardValues?: readonly string[];
}

export interface StatementSpec {
  readonly word: string;
  readonly category: 'statement' | 'kind';
  /** Everyday words for it, which are no words of the notation: whoever writes one is told the right one. */
  readonly alsoCalled?: readonly string[];
  /** The field's term, e.g. "overcurrent protective device". */
  readonly title: string;
  readonly meaning: string;
  /** Whether names follow the word: none (`system`), one (`run W1`), or one or more joined by `and`. */
  readonly head: 'none' | 'name' | 'names';
  readonly clauses: readonly ClauseSpec[];
  readonly example: string;
}

export interface Vocabulary {
  /** Every statement and kind word. */
  readonly statements: ReadonlyMap<string, StatementSpec>;
  /** Core colours by the word written (`red`, `light-blue`), canonical name, IEC 60757 code and a CSS colour. */
  readonly colours: ReadonlyMap<string, ColourSpec>;
  /** Words that cannot be names. */
  readonly reserved: ReadonlySet<string>;
}

export interface ColourSpec {
  readonly word: string;
  /** IEC 60757 letter code. */
  readonly code: string;
  readonly css: string;
}
