/**
 * Every request of an editor, answered from the analysis of the document as it is now. Each feature is a pure function of
 * `server/editor`; a test may hand in another one.
 */
import type { CancellationToken, Connection } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import { codeActions, resolveCodeAction } from '../editor/code-actions.ts';
import { codeLenses } from '../editor/code-lens.ts';
import { colourPresentations, documentColours } from '../editor/colours.ts';
import { pathAt, pathCompletion } from '../editor/completion/paths.ts';
import { changesWithEachLetter, completion } from '../editor/completion.ts';
import { definition } from '../editor/definition.ts';
import { definitionLinks } from '../editor/definition-links.ts';
import type { DiagnosticOptions } from '../editor/diagnostics.ts';
import { documentLinks } from '../editor/document-links.ts';
import { folding } from '../editor/folding.ts';
import { formatting } from '../editor/formatting.ts';
import { formattingOnType } from '../editor/formatting-on-type.ts';
import { highlights } from '../editor/highlight.ts';
import { hover } from '../editor/hover.ts';
import { inlayHints } from '../editor/inlay-hints.ts';
import { linkedEditing } from '../editor/linked-editing.ts';
import { pathsAfterMoves } from '../editor/moved-files.ts';
import { flatOutline, outline } from '../editor/outline.ts';
import { references } from '../editor/references.ts';
import { prepareRename, rename } from '../editor/rename.ts';
import { selectionRanges } from '../editor/selection-ranges.ts';
import { semanticTokens } from '../editor/semantic-tokens.ts';
import type { Shown } from '../editor/shown.ts';
import { signatureHelp } from '../editor/signature-help.ts';
import { fed, feeding, prepareSupply } from '../editor/supply.ts';
import { declaringFiles } from '../editor/uses.ts';
import { type ReadSpec, workspaceSymbols } from '../editor/workspace-symbols.ts';
import type { Client } from './client.ts';
import { guarded } from './guard.ts';
import { placed } from './placed.ts';
import { registerActions } from './register-actions.ts';
import { registerBeside } from './register-beside.ts';
import { registerFiles } from './register-files.ts';
import { registerNames } from './register-names.ts';
import { registerShape } from './register-shape.ts';
import { registerSupply } from './register-supply.ts';
import { registerTyping } from './register-typing.ts';

export const features = {
  changesWithEachLetter,
  codeActions,
  codeLenses,
  colourPresentations,
  completion,
  declaringFiles,
  definition,
  definitionLinks,
  documentColours,
  documentLinks,
  fed,
  feeding,
  flatOutline,
  folding,
  formatting,
  formattingOnType,
  highlights,
  hover,
  inlayHints,
  linkedEditing,
  outline,
  pathAt,
  pathCompletion,
  pathsAfterMoves,
  prepareRename,
  prepareSupply,
  references,
  rename,
  resolveCodeAction,
  selectionRanges,
  semanticTokens,
  signatureHelp,
  workspaceSymbols,
};

export type Features = typeof features;

/** A spec and others that have to do with it. */
export interface Together {
  readonly analysis: Analysis;
  readonly others: readonly Analysis[];
}

export interface Workspace {
  /** Analysis of a document by the address the client gave; undefined for one that is not open, or when nobody waits for it. */
  analysis(uri: string, token: CancellationToken): Promise<Analysis | undefined>;
  /** The same as soon as its names are known: answers and findings may be missing. */
  named(uri: string, token: CancellationToken): Promise<Analysis | undefined>;
  /** The whole analysis, or only its names where the electrics take longer than a person waits. */
  soonest(uri: string, token: CancellationToken): Promise<Analysis | undefined>;
  /** Analyses of the open specs that use this file, as soon as their names are known. */
  users(uri: string): Promise<readonly Analysis[]>;
  /** As `named`, with the open specs that use it: all of the same moment, since none is true once a text of it has changed. */
  withUsers(uri: string, token: CancellationToken): Promise<Together | undefined>;
  /** As `named`, with the specs in the open folders, open or not, that have one of some files: all of the same moment. */
  withAround(
    uri: string,
    filesOf: (analysis: Analysis) => readonly string[],
    token: CancellationToken,
  ): Promise<Together | undefined>;
  /** Version of an open document, by the address the client gave; undefined for any other. */
  version(uri: string): number | undefined;
  /** Addresses of all specs that are open or in the open folders. */
  addresses(): Promise<readonly string[]>;
  /** The same, and those in the folder of a file, which may be open by itself. */
  addressesFrom(uri: string): Promise<readonly string[]>;
  /** All specs that are open or in the open folders, one after the other, read and not worked out. */
  specs(): AsyncIterable<ReadSpec>;
  /** An address as the client writes it. */
  clientUri(uri: string): string;
  client(): Client;
  /** Commands of the client that may be offered. */
  commands(): readonly string[];
  /** The last analysis of a document that was worked out, of a text that may be older: for an order, never for a figure. */
  before(uri: string): Analysis | undefined;
  /** Reads a document again as if it had another text: what an edit would make of it. */
  again(uri: string): Promise<(text: string) => Analysis>;
  /** What is shown beside a document, by the address the client gave. */
  shown(uri: string): Promise<Shown>;
  diagnosticOptions(): DiagnosticOptions;
}

export function registerFeatures(connection: Connection, workspace: Workspace, using: Features): void {
  const log = connection.console;

  connection.onHover(
    guarded(log, 'hover', null, async (params, token) => {
      const here = await placed(workspace.soonest, params, token);
      if (here === undefined) return null;
      const { analysis, offset } = here;
      const { markdown, pictures } = workspace.client();
      return using.hover(analysis, offset, { markdown, pictures: markdown && pictures });
    }),
  );

  registerActions(connection, workspace, using);
  registerFiles(connection, workspace, using);
  registerNames(connection, workspace, using);
  registerShape(connection, workspace, using);
  registerBeside(connection, workspace, using);
  registerSupply(connection, workspace, using);
  registerTyping(connection, workspace, using);
}
