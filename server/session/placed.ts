/** What every request needs: the analysis of its document with the offset meant, and answers in the client's own addresses. */
import type { TextDocumentPositionParams, WorkspaceEdit } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import type { Workspace } from './features.ts';

export async function placed(
  workspace: Workspace,
  { textDocument, position }: TextDocumentPositionParams,
): Promise<{ readonly analysis: Analysis; readonly offset: number } | undefined> {
  const analysis = await workspace.analysis(textDocument.uri);
  return analysis === undefined ? undefined : { analysis, offset: analysis.lines.offset(position) };
}

/** Edits by the addresses the client knows its documents by. */
export function editAtClient(workspace: Workspace, { changes = {} }: WorkspaceEdit): WorkspaceEdit {
  return {
    changes: Object.fromEntries(Object.entries(changes).map(([uri, edits]) => [workspace.clientUri(uri), edits])),
  };
}

/** A symbol or location under the address the client knows. */
export function symbolAtClient<T extends { readonly location: { readonly uri: string } }>(
  workspace: Workspace,
  symbol: T,
): T {
  return { ...symbol, location: { ...symbol.location, uri: workspace.clientUri(symbol.location.uri) } };
}
