/**
 * The language server, whatever process it runs in: open documents, the files they use, what the client can do. It connects
 * the protocol to the pure functions of `server/editor` and works nothing out itself.
 */
import {
  type CancellationToken,
  CodeLensRefreshRequest,
  type Connection,
  DidChangeConfigurationNotification,
  DidChangeWatchedFilesNotification,
  type InitializeParams,
  type InitializeResult,
  TextDocumentSyncKind,
  TextDocuments,
  WatchKind,
} from 'vscode-languageserver';
import { type Analysis, analyseInSteps } from '../analysis.ts';
import { offeredKinds } from '../editor/code-actions.ts';
import type { DiagnosticOptions } from '../editor/diagnostics.ts';
import { formattingTriggers } from '../editor/formatting-on-type.ts';
import { lookAhead } from '../editor/hover/ahead.ts';
import { tokensLegend } from '../editor/semantic-tokens.ts';
import type { ReadSpec } from '../editor/workspace-symbols.ts';
import { type Analyse, Analyses } from './analyses.ts';
import { Clearing } from './clearing.ts';
import { type Client, readCapabilities } from './client.ts';
import type { Environment } from './environment.ts';
import { type Features, features, registerFeatures, type Together } from './features.ts';
import { Files } from './files.ts';
import { answerPulls, type FindingsHost, Pushes } from './findings.ts';
import { breathe, guardedTask } from './guard.ts';
import { LookAhead } from './look-ahead.ts';
import { openDocuments } from './open-documents.ts';
import { draftRequest } from './picture-protocol.ts';
import { type FileText, readFileRequest, type ServerOptions, whyMissing } from './protocol.ts';
import { Quiet } from './quiet.ts';
import { movesAskedFor } from './register-files.ts';
import { registerPicture } from './register-picture.ts';
import { Settings } from './settings.ts';
import { Specs } from './specs.ts';
import { answerRefused } from './stages.ts';
import { sameSpelling } from './uris.ts';
import { type Rounds, WarmUp } from './warm-up.ts';
import { warmUpRounds } from './warm-up-rounds.ts';

export interface Workings {
  readonly analyse: Analyse;
  readonly features: Features;
  /** What is worked out before somebody asks for it, for a piece of a spec; nothing where undefined. */
  readonly lookAhead?: typeof lookAhead | undefined;
  /** What is worked at to warm up while nobody asks for anything; nothing where undefined. */
  readonly warmUp?: (() => Rounds) | undefined;
}

/** How long a picture waits for all to be worked out while somebody types, in milliseconds. */
const picturePatience = 100;

/** A wait that gathers a burst of changes into one request to the client, in milliseconds. */
const refreshWait = 100;

/** How long a question waits for figures before it is answered without them, in milliseconds. */
const patience = 40;

