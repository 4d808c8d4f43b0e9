/** Files for a server that cannot reach them: in a browser, or in a workspace that is on no disk. */
import { Uri, workspace } from 'vscode';
import { decodeSpec, type FileText, mostSpecs, whyMissing } from '../server/session/protocol.ts';

export async function readSpec(uri: string): Promise<FileText> {
  try {
    return decodeSpec(await workspace.fs.readFile(Uri.parse(uri)));
  } catch (error) {
    return whyMissing(error);
  }
}

/** Addresses of all specs in the folders that are open. */
export async function listSpecs(): Promise<string[]> {
  const found = await workspace.findFiles('**/*.amps', '**/{node_modules,.*}/**', mostSpecs);
  return found.map((uri) => uri.toString());
}
