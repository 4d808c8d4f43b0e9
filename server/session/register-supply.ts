/** Requests for what feeds what: the call hierarchy. */
import type { CallHierarchyItem, CancellationToken, Connection } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import type { SupplyData } from '../editor/supply.ts';
import type { Features, Workspace } from './features.ts';
import { guarded } from './guard.ts';
import { placed } from './placed.ts';

export function registerSupply(connection: Connection, workspace: Workspace, using: Features): void {
  const log = connection.console;
  const { callHierarchy } = connection.languages;
  const atClient = (item: CallHierarchyItem): CallHierarchyItem => ({ ...item, uri: workspace.clientUri(item.uri) });

  /** The spec that an item was worked out from, and what it stands for in it. */
  const followed = async (
    { data }: CallHierarchyItem,
    token: CancellationToken,
  ): Promise<[Analysis, SupplyData] | undefined> => {
    if (!isSupplyData(data)) return undefined;
    const analysis = await workspace.analysis(data.spec, token);
    return analysis === undefined ? undefined : [analysis, data];
  };

  callHierarchy.onPrepare(
    guarded(log, 'supply', [], async (params, token) => {
      const here = await placed(workspace.analysis, params, token);
      return here === undefined ? [] : using.prepareSupply(here.analysis, here.offset).map(atClient);
    }),
  );

  callHierarchy.onIncomingCalls(
    guarded(log, 'supply', [], async ({ item }, token) => {
      const here = await followed(item, token);
      return here === undefined ? [] : using.feeding(...here).map((call) => ({ ...call, from: atClient(call.from) }));
    }),
  );

  callHierarchy.onOutgoingCalls(
    guarded(log, 'supply', [], async ({ item }, token) => {
      const here = await followed(item, token);
      return here === undefined ? [] : using.fed(...here).map((call) => ({ ...call, to: atClient(call.to) }));
    }),
  );
}

/** What a client hands back is its own affair until it is looked at. */
function isSupplyData(data: unknown): data is SupplyData {
  if (typeof data !== 'object' || data === null) return false;
  const { spec, name, entered, by } = data as Partial<Record<keyof SupplyData, unknown>>;
  const textOrNone = (value: unknown) => value === undefined || typeof value === 'string';
  return typeof spec === 'string' && typeof name === 'string' && textOrNone(entered) && textOrNone(by);
}
