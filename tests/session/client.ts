/** A real client on the real server, joined by streams in memory: what goes over them is what goes over a pipe. */
import { PassThrough } from 'node:stream';
import { setTimeout as pause } from 'node:timers/promises';
import {
  type ClientCapabilities,
  createConnection,
  createProtocolConnection,
  type Diagnostic,
  type DocumentDiagnosticReport,
  type InitializeResult,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  type RegistrationParams,
  StreamMessageReader,
  StreamMessageWriter,
  type TextDocumentContentChangeEvent,
} from 'vscode-languageserver/node';
import { analyseInSteps } from '../../server/analysis.ts';
import type { Environment } from '../../server/session/environment.ts';
import { features } from '../../server/session/features.ts';
import { decodeSpec, type FileText, readFileRequest } from '../../server/session/protocol.ts';
import { startServer, type Workings } from '../../server/session/server.ts';
import { Stages } from '../../server/session/stages.ts';

export const uri = (name: string) => `file:///van/${name}`;

export const pulling: ClientCapabilities = {
  textDocument: {
    diagnostic: { dynamicRegistration: false, relatedDocumentSupport: false },
    hover: { contentFormat: ['markdown', 'plaintext'] },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    publishDiagnostics: { relatedInformation: true, tagSupport: { valueSet: [1, 2] } },
  },
  workspace: { diagnostics: { refreshSupport: true }, didChangeWatchedFiles: { dynamicRegistration: true } },
};

export const pushed: ClientCapabilities = {
  textDocument: { publishDiagnostics: { relatedInformation: true } },
  workspace: { didChangeWatchedFiles: { dynamicRegistration: true } },
};

/** Files of the disk by name; `undefined` in place of bytes refuses to be read. */
export type Disk = Record<string, Uint8Array | string>;

export interface Setting {
  readonly capabilities?: ClientCapabilities;
  readonly options?: unknown;
  readonly disk?: Disk;
  /** The server has no disk: the client reads for it. */
  readonly clientReads?: boolean;
  /** The folder that is open; null where the client says nothing of folders. */
  readonly folder?: string | null;
  readonly environment?: Partial<Environment>;
  readonly workings?: Partial<Workings>;
}

export class TestClient {
  readonly published: PublishDiagnosticsParams[] = [];
  readonly logged: string[] = [];
  readonly registered: string[] = [];
  readonly watchers: { readonly globPattern: string; readonly kind?: number }[] = [];
  readonly readForServer: string[] = [];
  refreshes = 0;
  result: InitializeResult | undefined;
  private readonly versions = new Map<string, number>();

  constructor(
    readonly connection: ProtocolConnection,
    /** Becomes true when the server ends its connection. */
    readonly ended: () => boolean,
  ) {}

  open(name: string, text: string): void {
    this.versions.set(name, 1);
    void this.connection.sendNotification('textDocument/didOpen', {
      textDocument: { uri: address(name), languageId: 'ampscribe', version: 1, text },
    });
  }

  change(name: string, ...contentChanges: TextDocumentContentChangeEvent[]): void {
    const version = (this.versions.get(name) ?? 1) + 1;
    this.versions.set(name, version);
    void this.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri: address(name), version },
      contentChanges,
    });
  }

  close(name: string): void {
    void this.connection.sendNotification('textDocument/didClose', { textDocument: { uri: address(name) } });
  }

  fileChanged(name: string, type = 2): void {
    void this.connection.sendNotification('workspace/didChangeWatchedFiles', {
      changes: [{ uri: address(name), type }],
    });
  }

  async pull(name: string, previousResultId?: string): Promise<DocumentDiagnosticReport> {
    return this.connection.sendRequest('textDocument/diagnostic', {
      textDocument: { uri: address(name) },
      ...(previousResultId === undefined ? {} : { previousResultId }),
    });
  }

  async items(name: string): Promise<Diagnostic[]> {
    const report = await this.pull(name);
    return report.kind === 'full' ? report.items : [];
  }

  /** Codes found, in order of place. */
  async codes(name: string): Promise<string[]> {
    return (await this.items(name)).map(({ code }) => String(code));
  }

  ask<T>(method: string, name: string, more: object = {}): Promise<T> {
    return this.connection.sendRequest<T>(method, { textDocument: { uri: address(name) }, ...more });
  }

  /** The newest findings pushed for a document. */
  newest(name: string): PublishDiagnosticsParams | undefined {
    return this.published.filter((one) => one.uri === address(name)).at(-1);
  }

  /** Without the notification to exit, upon which the server would end the process that the tests run in. */
  async shutdown(): Promise<void> {
    await this.connection.sendRequest('shutdown');
  }
}

/** A name of the van's folder, or an address as it is. */
const address = (name: string) => (name.includes(':') ? name : uri(name));

/** Waits until something holds; says what did not when it never does. */
export async function until(what: string, holds: () => boolean, milliseconds = 5000): Promise<void> {
  const end = performance.now() + milliseconds;
  while (!holds()) {
    if (performance.now() > end) throw new Error(`never: ${what}`);
    await pause(5);
  }
}

/** Long enough for whatever might still come: pauses of pushing and of refreshing are below it. */
export const settle = () => pause(450);

export function readFrom(disk: Disk, address: string): FileText {
  const content = disk[address.replace(/^\w+:\/\/\/van\//, '')];
  if (content === undefined) return { missing: 'there is no such file' };
  return typeof content === 'string' ? { text: content } : decodeSpec(content);
}

export async function connect(setting: Setting = {}): Promise<TestClient> {
  const toServer = new PassThrough();
  const toClient = new PassThrough();
  const { disk = {}, clientReads = false, workings = {} } = setting;
  let over = false;
  toClient.on('close', () => {
    over = true;
  });
  const server = createConnection(new StreamMessageReader(toServer), new StreamMessageWriter(toClient), {
    messageStrategy: new Stages(),
  });
  startServer(
    server,
    {
      ...(clientReads ? {} : { readFile: async (uri: string) => readFrom(disk, uri) }),
      pageUri: (slug) => `file:///pages/${slug}.md`,
      ...setting.environment,
    },
    { analyse: analyseInSteps, features, ...workings },
  );
  const connection = createProtocolConnection(new StreamMessageReader(toClient), new StreamMessageWriter(toServer));
  const client = new TestClient(connection, () => over);
  connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
    client.published.push(params);
  });
  connection.onNotification('window/logMessage', ({ message }: { message: string }) => {
    client.logged.push(message);
  });
  connection.onRequest('workspace/diagnostic/refresh', () => {
    client.refreshes += 1;
    return null;
  });
  connection.onRequest('client/registerCapability', ({ registrations }: RegistrationParams) => {
    client.registered.push(...registrations.map(({ method }) => method));
    client.watchers.push(...registrations.flatMap(({ registerOptions }) => registerOptions?.watchers ?? []));
    return null;
  });
  connection.onRequest(readFileRequest, async ({ uri }: { uri: string }): Promise<FileText> => {
    client.readForServer.push(uri);
    return readFrom(disk, uri);
  });
  connection.listen();
  client.result = await connection.sendRequest<InitializeResult>('initialize', {
    processId: null,
    ...(setting.folder === null ? {} : { rootUri: setting.folder ?? null }),
    capabilities: setting.capabilities ?? pulling,
    ...(setting.options === undefined ? {} : { initializationOptions: setting.options }),
  });
  await connection.sendNotification('initialized', {});
  return client;
}
