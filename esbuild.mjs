/**
 * Builds everything into dist/: client (node and browser), server (node and web worker), the command, and the pages of the
 * findings. Registries and other generated sources are brought up to date first.
 *
 *   node esbuild.mjs             generate and build
 *   node esbuild.mjs --generate  generate only
 *   node esbuild.mjs --tests     also the suite that runs inside an extension host, into out/
 */

import { spawn } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { createProtocolConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';

const root = dirname(fileURLToPath(import.meta.url));
process.chdir(root);
const require = createRequire(import.meta.url);
const common = {
  bundle: true,
  sourcemap: false,
  minify: !process.argv.includes('--readable'),
  legalComments: 'none',
  // A spec that the server has with it.
  loader: { '.amps': 'text' },
  metafile: true,
  logLevel: 'error',
};

/** A generator is TypeScript: bundled to out/, then run in this process. */
async function generator(entry) {
  const outfile = join('out', 'generators', `${entry.replace(/[/\\]/g, '-').replace(/\.ts$/, '')}.cjs`);
  await build({ ...common, minify: false, entryPoints: [entry], platform: 'node', format: 'cjs', outfile });
  const path = join(root, outfile);
  delete require.cache[path];
  return require(path);
}

async function generate() {
  mkdirSync('out/generators', { recursive: true });
  (await generator('server/kinds/generate.ts')).writeKindsRegistry('server/kinds');
  (await generator('server/rules/generate.ts')).writeRulesRegistry('server/rules');
  (await generator('server/kinds/generate-textmate.ts')).writeTextMate('grammar');
  if (existsSync('grammar/NOTATION.md'))
    (await generator('server/kinds/notation-page.ts')).writeNotation('grammar/NOTATION.md');
  (await generator('server/rules/generate-settings.ts')).writeSettings('package.json');
  if (existsSync('grammar/NOTATION.md'))
    (await generator('server/rules/generate-list.ts')).writeList('grammar/NOTATION.md');
  (await generator('server/rules/generate-pages.ts')).writePages('dist/pages');
}

/** Files that stand beside the bundles: the typeface of exported pictures, made lighter, and the module that makes PNG. */
const shipped = {
  'DejaVuSans.ttf': 'node_modules/dejavu-fonts-ttf/ttf/DejaVuSans.ttf',
  'DejaVuSans-Bold.ttf': 'node_modules/dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf',
  'resvg.wasm': 'node_modules/@resvg/resvg-wasm/index_bg.wasm',
};

/** The layout engine is large: for Node it is one file, which whoever lays out loads. */
const engineBeside = {
  name: 'engine-beside',
  setup({ onResolve }) {
    onResolve({ filter: /^elkjs\// }, ({ kind }) =>
      kind === 'entry-point' ? undefined : { path: './elk.js', external: true },
    );
  },
};

/** Whoever starts the server does not wait for the rest of the command to be read. */
const commandBeside = {
  name: 'command-beside',
  setup({ onResolve }) {
    onResolve({ filter: /^\.\/command\.ts$/ }, () => ({ path: './command.js', external: true }));
  },
};

/** Licences that some libraries name and bring no text of, with who wrote the library. */
const licenceTexts = {
  'MPL-2.0': () => readFileSync('node_modules/axe-core/LICENSE', 'utf8'),
  MIT: ({ author }) =>
    readFileSync('node_modules/svg-to-pdfkit/LICENSE', 'utf8').replace(
      /^Copyright .*$/m,
      `Copyright (c) ${typeof author === 'string' ? author : author.name}`,
    ),
};

/** Names of licences, where the library tells in a sentence or not at all. */
const licenceNames = { 'dejavu-fonts-ttf': 'Bitstream-Vera', 'png-js': 'MIT' };

function licenceOf(folder) {
  const manifest = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const { name, version } = manifest;
  const licence = licenceNames[name] ?? manifest.license;
  const file = readdirSync(folder).find((one) => /^licen[cs]e/i.test(one));
  const words = file === undefined ? licenceTexts[licence]?.(manifest) : readFileSync(join(folder, file), 'utf8');
  if (words === undefined) throw new Error(`${name} has no licence text to package`);
  return `${name} ${version} (${licence.split(' ')[0]})\n\n${words.trim()}\n`;
}

/** The licence of every library that a bundle holds, and of what is shipped beside them. */
function writeLicences(bundles) {
  const folders = new Set(Object.values(shipped).map((file) => /^node_modules\/(?:@[^/]+\/)?[^/]+/.exec(file)[0]));
  for (const input of bundles.flatMap(({ metafile }) => Object.keys(metafile.inputs))) {
    const [, folder] = /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(input) ?? [];
    if (folder !== undefined) folders.add(folder);
  }
  const texts = [...new Set([...folders].map(licenceOf))].sort();
  writeFileSync('dist/LICENSES.txt', texts.join(`\n${'-'.repeat(80)}\n\n`));
}

/**
 * Patterns are all that esbuild leaves with letters beyond ASCII, and for the sake of those few V8 would keep two bytes for
 * each letter of the bundle.
 */
function writeAsAscii(file) {
  const escaped = (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, '0')}`;
  writeFileSync(file, readFileSync(file, 'utf8').replace(/[^\0-\x7f]/g, escaped));
}

/** What of the server's bundle is compiled when it has answered once: for quick starts with the Node that builds. */
async function keepCompiled() {
  const compiled = 'out/server.node.compiled';
  rmSync(compiled, { force: true });
  const server = spawn(process.execPath, ['dist/server.quick.js', '--compiled', compiled, '--stdio'], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const ended = new Promise((done) => server.once('exit', done));
  const client = createProtocolConnection(
    new StreamMessageReader(server.stdout),
    new StreamMessageWriter(server.stdin),
  );
  client.listen();
  const position = { line: 27, character: 10 };
  await client.sendRequest('initialize', { processId: process.pid, rootUri: null, capabilities: {} });
  // The second is long enough to be parted, and has a finding by every rule.
  for (const sample of ['samples/spokewagon.amps', 'samples/spokewagon-as-found.amps']) {
    const textDocument = { uri: pathToFileURL(resolve(sample)).toString(), languageId: 'ampscribe', version: 1 };
    const told = new Promise((tell) => client.onNotification('textDocument/publishDiagnostics', tell));
    await client.sendNotification('textDocument/didOpen', {
      textDocument: { ...textDocument, text: readFileSync(sample, 'utf8') },
    });
    await told;
    for (const question of ['hover', 'completion', 'documentSymbol', 'semanticTokens/full', 'codeLens'])
      await client.sendRequest(`textDocument/${question}`, { textDocument, position });
  }
  await client.sendRequest('shutdown');
  await client.sendNotification('exit');
  await ended;
}

await generate();
if (!process.argv.includes('--generate')) {
  const node = { ...common, platform: 'node', target: 'node20', format: 'cjs' };
  const browser = { ...common, platform: 'browser', target: 'es2022' };
  const bundles = await Promise.all([
    build({
      ...node,
      entryPoints: {
        'client.node': 'client/extension.node.ts',
        'server.node': 'server/main.node.ts',
        'server.quick': 'server/main.quick.node.ts',
        'drawing.node': 'server/main.drawing.node.ts',
        elk: 'elkjs/lib/elk.bundled.js',
      },
      outdir: 'dist',
      external: ['vscode'],
      plugins: [engineBeside],
    }),
    build({ ...node, entryPoints: { command: 'server/cli/command.ts' }, outdir: 'dist', plugins: [engineBeside] }),
    build({ ...node, entryPoints: { cli: 'server/cli/main.ts' }, outdir: 'dist', plugins: [commandBeside] }),
    build({
      ...browser,
      target: ['es2022', 'node20'],
      format: 'iife',
      globalName: 'ampscribePaper',
      footer: { js: "if(typeof module==='object')module.exports=ampscribePaper;" },
      entryPoints: { paper: 'server/reports/sheets/paper-files.ts' },
      outdir: 'dist',
      // A typeface compressed for the web is never read.
      alias: { 'brotli/decompress.js': './server/reports/sheets/no-web-fonts.ts' },
      // The library asks where it stands, for files that are not used.
      define: { 'import.meta.url': '"file:///paper.js"' },
    }),
    build({
      ...browser,
      format: 'cjs',
      entryPoints: { 'client.browser': 'client/extension.browser.ts' },
      outdir: 'dist',
      external: ['vscode'],
    }),
    build({
      ...browser,
      format: 'iife',
      entryPoints: {
        'server.worker': 'server/main.worker.ts',
        'drawing.worker': 'server/main.drawing.worker.ts',
        // The page that shows the picture, and beside it picture.css.
        picture: 'client/picture/page/main.ts',
      },
      outdir: 'dist',
    }),
    ...(process.argv.includes('--tests')
      ? [
          build({
            ...browser,
            format: 'cjs',
            entryPoints: { suite: 'tests/e2e/suite.ts' },
            outdir: 'out',
            external: ['vscode'],
          }),
        ]
      : []),
  ]);
  const { lighter } = await generator('server/reports/sheets/lighter-typeface.ts');
  for (const [name, file] of Object.entries(shipped))
    writeFileSync(join('dist', name), name.endsWith('.ttf') ? lighter(readFileSync(file)) : readFileSync(file));
  writeLicences(bundles);
  writeAsAscii('dist/server.node.js');
  await keepCompiled();
  chmodSync('dist/cli.js', 0o755);
}
