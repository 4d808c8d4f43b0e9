/** Every feature, asked about a place or a whole file. */
import type { Analysis } from '../../server/analysis.ts';
import { diskSource } from '../../server/cli/files.ts';
import type { SupplyData } from '../../server/editor/supply.ts';
import { features } from '../../server/session/features.ts';

export const disk = diskSource();
const shown = { runHints: true, blankHints: true, poleHints: true, lenses: true };
const pageUri = (slug: string) => `pages:/${slug}.md`;

/** Features that are asked about a place. */
export function atPlace(analysis: Analysis, offset: number): Record<string, unknown> {
  const items = features.prepareSupply(analysis, offset);
  const supply = items.flatMap(({ data }) => [
    ...features.feeding(analysis, data as SupplyData),
    ...features.fed(analysis, data as SupplyData),
  ]);
  // Edits that are worked out when an action is chosen have tests of their own.
  const diagnosing = { pageUri, relatedInformation: true, tags: true, resolves: true };
  return {
    hover: features.hover(analysis, offset, { markdown: true, pictures: true }),
    completion: features.completion(analysis, offset, { snippets: true, markdown: true }),
    codeActions: features.codeActions(analysis, { start: offset, end: offset }, diagnosing),
    definition: features.definition(analysis, offset, disk.resolve),
    links: features.definitionLinks(analysis, offset, features.definition(analysis, offset, disk.resolve)),
    references: features.references(analysis, offset, { declaration: true }),
    highlights: features.highlights(analysis, offset),
    prepareRename: features.prepareRename(analysis, offset),
    linkedEditing: features.linkedEditing(analysis, offset),
    selectionRanges: features.selectionRanges(analysis, [offset]),
    items,
    supply,
    signatureHelp: features.signatureHelp(analysis, offset, { markdown: true }),
    atComma: features.formattingOnType(analysis, offset, ','),
    atLineEnd: features.formattingOnType(analysis, offset, '\n'),
  };
}

/** Features of a whole file. */
export function ofFile(analysis: Analysis): Record<string, unknown> {
  const whole = { start: 0, end: analysis.text.length };
  const colours = features.documentColours(analysis);
  return {
    outline: features.outline(analysis),
    flatOutline: features.flatOutline(analysis),
    folding: features.folding(analysis),
    documentLinks: features.documentLinks(analysis, { resolve: disk.resolve, pageUri }),
    colours,
    presentations: colours.map(({ range, color }) => features.colourPresentations(analysis, range, color)),
    semanticTokens: features.semanticTokens(analysis),
    inlayHints: features.inlayHints(analysis, whole, shown),
    codeLenses: features.codeLenses(analysis, { showFindings: 'show', showCase: 'show' }),
    formatting: features.formatting(analysis),
    workspaceSymbols: features.workspaceSymbols([analysis], ''),
  };
}
