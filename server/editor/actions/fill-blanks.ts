/** Where a blank stands in the selection: what the tool works out for it. */
import { overlaps } from '../ranges.ts';
import { type Asked, fillBlankKind, type Offered } from './offered.ts';

export function fillBlanks({ analysis, span }: Asked): Offered[] {
  const { model, answers, uri } = analysis;
  return answers.chosen.flatMap(({ subject, clause, text, why }): Offered[] => {
    const facts = model.parts.get(subject)?.facts ?? model.runs.get(subject)?.facts;
    const fact = facts?.fact(clause);
    if (facts === undefined || fact === undefined || fact.fromStock !== undefined || fact.origin.file.uri !== uri)
      return [];
    const value = fact.clause.values.find(({ atom }) => atom.text.startsWith('?'));
    if (value === undefined) return [];
    const { offset } = fact.origin.statement;
    const place = { uri, span: { start: offset + value.span.start, end: offset + value.span.end } };
    if (!overlaps(place.span, span)) return [];
    return [{ title: `Write ${text}, ${why}`, kind: fillBlankKind, edits: [{ place, newText: text }] }];
  });
}
