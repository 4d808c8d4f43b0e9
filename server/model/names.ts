/** Looking names up: what kind of thing is wanted, near matches for what is not there, and the record of every use. */
import { nearWords } from '../../grammar/near.ts';
import { article, list } from '../../grammar/phrases.ts';
import { kindCalled } from '../kinds/vocabulary.ts';
import { type Beyond, nothingBeyond } from './beyond.ts';
import { type Declaration, type Declarations, type Declared, describe } from './declarations.ts';
import { lazilyEach } from './lazily.ts';
import type { Lookups } from './lookups.ts';
import type { NameUse, Place, PlacedProblem } from './model.ts';
import { fix, placeIn, problem, statementAt } from './place.ts';

/** What a name may stand for: `enclosure`, `entry`, `battery` and `selector` are parts of that kind. */
export type Wanted = Declared | 'enclosure' | 'entry' | 'battery' | 'selector';

const wantedKinds: ReadonlySet<string> = new Set(['enclosure', 'entry', 'battery', 'selector']);
const allWanted: ReadonlySet<string> = new Set(['part', 'run', 'stock', 'place', 'case', ...wantedKinds]);

/** How to write what is missing, for those who have not declared it yet. */
const howToDeclare: Readonly<Partial<Record<Wanted, string>>> = {
  place: 'place LOFT 55 °C',
  enclosure: 'enclosure ROOF-BOX plastic, IP65',
  entry: 'entry E1 in ROOF-BOX, gland M25',
  stock: 'stock thin6 cable 6 mm²',
  selector: 'selector S9 200 A, positions off 1 2 both',
  case: 'case night sun 0 %',
};

/** Comparisons spent on near matches in one build; a text that is all noise has thousands of names that mean nothing. */
const nearBudget = 400_000;

/** The targets in a form's `name<part|run>`. */
export const wantedBy = lazilyEach((type: string): readonly Wanted[] => {
  const inside = /^name<(.*)>$/u.exec(type)?.[1] ?? '';
  const targets = inside === 'any' ? ['part', 'run', 'place', 'stock', 'case'] : inside.split('|');
  return targets.filter((target): target is Wanted => allWanted.has(target));
});

/** `F1` and `B1`: the letters tell what kind of thing is meant, so that one is hardly ever written for the other. */
function isOtherDesignation(name: string, other: string): boolean {
  const letters = (one: string) => /^(\p{Lu}{1,2})\d+$/u.exec(one.toUpperCase())?.[1];
  const [own, its] = [letters(name), letters(other)];
  return own !== undefined && its !== undefined && own !== its;
}

export class Names {
  private readonly known = new Map<string, string[]>();
  private spent = 0;

  constructor(
    private readonly declarations: Declarations,
    private readonly lookups: Lookups,
    private readonly problems: PlacedProblem[],
    private readonly uses: NameUse[],
    /** A used file is not there: what it may declare is not held against the names of this one. */
    private readonly incomplete = false,
    private readonly beyond: Beyond = nothingBeyond,
  ) {}

  /** The declaration a name stands for, if it is of a wanted kind. */
  find(name: string, wanted: readonly Wanted[]): Declaration | undefined {
    const declared = this.named(name);
    const isWanted = (declaration: Declaration) => wanted.some((want) => fits(declaration, want));
    if (declared !== undefined && isWanted(declared)) return declared;
    const named = wanted.includes('case') ? this.declarations.cases.get(name) : undefined;
    return named !== undefined && isWanted(named) ? named : undefined;
  }

  /** Records a use of a name at its place; an unknown or unfit one becomes one problem. */
  use(name: string, place: Place, wanted: readonly Wanted[]): Declaration | undefined {
    const found = this.find(name, wanted);
    if (found !== undefined) {
      this.uses.push({ place, name, target: found.as, declaration: false });
      return found;
    }
    // What is not there may be near to any name.
    this.lookups.doubt();
    if (this.isGhost(name)) {
      const target = wanted.length === 1 && !wantedKinds.has(wanted[0] ?? '') ? (wanted[0] as Declared) : 'part';
      this.uses.push({ place, name, target, declaration: false });
      return undefined;
    }
    const other = this.named(name) ?? this.declarations.cases.get(name);
    if (other === undefined && this.incomplete && !this.near(name, wanted).some((word) => isSlip(name, word)))
      return undefined;
    this.problems.push(
      other === undefined ? this.unknown(name, place, wanted) : this.unfit(name, place, wanted, other),
    );
    return undefined;
  }

