/**
 * A rule is a file: its slug, its page, its check and its fix. The registry, the pages, the settings schema and the
 * command's list come from the folder; the examples on its page are run as its tests.
 */
import type { Answers } from '../answers/answers.ts';
import type { KindSpec } from '../kinds/kind.ts';
import type { Model, Part, Place, Run } from '../model/model.ts';
import type { Degrees } from './words.ts';

export type Severity = 'error' | 'warning' | 'advice';

export type Figures = Readonly<Record<string, number | string | boolean>>;

export interface Edit {
  readonly place: Place;
  readonly newText: string;
}

/** Safe fixes take part in fix-all; one that costs money or changes the design is offered singly. */
export interface Fix {
  readonly title: string;
  readonly safe: boolean;
  readonly edits: readonly Edit[];
}

export interface Related {
  readonly message: string;
  readonly place: Place;
}

export interface Finding {
  readonly slug: string;
  readonly severity: Severity;
  /** One sentence a person can act on: what, why with its figures, what to do. */
  readonly message: string;
  readonly place: Place;
  /** Name of the part, run or case it is about. */
  readonly subject: string | undefined;
  readonly figures: Figures;
  readonly related: readonly Related[];
  readonly fixes: readonly Fix[];
}

/** What a rule hands in; slug and severity are the rule's own unless it says a lesser severity. */
export type Reported = Omit<Finding, 'slug' | 'severity' | 'related' | 'fixes' | 'figures'> &
  Partial<Pick<Finding, 'severity' | 'related' | 'fixes' | 'figures'>>;

export interface RuleContext {
  readonly model: Model;
  readonly answers: Answers;
}

export interface Example {
  /** A whole small spec. Findings are marked where they stand: `# finds: slug "text"` at the line's end. */
  readonly spec: string;
  /** Other files of the example by relative path, for `use`. */
  readonly files?: Readonly<Record<string, string>>;
}

/** The page of a finding, in Markdown pieces; `pages.ts` sets them out. */
export interface RulePage {
  readonly title: string;
  /** Why it matters: what can burn, arc, fail or mislead. */
  readonly why: string;
  /** The limit and where it comes from: publication, clause, edition, confirmed or from memory; or common practice, no source. Readers are told it by `tellStatus`. */
  readonly limit: string;
  readonly mend: string;
  readonly wrong: readonly Example[];
  readonly right: readonly Example[];
  /** Slugs of findings that a reader of this page may want next. */
  readonly see?: readonly string[];
}

/** What is said for all parts and runs of a spec, as far as may be known of where one of them is judged by itself. */
export interface SaidForAll {
  /** In which temperatures are told. */
  readonly degrees: Degrees;
  /** Id of the set of limits in force; of one's own that of the published set it is over. */
  readonly limits: string;
}

/** To the whole: what one part or run alone cannot tell. It is asked anew at every edit, of those alone that give rise to it. */
export type Question = (context: RuleContext) => Iterable<Reported>;

/** What is found of one part or run, or is to be asked of it. */
export type OfOne = Reported | Question | readonly (Reported | Question)[] | undefined;

interface Judges {
  /** Decides from the spec, or from the section that hangs together. */
  check(context: RuleContext): Iterable<Reported>;
  /** Which kinds of part `ofPart` is asked of; all where this is not said. */
  forKind(kind: KindSpec): boolean;
  /**
   * Decides from one part: from what it says, its box and place, and what is said for all. It is asked again only when one of
   * these is another object, so whatever else it needs, it must leave to a question.
   */
  ofPart(part: Part, said: SaidForAll): OfOne;
  /** Decides from one run, with the ways through walls, the places and the parts at its ends as the run itself has them. */
  ofRun(run: Run, said: SaidForAll): OfOne;
}

type AtLeastOne<T> = { [Key in keyof T]: Pick<T, Key> }[keyof T];

export type Rule = RuleAbout & Partial<Judges> & AtLeastOne<Omit<Judges, 'forKind'>>;

export interface RuleAbout {
  readonly slug: string;
  readonly severity: Severity;
  /** `language` rules turn the problems of reading into findings; `electrics` decide from model and answers. */
  readonly group:
    | 'language'
    | 'cable'
    | 'protection'
    | 'switching'
    | 'entries'
    | 'battery'
    | 'panels'
    | 'network'
    | 'spec';
  /**
   * `whole`: it decides from the spec as a whole, as rules that hand on what reading found do. All others decide from what
   * hangs together, and are asked for each such section by itself.
   */
  readonly scope?: 'whole';
  /**
   * It tells of something that is not there, or of what follows from all that is joined: withheld while any name of the spec is
   * not known, which might mean just that.
   */
  readonly restsOnAllNames?: true;
  /** Clauses it decides from, as `kind.clause` or `run.clause`; a test fails if one does not exist. */
  readonly reads: readonly string[];
  readonly page: RulePage;
}
