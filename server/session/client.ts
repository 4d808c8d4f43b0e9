/** What the client said it can do, read once from its capabilities. */
import type { ClientCapabilities, CompletionItemKind, SymbolKind } from 'vscode-languageserver';
import type { SignatureOptions } from '../editor/signature-help.ts';
import { completionKinds, type KindFor, symbolKinds } from './kinds-known.ts';
import type { ServerOptions } from './protocol.ts';

export interface Client {
  /** Pulls diagnostics itself: then nothing is ever pushed. */
  readonly pulls: boolean;
  /** Can be asked to pull again. */
  readonly refreshes: boolean;
  /** The same of semantic tokens, inlay hints and code lenses. */
  readonly refreshesTokens: boolean;
  readonly refreshesHints: boolean;
  readonly refreshesLenses: boolean;
  readonly watchesFiles: boolean;
  /** Answers what its settings are for a file. */
  readonly answersSettings: boolean;
  /** Tells of changed settings when asked to. */
  readonly tellsSettings: boolean;
  /** Answers which folders are open. */
  readonly answersFolders: boolean;
  readonly markdown: boolean;
  /** Shows pictures that stand in the Markdown of a hover itself; said when it starts the server, as no capability tells. */
  readonly pictures: boolean;
  readonly completionMarkdown: boolean;
  readonly signatures: SignatureOptions;
  readonly snippets: boolean;
  /** The nearest kind that it has a picture for. */
  readonly completionKind: KindFor<CompletionItemKind>;
  readonly outlineKind: KindFor<SymbolKind>;
  readonly foundKind: KindFor<SymbolKind>;
  /** Asks for the edit of an action when it is chosen, and hands back what came with it. */
  readonly resolvesActions: boolean;
  readonly nestedSymbols: boolean;
  /** Shows which words lead to a definition, and the statement around it. */
  readonly linksDefinitions: boolean;
  readonly linksDeclarations: boolean;
  readonly relatedInformation: boolean;
  readonly tags: boolean;
  readonly versionedEdits: boolean;
  /** Asks before it moves or renames files what that changes in others. */
  readonly asksBeforeMoves: boolean;
  /** Asks before a rename which word it would be. */
  readonly preparesRename: boolean;
}

export function readCapabilities(capabilities: ClientCapabilities, options?: ServerOptions | null): Client {
  const { textDocument, workspace } = capabilities;
  const published = textDocument?.publishDiagnostics;
  const pulled = textDocument?.diagnostic;
  const action = textDocument?.codeAction;
  const item = textDocument?.completion?.completionItem;
  const signature = textDocument?.signatureHelp?.signatureInformation;
  return {
    pulls: pulled !== undefined,
    refreshes: workspace?.diagnostics?.refreshSupport === true,
    refreshesTokens: workspace?.semanticTokens?.refreshSupport === true,
    refreshesHints: workspace?.inlayHint?.refreshSupport === true,
    refreshesLenses: workspace?.codeLens?.refreshSupport === true,
    watchesFiles: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    answersSettings: workspace?.configuration === true,
    tellsSettings: workspace?.didChangeConfiguration?.dynamicRegistration === true,
    answersFolders: workspace?.workspaceFolders === true,
    markdown: textDocument?.hover?.contentFormat?.includes('markdown') === true,
    pictures: options?.pictures === true,
    completionMarkdown: item?.documentationFormat?.includes('markdown') === true,
    signatures: {
      markdown: signature?.documentationFormat?.includes('markdown') === true,
      labelOffsets: signature?.parameterInformation?.labelOffsetSupport === true,
      noParameter: signature?.noActiveParameterSupport === true,
    },
    snippets: item?.snippetSupport === true,
    completionKind: completionKinds(textDocument?.completion?.completionItemKind?.valueSet),
    outlineKind: symbolKinds(textDocument?.documentSymbol?.symbolKind?.valueSet),
    foundKind: symbolKinds(workspace?.symbol?.symbolKind?.valueSet),
    resolvesActions: action?.dataSupport === true && action.resolveSupport?.properties.includes('edit') === true,
    nestedSymbols: textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport === true,
    linksDefinitions: textDocument?.definition?.linkSupport === true,
    linksDeclarations: textDocument?.declaration?.linkSupport === true,
    relatedInformation: published?.relatedInformation === true || pulled?.relatedInformation === true,
    tags: published?.tagSupport !== undefined || pulled?.tagSupport !== undefined,
    versionedEdits: workspace?.workspaceEdit?.documentChanges === true,
    asksBeforeMoves: workspace?.fileOperations?.willRename === true,
    preparesRename: textDocument?.rename?.prepareSupport === true,
  };
}
