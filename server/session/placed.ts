/** What requests need: an analysis of their document with the offset meant, and answers in the client's own addresses. */
import type { CancellationToken, TextDocumentPositionParams, WorkspaceEdit } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import type { Workspace } from './features.ts';

/** `analysisOf` says how much of the analysis is waited for. */
export async function placed(
  analysisOf: (uri: string, token: CancellationToken) => Promise<Analysis | undefined>,
  { textDocument, position }: TextDocumentPositionParams,
  token: CancellationToken,
): Promise<{ readonly analysis: Analysis; readonly offset: number } | undefined> {
  const analysis = await analysisOf(textDocument.uri, token);
  return analysis === undefined ? undefined : { analysis, offset: analysis.lines.offset(position) };
}

/** Edits by the addresses the client knows its documents by, and for the very text that they were made for where it can tell. */
export function editAtClient(workspace: Workspace, { changes = {} }: WorkspaceEdit): WorkspaceEdit {
  const edits = Object.entries(changes).map(([uri, own]) => [workspace.clientUri(uri), own] as const);
  if (!workspace.client().versionedEdits) return { changes: Object.fromEntries(edits) };
  return {
    documentChanges: edits.map(([uri, own]) => ({
      textDocument: { uri, version: workspace.version(uri) ?? null },
      edits: own,
    })),
  };
}

/** A symbol or location under the address the client knows. */
export function symbolAtClient<T extends { readonly location: { readonly uri: string } }>(
  workspace: Workspace,
  symbol: T,
): T {
  return { ...symbol, location: { ...symbol.location, uri: workspace.clientUri(symbol.location.uri) } };
}
