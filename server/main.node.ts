/** The language server as a process of its own, over standard input and output or the channel of the editor that starts it. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { decodeSpec, whyMissing } from './session/protocol.ts';
import { startServer } from './session/server.ts';

startServer(createConnection(ProposedFeatures.all), {
  readFile: async (uri) => {
    if (!uri.startsWith('file:')) return undefined;
    try {
      return decodeSpec(await readFile(fileURLToPath(uri)));
    } catch (error) {
      return whyMissing(error);
    }
  },
  pageUri: (slug) => pathToFileURL(join(__dirname, 'pages', `${slug}.md`)).toString(),
});
