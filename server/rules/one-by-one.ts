/**
 * Parts and runs that are judged one by one, each once by all rules that decide from one alone; and what was found is kept with
 * it. The model keeps a part or run as the same object while it says the same and all that it names is the same
 * (`model/kept.ts`), so an edit judges only what it made anew.
 */
import type { KindSpec } from '../kinds/kind.ts';
import type { Part, Run } from '../model/model.ts';
import type { Steps } from '../model/steps.ts';
import { finding } from './finding.ts';
import type { Finding, OfOne, Question, Reported, Rule, RuleContext, SaidForAll } from './rule.ts';
import { degreesOf } from './words.ts';

/** What a rule found, or what it would have to ask. */
export interface Told {
  readonly rule: Rule;
  readonly is: Finding | Question;
}

interface Kept {
  readonly said: SaidForAll;
  readonly told: readonly Told[];
}

interface Judge<T> {
  readonly rule: Rule;
  readonly forKind?: ((kind: KindSpec) => boolean) | undefined;
  readonly of: (one: T, said: SaidForAll) => OfOne;
}

/** So many are judged without a rest. */
const atOnce = 50;

export class OneByOne {
  private readonly ofParts: readonly Judge<Part>[];
  private readonly ofRuns: readonly Judge<Run>[];
  private readonly byKind = new Map<KindSpec, readonly Judge<Part>[]>();
  private readonly kept = new WeakMap<Part | Run, Kept>();
  private counts = { parts: 0, runs: 0 };

  constructor(rules: readonly Rule[]) {
    this.ofParts = rules.flatMap((rule) => {
      const { ofPart, forKind } = rule;
      return ofPart === undefined ? [] : [{ rule, forKind, of: ofPart }];
    });
    this.ofRuns = rules.flatMap((rule) => {
      const { ofRun } = rule;
      return ofRun === undefined ? [] : [{ rule, of: ofRun }];
    });
  }

  private readonly forPart = ({ kind }: Part): readonly Judge<Part>[] => {
    let judges = this.byKind.get(kind);
    if (judges === undefined) {
      judges = this.ofParts.filter(({ forKind }) => forKind?.(kind) !== false);
      this.byKind.set(kind, judges);
    }
    return judges;
  };

  /** How many parts and runs were judged, and not found to be as before. */
  get counted(): Readonly<typeof this.counts> {
    return { ...this.counts };
  }

  /** Of all parts, then of all runs. A rule that throws is put among the failures, and the others go on. */
  *judge(context: RuleContext, failures: Map<Rule, unknown>): Steps<readonly Told[]> {
    const { model } = context;
    const said = saidForAll(context);
    const told: Told[] = [];
    if (this.ofParts.length > 0)
      this.counts.parts += yield* this.judgeAll(model.parts.values(), this.forPart, said, told, failures);
    if (this.ofRuns.length > 0)
      this.counts.runs += yield* this.judgeAll(model.runs.values(), () => this.ofRuns, said, told, failures);
    return told;
  }

  /** Adds what is told of each; how many were judged. */
  private *judgeAll<T extends Part | Run>(
    all: Iterable<T>,
    judgesOf: (one: T) => readonly Judge<T>[],
    said: SaidForAll,
    told: Told[],
    failures: Map<Rule, unknown>,
  ): Steps<number> {
    const quiet: Kept = { said, told: [] };
    let judged = 0;
    for (const one of all) {
      let kept = this.kept.get(one);
      if (kept === undefined || kept.said.degrees !== said.degrees || kept.said.limits !== said.limits) {
        if (judged % atOnce === atOnce - 1) yield;
        judged += 1;
        const own = judgeOne(one, judgesOf(one), said, failures);
        kept = own === undefined ? quiet : { said, told: own.told };
        // What could not be worked out is tried again, and told again.
        if (own?.isSound !== false) this.kept.set(one, kept);
      }
      if (kept !== quiet && kept.told.length > 0) told.push(...kept.told);
    }
    return judged;
  }
}

/** Undefined where there is nothing to tell. */
function judgeOne<T>(
  one: T,
  judges: readonly Judge<T>[],
  said: SaidForAll,
  failures: Map<Rule, unknown>,
): { readonly told: readonly Told[]; readonly isSound: boolean } | undefined {
  let own: { told: Told[]; isSound: boolean } | undefined;
  let at = 0;
  while (at < judges.length) {
    try {
      for (; at < judges.length; at++) {
        const { rule, of } = judges[at] as Judge<T>;
        const found = of(one, said);
        if (found === undefined) continue;
        own ??= { told: [], isSound: true };
        if (typeof found === 'function' || 'message' in found) own.told.push(tell(rule, found));
        else for (const each of found) own.told.push(tell(rule, each));
      }
    } catch (error) {
      const { rule } = judges[at] as Judge<T>;
      own ??= { told: [], isSound: true };
      own.isSound = false;
      if (!failures.has(rule)) failures.set(rule, error);
      at += 1;
    }
  }
  return own;
}

function tell(rule: Rule, found: Reported | Question): Told {
  return { rule, is: typeof found === 'function' ? found : finding(rule, found) };
}

export function saidForAll({ model, answers: { limits } }: RuleContext): SaidForAll {
  return { degrees: degreesOf(model), limits: limits.base ?? limits.id };
}

const books = new WeakMap<readonly Rule[], OneByOne>();

/** The one of a list of rules. */
export function oneByOne(rules: readonly Rule[]): OneByOne {
  let book = books.get(rules);
  if (book === undefined) {
    book = new OneByOne(rules);
    books.set(rules, book);
  }
  return book;
}
