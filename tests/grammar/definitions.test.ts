import { describe, expect, it } from 'vitest';
import { StatementParser } from '../../grammar/parser.ts';
import { lexer } from '../../grammar/tokens.ts';

/** Looked over here, and not at every start. */
describe('the definitions', () => {
  it('of tokens are sound', () => {
    expect(lexer(false).lexerDefinitionErrors).toEqual([]);
  });

  it('of the grammar are sound', () => {
    expect(() => new StatementParser(false)).not.toThrow();
  });
});
