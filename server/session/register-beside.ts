/** Requests for what is shown beside the text: semantic tokens, inlay hints, code lenses. */
import type { Connection, Range, SemanticTokens, SemanticTokensDelta } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import { tokenEdits } from '../editor/semantic-tokens.ts';
import type { Features, Workspace } from './features.ts';
import { guarded } from './guard.ts';
import { showCaseCommand, showFindingsCommand } from './protocol.ts';

/** Documents whose last tokens are kept, so that a change of them can be told by what changed. */
const mostKept = 32;

export function registerBeside(connection: Connection, workspace: Workspace, using: Features): void {
  const log = connection.console;
  const { semanticTokens } = connection.languages;
  const none: SemanticTokens = { data: [] };
  const kept = new Map<string, { readonly id: string; readonly data: number[] }>();
  let made = 0;

  /** The newest tokens of a document, under a new name. */
  const keep = (uri: string, data: number[]): string => {
    made += 1;
    const id = String(made);
    kept.delete(uri);
    kept.set(uri, { id, data });
    const [oldest] = kept.keys();
    if (kept.size > mostKept && oldest !== undefined) kept.delete(oldest);
    return id;
  };

  semanticTokens.on(
    guarded(log, 'semantic tokens', none, async ({ textDocument: { uri } }, token) => {
      const analysis = await workspace.analysis(uri, token);
      if (analysis === undefined) return none;
      const data = using.semanticTokens(analysis);
      return { resultId: keep(uri, data), data };
    }),
  );

  semanticTokens.onDelta(
    guarded<{ textDocument: { uri: string }; previousResultId: string }, SemanticTokens | SemanticTokensDelta>(
      log,
      'semantic tokens',
      none,
      async ({ textDocument: { uri }, previousResultId }, token) => {
        const analysis = await workspace.analysis(uri, token);
        if (analysis === undefined) return none;
        const before = kept.get(uri);
        const data = using.semanticTokens(analysis);
        const resultId = keep(uri, data);
        return before?.id === previousResultId
          ? { resultId, edits: tokenEdits(before.data, data) }
          : { resultId, data };
      },
    ),
  );

  semanticTokens.onRange(
    guarded(log, 'semantic tokens', none, async ({ textDocument, range }, token) => {
      const analysis = await workspace.analysis(textDocument.uri, token);
      return analysis === undefined ? none : { data: using.semanticTokens(analysis, spanOf(analysis, range)) };
    }),
  );

  connection.languages.inlayHint.on(
    guarded(log, 'hints', [], async ({ textDocument: { uri }, range }, token) => {
      const shown = await workspace.shown(uri);
      // An analysis is good until the next edit: nothing is waited for once it is there.
      const analysis = await workspace.analysis(uri, token);
      return analysis === undefined ? [] : using.inlayHints(analysis, spanOf(analysis, range), shown);
    }),
  );

  connection.onCodeLens(
    guarded(log, 'lenses', [], async ({ textDocument: { uri } }, token) => {
      if (!(await workspace.shown(uri)).lenses) return [];
      const analysis = await workspace.analysis(uri, token);
      if (analysis === undefined) return [];
      const known = (command: string) => (workspace.commands().includes(command) ? command : undefined);
      return using.codeLenses(analysis, {
        showFindings: known(showFindingsCommand),
        showCase: known(showCaseCommand),
        address: uri,
      });
    }),
  );
}

function spanOf({ lines }: Analysis, { start, end }: Range) {
  return { start: lines.offset(start), end: lines.offset(end) };
}
