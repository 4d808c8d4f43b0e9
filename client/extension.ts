/** What is the same on the desktop and in the browser: one client, the pages of findings, the status entry, the commands. */
import { commands, type ExtensionContext, languages, window, workspace } from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';
import {
  type FileText,
  listSpecsRequest,
  type ReadFileParams,
  readFileRequest,
  type ServerOptions,
  showCaseCommand,
  showFindingsCommand,
} from '../server/session/protocol.ts';
import { listSpecs, readSpec } from './files.ts';
import { pageProvider, pagesScheme } from './pages.ts';
import { registerPictures } from './picture/pictures.ts';
import { Status } from './status.ts';

export const languageId = 'ampscribe';

/** Makes the client in the way its platform starts the server. */
export type MakeClient = (id: string, name: string, options: LanguageClientOptions) => BaseLanguageClient;

export async function start(context: ExtensionContext, make: MakeClient): Promise<BaseLanguageClient> {
  const serverOptions: ServerOptions = {
    pages: `${pagesScheme}:/`,
    pictures: true,
    commands: [showFindingsCommand, showCaseCommand],
  };
  const client = make('ampscribe', 'Ampscribe', {
    documentSelector: [{ language: languageId }],
    initializationOptions: serverOptions,
    progressOnInitialization: true,
  });
  const status = new Status(languageId, client);
  context.subscriptions.push(
    status,
    workspace.registerTextDocumentContentProvider(pagesScheme, pageProvider(context.extensionUri)),
    client.onRequest(readFileRequest, ({ uri }: ReadFileParams): Promise<FileText> => readSpec(uri)),
    client.onRequest(listSpecsRequest, listSpecs),
    commands.registerCommand('ampscribe.restart', async () => {
      if (client.needsStop()) await client.stop();
      await client.start();
    }),
    commands.registerCommand('ampscribe.showLog', () => client.outputChannel.show()),
    commands.registerCommand('ampscribe.showFindings', () =>
      commands.executeCommand('workbench.actions.view.problems'),
    ),
    languages.onDidChangeDiagnostics(() => status.update()),
    window.onDidChangeActiveTextEditor(() => status.update()),
  );
  registerPictures(context, client);
  await client.start();
  return client;
}
