/** Files for a server that cannot reach them: in a browser, or in a workspace that is on no disk. */
import { Uri, workspace } from 'vscode';
import { decodeSpec, type FileText, whyMissing } from '../server/session/protocol.ts';

export async function readSpec(uri: string): Promise<FileText> {
  try {
    return decodeSpec(await workspace.fs.readFile(Uri.parse(uri)));
  } catch (error) {
    return whyMissing(error);
  }
}
