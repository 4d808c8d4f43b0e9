/**
 * The page of a finding, opened from its code. The pages are packaged with the extension and shown under an address of their
 * own, since the extension itself may lie on a disk, on another machine or behind a web server.
 */
import { type TextDocumentContentProvider, Uri, workspace } from 'vscode';

export const pagesScheme = 'ampscribe-page';

export function pageProvider(extension: Uri): TextDocumentContentProvider {
  return {
    async provideTextDocumentContent({ path }) {
      const name = path.replace(/^\/+/, '');
      try {
        return new TextDecoder().decode(await workspace.fs.readFile(Uri.joinPath(extension, 'dist', 'pages', name)));
      } catch {
        return `# There is no page “${name}”\n\nThis version of Ampscribe has no finding of that name.\n`;
      }
    },
  };
}
