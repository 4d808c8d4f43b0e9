/** Requests about how a file is laid out and looks: outline, folding, growing selections, links, swatches. */
import type { Connection, DocumentSymbol, SymbolKind } from 'vscode-languageserver';
import type { Features, Workspace } from './features.ts';
import { guarded } from './guard.ts';
import { type KindFor, ofKind } from './kinds-known.ts';
import { symbolAtClient } from './placed.ts';
import { resolveUse } from './uris.ts';

export function registerShape(connection: Connection, workspace: Workspace, using: Features): void {
  const log = connection.console;

  connection.onDocumentSymbol(
    guarded(log, 'outline', [], async ({ textDocument }, token) => {
      const analysis = await workspace.named(textDocument.uri, token);
      if (analysis === undefined) return [];
      const { nestedSymbols, outlineKind } = workspace.client();
      return nestedSymbols
        ? nestedOfKind(using.outline(analysis), outlineKind)
        : using.flatOutline(analysis).map((symbol) => ofKind(symbolAtClient(workspace, symbol), outlineKind));
    }),
  );

  connection.onFoldingRanges(
    guarded(log, 'folding', [], async ({ textDocument }, token) => {
      const analysis = await workspace.named(textDocument.uri, token);
      return analysis === undefined ? [] : using.folding(analysis);
    }),
  );

  connection.onSelectionRanges(
    guarded(log, 'selection ranges', [], async ({ textDocument, positions }, token) => {
      const analysis = await workspace.named(textDocument.uri, token);
      if (analysis === undefined) return [];
      return using.selectionRanges(
        analysis,
        positions.map((position) => analysis.lines.offset(position)),
      );
    }),
  );

  connection.onDocumentLinks(
    guarded(log, 'links', [], async ({ textDocument }, token) => {
      const analysis = await workspace.named(textDocument.uri, token);
      if (analysis === undefined) return [];
      const { pageUri } = workspace.diagnosticOptions();
      return using
        .documentLinks(analysis, { resolve: resolveUse, pageUri })
        .map((link) => (link.target === undefined ? link : { ...link, target: workspace.clientUri(link.target) }));
    }),
  );

  connection.onDocumentColor(
    guarded(log, 'swatches', [], async ({ textDocument }, token) => {
      const analysis = await workspace.named(textDocument.uri, token);
      return analysis === undefined ? [] : using.documentColours(analysis);
    }),
  );

  connection.onColorPresentation(
    guarded(log, 'swatches', [], async ({ textDocument, range, color }, token) => {
      const analysis = await workspace.named(textDocument.uri, token);
      return analysis === undefined ? [] : using.colourPresentations(analysis, range, color);
    }),
  );
}

function nestedOfKind(symbols: DocumentSymbol[], kindFor: KindFor<SymbolKind>): DocumentSymbol[] {
  if (kindFor === undefined) return symbols;
  return symbols.map((symbol) => {
    const { children } = symbol;
    const itself = ofKind(symbol, kindFor);
    return children === undefined ? itself : { ...itself, children: nestedOfKind(children, kindFor) };
  });
}
