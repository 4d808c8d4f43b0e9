/**
 * Kinds of completions and symbols that a client has pictures for. One that does not say which knows those of the protocol's
 * first version alone (3.17, `CompletionClientCapabilities` and `DocumentSymbolClientCapabilities`).
 */
import { CompletionItemKind, SymbolKind } from 'vscode-languageserver';

/** Undefined where all kinds are known. */
export type KindFor<Kind> = ((kind: Kind) => Kind) | undefined;

const ofFirstVersion = Array.from({ length: 18 }, (_, index) => index + 1);

function instead<Kind extends number>(
  known: readonly Kind[] | undefined,
  others: ReadonlyMap<Kind, Kind>,
): KindFor<Kind> {
  const kinds: ReadonlySet<number> = new Set<number>(known ?? ofFirstVersion);
  if ([...others.keys()].every((kind) => kinds.has(kind))) return undefined;
  return (kind) => (kinds.has(kind) ? kind : (others.get(kind) ?? kind));
}

const completions = new Map<CompletionItemKind, CompletionItemKind>([
  [CompletionItemKind.Folder, CompletionItemKind.File],
  [CompletionItemKind.EnumMember, CompletionItemKind.Enum],
  [CompletionItemKind.Constant, CompletionItemKind.Value],
  [CompletionItemKind.Event, CompletionItemKind.Value],
  [CompletionItemKind.Operator, CompletionItemKind.Keyword],
]);

const symbols = new Map<SymbolKind, SymbolKind>([
  [SymbolKind.Object, SymbolKind.Variable],
  [SymbolKind.Key, SymbolKind.Property],
  [SymbolKind.Null, SymbolKind.Constant],
  [SymbolKind.Struct, SymbolKind.Class],
  [SymbolKind.Event, SymbolKind.Function],
  [SymbolKind.Operator, SymbolKind.Method],
]);

export const completionKinds = (known: readonly CompletionItemKind[] | undefined) => instead(known, completions);
export const symbolKinds = (known: readonly SymbolKind[] | undefined) => instead(known, symbols);

/** The same thing with a kind that the client knows. */
export function ofKind<Kind extends number, Thing extends { readonly kind?: Kind | undefined }>(
  thing: Thing,
  kindFor: KindFor<Kind>,
): Thing {
  const { kind } = thing;
  return kindFor === undefined || kind === undefined ? thing : { ...thing, kind: kindFor(kind) };
}