  terminal(id: string, place: Place, declaration = false): void {
    this.uses.push({ place, name: id, target: 'terminal', declaration });
  }

  /** Known names of the wanted kinds that are near to one that is not. */
  near(name: string, wanted: readonly Wanted[], everywhere: boolean = this.beyond.seesAll): string[] {
    const known = this.namesOf(wanted, everywhere);
    if (this.spent > nearBudget) return [];
    this.spent += known.length;
    return nearWords(name, known);
  }

  /** A broken statement seems to declare it. */
  isGhost(name: string): boolean {
    return this.declarations.ghosts.has(name) || (this.beyond.seesAll && this.beyond.declared(name) === 'seemingly');
  }

  private named(name: string): Declaration | undefined {
    const here = this.declarations.byName.get(name);
    if (here !== undefined || !this.beyond.seesAll) return here;
    this.lookups.doubt();
    const there = this.beyond.declared(name);
    return there === 'seemingly' ? undefined : there;
  }

  private namesOf(wanted: readonly Wanted[], everywhere: boolean): readonly string[] {
    const key = `${everywhere ? 'all ' : ''}${wanted.join('|')}`;
    let names = this.known.get(key);
    if (names === undefined) {
      const fit = (one: Declaration) => wanted.some((want) => fits(one, want));
      const all = everywhere ? [...this.declarations.all, ...this.beyond.declarations()] : this.declarations.all;
      names = [...new Set(all.filter(fit).map(({ name }) => name))];
      this.known.set(key, names);
    }
    return names;
  }

  private unknown(name: string, place: Place, wanted: readonly Wanted[]): PlacedProblem {
    // `B1-` may be a name, so that reading alone cannot tell that a terminal was meant.
    const part = name.endsWith('-') ? this.named(name.slice(0, -1)) : undefined;
    if (part?.as === 'part') {
      const right = `${part.name}:-`;
      return problem('unknown-name', place, `“${name}” is no part: did you mean ${right}?`, {
        subject: name,
        related: [{ message: `${part.name} is declared here`, place: part.namePlace }],
        fixes: [fix(`Write ${right}`, place, right, true)],
      });
    }
    const joined = wanted.includes('part') ? this.joinedTerminal(name) : undefined;
    if (joined !== undefined)
      return problem('unknown-name', place, `“${name}” is no part: did you mean ${joined}?`, {
        subject: name,
        fixes: [fix(`Write ${joined}`, place, joined)],
      });
    if (wanted.includes('entry') && /^M\d+$/.test(name))
      return problem('unknown-name', place, `“${name}” is the size of a gland: write gland ${name}.`, {
        subject: name,
        fixes: [fix(`Write gland ${name}`, place, `gland ${name}`, true)],
      });
    const near = this.near(name, wanted).filter((one) => !isOtherDesignation(name, one));
    const example = wanted.map((want) => howToDeclare[want]).find((said) => said !== undefined);
    const kind = wanted.includes('part') ? kindCalled(name) : undefined;
    const message =
      near.length > 0
        ? `There is no ${list(wanted)} “${name}”: did you mean ${list(near)}?`
        : kind !== undefined
          ? `There is no ${list(wanted)} “${name}”: declare one, as in “${kind.example}”, and write its name here.`
          : `There is no ${list(wanted)} “${name}” here or in the files this one uses: ${example === undefined ? 'write its statement' : `declare it, as in “${example}”`}, or correct the name.`;
    return problem('unknown-name', place, message, {
      subject: name,
      fixes: near.map((word) => fix(`Write ${word}`, place, word, near.length === 1 && isSlip(name, word))),
    });
  }

  /** `F2-out` for `F2:out`: a part’s name in capitals, and small letters behind a dash or an underscore. */
  private joinedTerminal(name: string): string | undefined {
    const [, part = '', terminal = ''] = /^(\p{Lu}[\p{Lu}\p{N}_-]*)[-_](\p{Ll}+|\d{1,2})$/u.exec(name) ?? [];
    return this.named(part)?.as === 'part' ? `${part}:${terminal}` : undefined;
  }

