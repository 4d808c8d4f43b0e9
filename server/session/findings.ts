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
  /** The same, and undefined when it is edited before all is worked out. */
  currentUnlessEdited(uri: string): Promise<Kept | undefined>;
  version(uri: string): number | undefined;
  options(): DiagnosticOptions;
  /** How long the document takes to work out, in milliseconds. */
  milliseconds(uri: string): number;
  /** Findings have been handed out. */
  told(): void;
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
        host.told();
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

/** What takes no longer than this is worked out after every key, in milliseconds. */
const cheap = 30;

/** The longest wait for a pause in typing, in milliseconds; work that is overtaken ends at once, so it may be short. */
const longestWait = 100;

/** After so long without an edit the next is no part of typing on, in milliseconds. */
const rest = 300;

/**
 * Pushes. Nothing waits where the work is cheap, nor after the first edit in a while; while keys follow each other, what
 * costs more waits for about as long as it costs.
 */
export class Pushes {
  private readonly waiting = new Map<string, ReturnType<typeof setTimeout>>();
  /** When each document was last changed. */
  private readonly changed = new Map<string, number>();
  /** What was shown last, by the name of its analysis. */
  private readonly shown = new Map<string, string>();

  constructor(
    private readonly connection: Connection,
    private readonly host: FindingsHost,
  ) {}

  soon(uri: string): void {
    clearTimeout(this.waiting.get(uri));
    const now = performance.now();
    const rested = now - (this.changed.get(uri) ?? Number.NEGATIVE_INFINITY) > rest;
    this.changed.set(uri, now);
    const cost = this.host.milliseconds(uri);
    const wait = rested || cost <= cheap ? 0 : Math.min(longestWait, Math.floor(cost));
    this.waiting.set(
      uri,
      setTimeout(() => this.push(uri), wait),
    );
  }

  /** A closed document has no findings to show. */
  clear(uri: string, clientUri: string): void {
    clearTimeout(this.waiting.get(uri));
    this.waiting.delete(uri);
    this.changed.delete(uri);
    this.shown.delete(uri);
    this.send({ uri: clientUri, diagnostics: [] });
  }

  stop(): void {
    for (const timer of this.waiting.values()) clearTimeout(timer);
    this.waiting.clear();
  }

  private readonly push = (uri: string): void => {
    this.waiting.delete(uri);
    guardedTask(this.connection.console, 'diagnostics', async () => {
      const kept = await this.host.currentUnlessEdited(uri);
      const version = this.host.version(uri);
      // Closed, or edited again while it was worked out: what would be sent is not true any more.
      if (version === undefined || this.waiting.has(uri)) return;
      // A file that it uses was not what it was, before it was known that it uses it.
      if (kept === undefined) this.soon(uri);
      // Of several that waited for one text, the first tells of it.
      if (kept === undefined || this.shown.get(uri) === kept.id) return;
      this.shown.set(uri, kept.id);
      this.send({ uri: this.host.clientUri(uri), version, diagnostics: itemsOf(kept.analysis, this.host) });
      this.host.told();
    })();
  };

  private send(params: Parameters<Connection['sendDiagnostics']>[0]): void {
    guardedTask(this.connection.console, 'diagnostics', () => this.connection.sendDiagnostics(params))();
  }
}
