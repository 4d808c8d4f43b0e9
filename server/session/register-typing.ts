/** Requests while a person writes: completion, the form of a clause, formatting. */
import type {
  CancellationToken,
  CompletionItem,
  CompletionList,
  CompletionParams,
  Connection,
} from 'vscode-languageserver';
import type { Features, Workspace } from './features.ts';
import { guarded } from './guard.ts';
import { ofKind } from './kinds-known.ts';
import { placed } from './placed.ts';
import { resolveUse, writeUse } from './uris.ts';

export function registerTyping(connection: Connection, workspace: Workspace, using: Features): void {
  const log = connection.console;

  /** Paths between the quotes of a `use`: the specs there are first, since an analysis is good until the next edit alone. */
  const paths = async (params: CompletionParams, token: CancellationToken): Promise<CompletionItem[]> => {
    const addresses = await workspace.addressesFrom(params.textDocument.uri);
    const here = await placed(workspace.named, params, token);
    if (here === undefined) return [];
    return using.pathCompletion(here.analysis, here.offset, addresses, { resolve: resolveUse, write: writeUse });
  };

  connection.onCompletion(
    guarded<CompletionParams, CompletionItem[] | CompletionList>(log, 'completion', [], async (params, token) => {
      const here = await placed(workspace.named, params, token);
      if (here === undefined) return [];
      if (using.pathAt(here.analysis, here.offset) !== undefined) return paths(params, token);
      const { analysis, offset } = here;
      const { snippets, completionMarkdown, completionKind } = workspace.client();
      const before = workspace.before(params.textDocument.uri);
      const options = { snippets, markdown: completionMarkdown, before, today: dayOf(new Date()) };
      const all = using.completion(analysis, offset, options);
      const items = completionKind === undefined ? all : all.map((item) => ofKind(item, completionKind));
      return using.changesWithEachLetter(analysis, offset) ? { isIncomplete: true, items } : items;
    }),
  );

  connection.onSignatureHelp(
    guarded(log, 'signature help', null, async (params, token) => {
      const here = await placed(workspace.named, params, token);
      if (here === undefined) return null;
      return using.signatureHelp(here.analysis, here.offset, {
        ...workspace.client().signatures,
        shown: params.context?.activeSignatureHelp,
      });
    }),
  );

  connection.onDocumentFormatting(
    guarded(log, 'formatting', [], async ({ textDocument }, token) => {
      const analysis = await workspace.named(textDocument.uri, token);
      return analysis === undefined ? [] : using.formatting(analysis);
    }),
  );

  connection.onDocumentRangeFormatting(
    guarded(log, 'range formatting', [], async ({ textDocument, range }, token) => {
      const analysis = await workspace.named(textDocument.uri, token);
      if (analysis === undefined) return [];
      return using.formatting(analysis, {
        start: analysis.lines.offset(range.start),
        end: analysis.lines.offset(range.end),
      });
    }),
  );

  connection.onDocumentOnTypeFormatting(
    guarded(log, 'formatting while typing', [], async (params, token) => {
      const here = await placed(workspace.named, params, token);
      return here === undefined ? [] : using.formattingOnType(here.analysis, here.offset, params.ch);
    }),
  );
}

/** The day where the server runs, as the notation writes it. */
function dayOf(date: Date): string {
  const two = (number: number) => String(number).padStart(2, '0');
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}
