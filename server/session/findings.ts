/**
 * Diagnostics reach the client one way only: pulled by a client that said it pulls, else pushed. Never both, since a client
 * would show each finding twice.
 */
import {
  type Connection,
  type Diagnostic,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
} from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import { type DiagnosticData, type DiagnosticOptions, diagnostics } from '../editor/diagnostics.ts';
import type { Kept } from './analyses.ts';
import { guarded, guardedTask } from './guard.ts';

export interface FindingsHost {
  /** The kept analysis of an open document; undefined once it is closed. */
  current(uri: string): Promise<Kept | undefined>;
  version(uri: string): number | undefined;
  options(): DiagnosticOptions;
  /** How long an analysis takes at the moment, in milliseconds. */
  milliseconds(): number;
  clientUri(uri: string): string;
}

/** Answers pulls. What a client holds already is not sent again. */
export function answerPulls(connection: Connection, host: FindingsHost, spelling: (uri: string) => string): void {
  const empty: DocumentDiagnosticReport = { kind: DocumentDiagnosticReportKind.Full, items: [] };
  connection.languages.diagnostics.on(
    guarded(
      connection.console,
      'diagnostics',
      empty,
      async ({ textDocument, previousResultId }): Promise<DocumentDiagnosticReport> => {
        const kept = await host.current(spelling(textDocument.uri));
        if (kept === undefined) return empty;
        if (previousResultId === kept.id) return { kind: DocumentDiagnosticReportKind.Unchanged, resultId: kept.id };
        return { kind: DocumentDiagnosticReportKind.Full, resultId: kept.id, items: itemsOf(kept.analysis, host) };
      },
    ),
  );
}

function itemsOf(analysis: Analysis, host: FindingsHost): Diagnostic[] {
  return diagnostics(analysis, host.options()).map((item) => diagnosticAtClient(item, (uri) => host.clientUri(uri)));
}

/** A diagnostic with every address in it as the client writes it. */
export function diagnosticAtClient(item: Diagnostic, clientUri: (uri: string) => string): Diagnostic {
  const { relatedInformation } = item;
  const data = item.data as DiagnosticData;
  const own: DiagnosticData = {
    ...data,
    fixes: data.fixes.map((fix) => ({
      ...fix,
      edits: fix.edits.map((edit) => ({ ...edit, uri: clientUri(edit.uri) })),
    })),
  };
  return {
    ...item,
    ...(relatedInformation === undefined
      ? {}
      : {
          relatedInformation: relatedInformation.map((related) => ({
            ...related,
            location: { ...related.location, uri: clientUri(related.location.uri) },
          })),
        }),
    data: own,
  };
}

/** The longest wait for a pause in typing, in milliseconds. */
const longestWait = 300;

/** Pushes, after a pause that grows with what the work costs: nothing for a small spec. */
export class Pushes {
  private readonly waiting = new Map<string, ReturnType<typeof setTimeout>>();

  constructor(
    private readonly connection: Connection,
    private readonly host: FindingsHost,
  ) {}

  soon(uri: string): void {
    clearTimeout(this.waiting.get(uri));
    const wait = Math.min(longestWait, Math.floor(this.host.milliseconds()));
    this.waiting.set(
      uri,
      setTimeout(() => this.push(uri), wait),
    );
  }

  /** A closed document has no findings to show. */
  clear(uri: string, clientUri: string): void {
    clearTimeout(this.waiting.get(uri));
    this.waiting.delete(uri);
    this.send({ uri: clientUri, diagnostics: [] });
  }

  stop(): void {
    for (const timer of this.waiting.values()) clearTimeout(timer);
    this.waiting.clear();
  }

  private readonly push = (uri: string): void => {
    this.waiting.delete(uri);
    guardedTask(this.connection.console, 'diagnostics', async () => {
      const kept = await this.host.current(uri);
      const version = this.host.version(uri);
      // Closed, or edited again while it was worked out: what would be sent is not true any more.
      if (kept === undefined || version === undefined || this.waiting.has(uri)) return;
      this.send({ uri: this.host.clientUri(uri), version, diagnostics: itemsOf(kept.analysis, this.host) });
    })();
  };

  private send(params: Parameters<Connection['sendDiagnostics']>[0]): void {
    guardedTask(this.connection.console, 'diagnostics', () => this.connection.sendDiagnostics(params))();
  }
}