/** Starts the server on a connection and listens. `workings` are replaced in tests only. */
export function startServer(
  connection: Connection,
  environment: Environment,
  workings: Workings = { analyse: analyseInSteps, features, lookAhead, warmUp: warmUpRounds },
): void {
  const log = connection.console;
  const documents = new TextDocuments(openDocuments);
  /** Open documents by their normal address, with the address the client uses. */
  const open = new Map<string, string>();
  let client: Client = readCapabilities({});
  let pages: string | undefined;
  let folders: readonly string[] = [];
  let commands: readonly string[] = [];
  let refreshing: ReturnType<typeof setTimeout> | undefined;
  /** Counts what changed, in open documents and on the disk. */
  let changes = 0;

  const documentOf = (uri: string) => {
    const own = open.get(uri);
    return own === undefined ? undefined : documents.get(own);
  };
  const clientUri = (uri: string) => open.get(uri) ?? uri;
  const files = new Files(
    (uri) => documentOf(uri)?.text,
    (uri) => readFile(uri),
  );
  const settings = new Settings(connection, () => client.answersSettings);
  const specs = new Specs(
    connection,
    environment,
    () => folders,
    () => client.answersFolders,
    () => client.watchesFiles,
  );
  const analyses = new Analyses(files, workings.analyse, (uri) => stale(uri), {
    get revision() {
      return settings.revision;
    },
    of: async (uri) => (await settings.of(clientUri(uri))).severities,
  });

  const clearing = new Clearing(() => environment.clearYoung?.());
  const quiet = new Quiet(
    [
      ...(workings.lookAhead === undefined ? [] : [new LookAhead(workedOut, workings.lookAhead)]),
      clearing,
      ...(workings.warmUp === undefined ? [] : [new WarmUp(workings.warmUp)]),
    ],
    () => analyses.isWorking(),
  );
  let isFirst = true;
  const told = () => {
    const runs = [...workedOut()].flatMap(({ pieces }) => pieces.map(({ model }) => model.runs.size));
    environment.findingsTold?.(isFirst, Math.max(0, ...runs));
    clearing.due();
    if (!isFirst) return;
    isFirst = false;
    quiet.start();
  };

  /** Of every open document what was worked out last. */
  function* workedOut(): Generator<Analysis> {
    for (const uri of open.keys()) {
      const analysis = analyses.before(uri);
      if (analysis !== undefined) yield analysis;
    }
  }

  async function readFile(uri: string): Promise<FileText> {
    const own = await environment.readFile?.(uri);
    if (own !== undefined) return own;
    try {
      return await connection.sendRequest<FileText>(readFileRequest, { uri });
    } catch (error) {
      return whyMissing(error);
    }
  }

  const diagnosticOptions = (): DiagnosticOptions => ({
    pageUri: (slug) => (pages === undefined ? environment.pageUri(slug) : `${pages}${slug}.md`),
    relatedInformation: client.relatedInformation,
    tags: client.tags,
  });

  const host: FindingsHost = {
    current: async (uri) => (open.has(uri) ? analyses.current(uri) : undefined),
    currentUnlessEdited: async (uri) => (open.has(uri) ? analyses.currentUnlessEdited(uri) : undefined),
    version: (uri) => documentOf(uri)?.version,
    options: diagnosticOptions,
    milliseconds: (uri) => analyses.cost(uri),
    told,
    clientUri,
  };
  const pushes = new Pushes(connection, host);
  const isThere = async (uri: string) => files.isOpen(uri) || (await analyses.read(uri)) !== undefined;
  const pictures = registerPicture(connection, {
    analysis: async (uri) => ((await isThere(uri)) ? analyses.of(uri) : undefined),
    soonest: async (uri) => ((await isThere(uri)) ? analyses.soonest(uri, picturePatience) : undefined),
    clientUri,
    room: environment.drawingRoom ?? { run: (task) => connection.sendRequest(draftRequest, task) },
  });

  answerRefused(connection);
  connection.onInitialize((params): InitializeResult => {
    const options = params.initializationOptions as ServerOptions | null | undefined;
    client = readCapabilities(params.capabilities, options);
    // Small clients that know of no folders leave both out.
    const { rootUri } = params as Partial<InitializeParams>;
    folders = params.workspaceFolders?.map(({ uri }) => uri) ?? (rootUri == null ? [] : [rootUri]);
    pages = typeof options?.pages === 'string' ? options.pages : undefined;
    commands = Array.isArray(options?.commands) ? options.commands.filter((one) => typeof one === 'string') : [];
    settings.hand(options?.settings);
    if (client.pulls) answerPulls(connection, host, sameSpelling);
    return {
      serverInfo: { name: 'ampscribe' },
      capabilities: {
        positionEncoding: 'utf-16',
        textDocumentSync: {
          openClose: true,
          change: TextDocumentSyncKind.Incremental,
          save: client.watchesFiles ? false : { includeText: false },
        },
        hoverProvider: true,
        completionProvider: { triggerCharacters: [' ', ':', '=', '"'] },
        codeActionProvider: { codeActionKinds: [...offeredKinds], resolveProvider: client.resolvesActions },
        documentSymbolProvider: true,
        definitionProvider: true,
        declarationProvider: true,
        referencesProvider: true,
        documentHighlightProvider: true,
        renameProvider: client.preparesRename ? { prepareProvider: true } : true,
        linkedEditingRangeProvider: true,
        workspaceSymbolProvider: true,
        foldingRangeProvider: true,
        selectionRangeProvider: true,
        documentLinkProvider: { resolveProvider: false },
        colorProvider: true,
        documentFormattingProvider: true,
        documentRangeFormattingProvider: true,
        documentOnTypeFormattingProvider: {
          firstTriggerCharacter: formattingTriggers[0],
          moreTriggerCharacter: formattingTriggers.slice(1),
        },
        // A comma asks for it; while it is shown, a space asks again.
        signatureHelpProvider: { triggerCharacters: [','], retriggerCharacters: [' '] },
        semanticTokensProvider: { legend: tokensLegend, full: { delta: true }, range: true },
        inlayHintProvider: { resolveProvider: false },
        codeLensProvider: { resolveProvider: false },
        callHierarchyProvider: true,
        ...(client.asksBeforeMoves ? { workspace: { fileOperations: { willRename: movesAskedFor } } } : {}),
        ...(client.pulls
          ? {
              diagnosticProvider: { identifier: 'ampscribe', interFileDependencies: true, workspaceDiagnostics: false },
            }
          : {}),
      },
    };
  });

  connection.onInitialized(
    guardedTask(log, 'watching files and settings', async () => {
      if (client.tellsSettings)
        await connection.client.register(DidChangeConfigurationNotification.type, { section: 'ampscribe' });
      if (!client.watchesFiles) return;
      await connection.client.register(DidChangeWatchedFilesNotification.type, {
        watchers: [
          { globPattern: '**/*.amps', kind: WatchKind.Create | WatchKind.Change },
          // With a folder that goes many clients tell of the folder alone, and no pattern is for folders only.
          { globPattern: '**/*', kind: WatchKind.Delete },
        ],
      });
    }),
  );

  connection.onDidChangeConfiguration(
    guardedTask(log, 'changed settings', (params) => {
      if (client.answersSettings) settings.changed();
      else settings.hand(params.settings);
      for (const uri of open.keys()) stale(uri);
    }),
  );

  /** A file is not what it was: whoever uses it has other findings now. */
  function changed(uri: string): void {
    quiet.heard();
    changes += 1;
    const affected = analyses.dependants(uri, open.keys());
    files.changed(uri);
    if (!client.pulls && open.has(uri)) pushes.soon(uri);
    for (const one of affected) stale(one);
    pictures.changed(uri);
  }

  /** What is shown of an open document is other now, for a cause outside of it. */
  function stale(uri: string): void {
    if (!client.pulls && open.has(uri)) pushes.soon(uri);
    pictures.changed(uri);
    refresh();
  }

  /** Asks the client to ask again, for whatever it can, about the specs that use what changed. */
  function refresh(): void {
    clearTimeout(refreshing);
    refreshing = setTimeout(
      guardedTask(log, 'refresh', async () => {
        const { languages } = connection;
        await Promise.all([
          client.pulls && client.refreshes ? languages.diagnostics.refresh() : undefined,
          client.refreshesTokens ? languages.semanticTokens.refresh() : undefined,
          client.refreshesHints ? languages.inlayHint.refresh() : undefined,
          client.refreshesLenses ? connection.sendRequest(CodeLensRefreshRequest.type) : undefined,
        ]);
      }),
      refreshWait,
    );
  }

  documents.onDidOpen(({ document }) => {
    const uri = sameSpelling(document.uri);
    open.set(uri, document.uri);
    if (isFirst) environment.textOpened?.(document.text.length);
    if (!client.watchesFiles) forgetDisk();
    changed(uri);
  });
  documents.onDidChangeContent(({ document }) => {
    const uri = sameSpelling(document.uri);
    // The first version came with opening.
    if (open.has(uri)) changed(uri);
  });
  documents.onDidClose(({ document }) => {
    const uri = sameSpelling(document.uri);
    open.delete(uri);
    changed(uri);
    analyses.forget(uri);
    if (!client.pulls) pushes.clear(uri, document.uri);
  });
  documents.onDidSave(() => {
    if (!client.watchesFiles) forgetDisk();
  });

  /** For clients that do not say when a file changes: whatever was read from the disk may be old by now. */
  function forgetDisk(): void {
    for (const uri of files.read()) changed(uri);
  }

  connection.onDidChangeWatchedFiles(
    guardedTask(log, 'changed files', ({ changes }) => {
      const told = changes.map(({ uri }) => sameSpelling(uri));
      specs.changed(told);
      // What is open counts before what is on the disk.
      for (const uri of new Set(told.flatMap((one) => files.lookedForAt(one)))) if (!open.has(uri)) changed(uri);
    }),
  );

  async function allSpecs(): Promise<readonly string[]> {
    return [...new Set([...open.keys(), ...(await specs.addresses())])];
  }

  async function* readSpecs(): AsyncGenerator<ReadSpec> {
    for (const uri of await allSpecs()) {
      const read = await analyses.read(uri);
      if (read !== undefined) yield read;
    }
  }

  /** Specs that have one of some files, but for the one that is asked from. */
  async function around(own: string, files: readonly string[]): Promise<readonly Analysis[]> {
    const others: Analysis[] = [];
    for await (const { uri, tree } of readSpecs()) {
      if (uri === own || !tree.statements.some(({ shaped }) => shaped.spec?.word === 'use')) continue;
      // Reading is cheap beside working out the names of specs that have nothing to do with it.
      const its = await analyses.filesOf(uri);
      if (files.some((file) => its.includes(file))) others.push(await analyses.onlyNamed(uri));
      await breathe();
    }
    return others;
  }

  const wanted =
    (analysisOf: (uri: string) => Promise<Analysis>) =>
    async (uri: string, token: CancellationToken): Promise<Analysis | undefined> => {
      quiet.heard();
      const same = sameSpelling(uri);
      const analysis = open.has(same) ? await analysisOf(same) : undefined;
      return token.isCancellationRequested ? undefined : analysis;
    };

  const named = wanted((uri) => analyses.named(uri));
  const users = (uri: string) =>
    Promise.all(analyses.dependants(sameSpelling(uri), open.keys()).map((one) => analyses.named(one)));

  /** An analysis and others that are asked for after it: again from the start when something changed meanwhile. */
  async function together(
    uri: string,
    token: CancellationToken,
    othersOf: (analysis: Analysis) => Promise<readonly Analysis[]>,
  ): Promise<Together | undefined> {
    for (;;) {
      const analysis = await named(uri, token);
      if (analysis === undefined) return undefined;
      const before = changes;
      const others = await othersOf(analysis);
      if (changes === before) return { analysis, others };
    }
  }

  registerFeatures(
    connection,
    {
      analysis: wanted((uri) => analyses.of(uri)),
      named,
      soonest: wanted((uri) => analyses.soonest(uri, patience)),
      users,
      withUsers: (uri, token) => together(uri, token, (analysis) => users(analysis.uri)),
      withAround: (uri, filesOf, token) => together(uri, token, (analysis) => around(analysis.uri, filesOf(analysis))),
      version: (uri) => documentOf(sameSpelling(uri))?.version,
      addresses: allSpecs,
      addressesFrom: async (uri) => [...new Set([...(await allSpecs()), ...(await specs.beside(sameSpelling(uri)))])],
      specs: readSpecs,
      clientUri,
      client: () => client,
      commands: () => commands,
      before: (uri) => analyses.before(sameSpelling(uri)),
      again: async (uri) => analyses.again(sameSpelling(uri)),
      shown: async (uri) => (await settings.of(uri)).shown,
      diagnosticOptions,
    },
    workings.features,
  );

  connection.onShutdown(() => {
    clearTimeout(refreshing);
    quiet.stop();
    pushes.stop();
    pictures.stop();
  });
  documents.listen(connection);
  connection.listen();
}
