/**
 * The parser of one statement (chevrotain, recovery on): its first word, the names and title of its head, and a flat run of
 * atoms behind. What the atoms mean as clauses is shaped afterwards from the kind's table (`shape.ts`).
 */
import { EmbeddedActionsParser, type IToken } from 'chevrotain';
import { AnyAtom, allTokens, Text, Word } from './tokens.ts';

export type Head = 'none' | 'name' | 'names';

export interface ParsedStatement {
  readonly keyword: IToken | undefined;
  readonly names: readonly IToken[];
  readonly title: IToken | undefined;
  readonly body: readonly IToken[];
}

/** What the parser asks of the vocabulary: see `Heads` of `atoms.ts`. */
interface HeadWords {
  headOf(word: string): Head;
  titled(word: string): boolean;
  opensClause(word: string, first: string): boolean;
}

const noWords: HeadWords = { headOf: () => 'none', titled: () => false, opensClause: () => false };

export class StatementParser extends EmbeddedActionsParser {
  private words: HeadWords = noWords;
  private first = '';
  private head: Head = 'none';

  /** One token ahead tells what follows. A test looks the grammar over; at every start it would only cost time. */
  constructor(skipValidations = true) {
    super([...allTokens, AnyAtom], { recoveryEnabled: true, maxLookahead: 1, skipValidations });
    this.performSelfAnalysis();
  }

  readonly statement = this.RULE('statement', (): ParsedStatement => {
    const names: IToken[] = [];
    const body: IToken[] = [];
    let keyword: IToken | undefined;
    let title: IToken | undefined;
    this.OPTION(() => {
      keyword = this.CONSUME(Word);
      this.ACTION(() => {
        this.first = (keyword as IToken).image;
        this.head = this.words.headOf(this.first);
      });
    });
    this.OPTION4({
      // `fuse "Main fuse" F1`: the name was meant to stand first.
      GATE: () =>
        this.head !== 'none' && this.LA(2).tokenType === Word && !this.words.opensClause(this.LA(2).image, this.first),
      DEF: () => {
        title = this.CONSUME4(Text);
      },
    });
    this.OPTION1({
      // `panel in ROOF`: the name was left out, and what follows are clauses already.
      GATE: () => this.head !== 'none' && !this.words.opensClause(this.LA(1).image, this.first),
      DEF: () => {
        names.push(this.CONSUME1(Word));
        this.MANY({
          GATE: () => this.head === 'names' && this.LA(1).image === 'and' && this.LA(2).tokenType === Word,
          DEF: () => {
            this.CONSUME2(Word);
            names.push(this.CONSUME3(Word));
          },
        });
      },
    });
    this.OPTION3({
      GATE: () => title === undefined && (this.head !== 'none' || this.words.titled(this.first)),
      DEF: () => {
        title = this.CONSUME(Text);
      },
    });
    this.MANY1(() => {
      body.push(this.CONSUME(AnyAtom));
    });
    return { keyword, names, title, body };
  });

  read(tokens: IToken[], words: HeadWords): ParsedStatement {
    this.words = words;
    this.first = '';
    this.head = 'none';
    this.input = tokens;
    return this.statement();
  }
}

/** One instance: building a parser is dear, running it is not. */
export const statementParser = new StatementParser();
