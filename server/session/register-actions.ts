/** Requests for code actions: what is offered at a place, and the edit of one that was chosen. */
import {
  type CodeAction,
  type Connection,
  LSPErrorCodes,
  ResponseError,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import type { ActionData, CodeActionOptions } from '../editor/code-actions.ts';
import type { Features, Workspace } from './features.ts';
import { diagnosticAtClient } from './findings.ts';
import { guarded } from './guard.ts';
import { editAtClient } from './placed.ts';
import { writeUse } from './uris.ts';

export function registerActions(connection: Connection, workspace: Workspace, using: Features): void {
  const log = connection.console;
  /** Looking through folders takes a while: only where the last findings tell of a file that is missing. */
  const nearby = async (uri: string) => {
    const isMissing = workspace.before(uri)?.findings.some(({ slug }) => slug === 'use-missing') === true;
    return isMissing ? { addresses: await workspace.addressesFrom(uri), write: writeUse } : undefined;
  };

  const options = async (uri: string, only: readonly string[] | undefined): Promise<CodeActionOptions> => ({
    ...workspace.diagnosticOptions(),
    only,
    resolves: workspace.client().resolvesActions,
    again: await workspace.again(uri),
    users: await workspace.users(uri),
    nearby: await nearby(uri),
  });

  connection.onCodeAction(
    guarded(log, 'code actions', [], async ({ textDocument: { uri }, range, context }, token) => {
      // An analysis is good until the next edit: nothing is waited for once it is there.
      const asked = await options(uri, context.only);
      const analysis = await workspace.analysis(uri, token);
      if (analysis === undefined) return [];
      const span = { start: analysis.lines.offset(range.start), end: analysis.lines.offset(range.end) };
      const actions = using.codeActions(analysis, span, asked);
      return actions.map((action) => ({
        ...action,
        ...(action.diagnostics === undefined
          ? {}
          : { diagnostics: action.diagnostics.map((one) => diagnosticAtClient(one, workspace.clientUri)) }),
        ...(action.edit === undefined ? {} : { edit: editAtClient(workspace, action.edit) }),
      }));
    }),
  );

  connection.onCodeActionResolve(async (action, token) => {
    const edit = await resolve(action, token);
    if (edit instanceof ResponseError) return edit;
    return edit === undefined ? action : { ...action, edit: editAtClient(workspace, edit) };
  });

  const resolve = guarded<CodeAction, WorkspaceEdit | ResponseError<void> | undefined>(
    log,
    'the edit of an action',
    undefined,
    async (action, token) => {
      const { data } = action;
      if (action.edit !== undefined || !isActionData(data)) return action.edit;
      const asked = await options(data.spec, undefined);
      const analysis = await workspace.analysis(data.spec, token);
      const edit = analysis === undefined ? undefined : using.resolveCodeAction(analysis, action, data.span, asked);
      // What was offered for a text that is another now must not be done to that.
      return edit ?? new ResponseError(LSPErrorCodes.ContentModified, 'The text has changed since: ask for it again.');
    },
  );
}

/** What a client hands back is its own affair until it is looked at. */
function isActionData(data: unknown): data is ActionData {
  if (typeof data !== 'object' || data === null) return false;
  const { spec, span } = data as Partial<Record<keyof ActionData, unknown>>;
  if (typeof spec !== 'string' || typeof span !== 'object' || span === null) return false;
  const { start, end } = span as Partial<Record<'start' | 'end', unknown>>;
  return typeof start === 'number' && typeof end === 'number';
}