  private unfit(name: string, place: Place, wanted: readonly Wanted[], other: Declaration): PlacedProblem {
    // What it is near to does not hang together with it as what it names does.
    const near = this.near(name, wanted, true);
    const meant = otherWord(place, wanted, other);
    if (meant !== undefined)
      return problem('unknown-name', place, `“${name}” is ${describe(other)}: write ${meant.word} ${name}.`, {
        subject: name,
        related: [{ message: `${name} is declared here`, place: other.namePlace }],
        fixes: [fix(`Write ${meant.word} ${name}`, meant.place, meant.word, true)],
      });
    const wantedText = list(wanted.map((want) => (want === 'stock' ? 'stock' : article(want))));
    return problem(
      'unknown-name',
      place,
      `“${name}” is ${describe(other)}, where the name of ${wantedText} belongs: correct the name.`,
      {
        subject: name,
        related: [{ message: `${name} is declared here`, place: other.namePlace }],
        fixes: near.map((word) => fix(`Write ${word}`, place, word)),
      },
    );
  }
}

/** `in GARAGE` for `at GARAGE`, and `at POWER-BOX` for `in POWER-BOX`. */
function otherWord(
  place: Place,
  wanted: readonly Wanted[],
  other: Declaration,
): { readonly word: string; readonly place: Place } | undefined {
  const statement = statementAt(place);
  if (statement === undefined) return undefined;
  const at = place.span.start - statement.offset;
  const [, written, gap = ''] = /\b(in|at)(\s+)$/u.exec(statement.node.text.slice(0, at)) ?? [];
  const isBox = other.origin.statement.shaped.spec?.word === 'enclosure';
  const word =
    written === 'in' && wanted.includes('enclosure') && other.as === 'place'
      ? 'at'
      : written === 'at' && wanted.includes('place') && other.as === 'part' && isBox
        ? 'in'
        : undefined;
  if (word === undefined) return undefined;
  const end = at - gap.length;
  return { word, place: placeIn({ file: { uri: place.uri }, statement }, { start: end - 2, end }) };
}

function fits(declaration: Declaration, want: Wanted): boolean {
  if (wantedKinds.has(want))
    return declaration.as === 'part' && declaration.origin.statement.shaped.spec?.word === want;
  return declaration.as === want;
}

/**
 * A slip of the hand for certain, and not another thing that is still to be declared: the same digits, and other case, another
 * dash, two letters that changed places, or one too few or too many within a word. Another letter makes another word
 * (`LIGHT`, `NIGHT`), and so may one more at either end of it (`LAMP`, `LAMPS`, `LAMP-B`).
 */
export function isSlip(written: string, meant: string): boolean {
  const digits = (text: string) => text.replaceAll(/\D+/gu, ' ').trim();
  if (digits(written) !== digits(meant)) return false;
  // `LAMP-A` and `LAMP-B` are two, as `F1` and `F2` are.
  const letter = (text: string) => /[-_](\p{L})$/u.exec(text)?.[1]?.toLowerCase() ?? '';
  if (letter(written) !== letter(meant)) return false;
  const plain = (text: string) => text.toLowerCase().replaceAll(/[-_]/gu, '');
  if (plain(written) === plain(meant)) return true;
  const letters = (text: string) => text.replaceAll(/[^\p{L}]/gu, '').length;
  const [short, long] = [written, meant]
    .map((text) => text.toLowerCase().replaceAll('_', '-'))
    .sort((a, b) => a.length - b.length) as [string, string];
  return letters(short) >= 4 && isAmissWithin(short, long);
}

/** Whether letters changed places in a word, or one is missing in it that is neither its first nor its last. */
function isAmissWithin(short: string, long: string): boolean {
  let at = 0;
  while (at < short.length && short[at] === long[at]) at += 1;
  const [, before = ''] = /(\p{L}*)$/u.exec(short.slice(0, at)) ?? [];
  const [behind = ''] = /^\p{L}*/u.exec(short.slice(at)) ?? [];
  if (before.length + behind.length < 3) return false;
  if (short.length < long.length)
    return before !== '' && behind !== '' && short.slice(at) === long.slice(at + 1) && /\p{L}/u.test(long[at] ?? '');
  const [first = '', second = ''] = behind;
  return second !== '' && long.slice(at) === `${second}${first}${short.slice(at + 2)}`;
}
