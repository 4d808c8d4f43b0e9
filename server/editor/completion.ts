/** Completion: what may be written at the pointer, and nothing else. */
import type { CompletionItem } from 'vscode-languageserver';
import { expectedAt } from '../../grammar/expected.ts';
import type { Analysis } from '../analysis.ts';
import { clauseOffers } from './completion/clauses.ts';
import { type CompletionOptions, contextOf } from './completion/context.ts';
import { mayDeclare } from './completion/declare.ts';
import { newNames } from './completion/new-names.ts';
import { itemsOf, type Offer } from './completion/offers.ts';
import { kindOffers, statementOffers } from './completion/statements.ts';
import { unitOffers } from './completion/units.ts';

export type { CompletionOptions };

/** Whether other offers come with the next letter: where a name may be new, it is offered to declare it. */
export function changesWithEachLetter(analysis: Analysis, offset: number): boolean {
  return expectedAt(analysis.tree, offset).expected.some(mayDeclare);
}

/** What fits at an offset, best first. The whole list is given, whatever is typed of the word: editors narrow it themselves. */
export function completion(analysis: Analysis, offset: number, options: CompletionOptions): CompletionItem[] {
  const context = contextOf(analysis, offset, expectedAt(analysis.tree, offset), options);
  const offers = (): readonly Offer[] => {
    switch (context.at.where) {
      case 'statement':
        return statementOffers(context);
      case 'name':
        return newNames(context);
      case 'kind':
        return kindOffers();
      case 'clause':
        return clauseOffers(context);
      case 'unit':
        return unitOffers(context);
      case 'text':
      case 'comment':
        return [];
    }
  };
  return itemsOf(context, offers());
}
