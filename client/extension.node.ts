/** Entry of the extension where it runs on Node: the server is a process of its own. */
import { type ExtensionContext, Uri } from 'vscode';
import { type BaseLanguageClient, LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { start } from './extension.ts';
import { serverEngine, serverEnvironment } from './server-process.ts';

let client: BaseLanguageClient | undefined;

export async function activate(context: ExtensionContext): Promise<void> {
  const module = Uri.joinPath(context.extensionUri, 'dist', 'server.quick.js').fsPath;
  const args = ['--compiled', Uri.joinPath(context.globalStorageUri, 'server.compiled').fsPath];
  client = await start(context, (id, name, options) => {
    const own = { env: serverEnvironment(process.env), execArgv: [...serverEngine] };
    return new LanguageClient(id, name, { module, args, transport: TransportKind.ipc, options: own }, options);
  });
}

export function deactivate(): Promise<void> | undefined {
  return client?.dispose();
}
