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

class StatementParser extends EmbeddedActionsParser {
  /** What head the first word has; the vocabulary knows. */
  headOf: (word: string) => Head = () => 'none';
  private head: Head = 'none';

  constructor() {
    super([...allTokens, AnyAtom], { recoveryEnabled: true, maxLookahead: 3 });
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
        this.head = this.headOf((keyword as IToken).image);
      });
    });
    this.OPTION1({
      GATE: () => this.head !== 'none',
      DEF: () => {
        names.push(this.CONSUME1(Word));
        this.MANY({
          GATE: () => this.head === 'names' && this.LA(1).image === 'and',
          DEF: () => {
            this.CONSUME2(Word);
            this.OPTION2(() => {
              names.push(this.CONSUME3(Word));
            });
          },
        });
      },
    });
    this.OPTION3({
      GATE: () => this.head !== 'none' || this.titled,
      DEF: () => {
        title = this.CONSUME(Text);
      },
    });
    this.MANY1(() => {
      body.push(this.CONSUME(AnyAtom));
    });
    return { keyword, names, title, body };
  });

  /** `system "Title"` has a title and no name. */
  private titled = false;

  read(tokens: IToken[], headOf: (word: string) => Head, titled: (word: string) => boolean): ParsedStatement {
    this.headOf = headOf;
    this.head = 'none';
    const first = tokens[0];
    this.titled = first !== undefined && first.tokenType === Word && titled(first.image);
    this.input = tokens;
    return this.statement();
  }
}

/** One instance: building a parser is dear, running it is not. */
export const statementParser = new StatementParser();
