/** One spelling for every address: clients write the same file in several ways (`c%3A`, `C:`, escaped or not). */
import { URI, Utils } from 'vscode-uri';

export function sameSpelling(uri: string): string {
  try {
    return URI.parse(uri).toString();
  } catch {
    return uri;
  }
}

/** Address of `path` as written in a `use` of the file `from`. */
export function resolveUse(from: string, path: string): string {
  const base = URI.parse(from);
  // A path from the root of the disk means the same wherever it is written.
  if (path.startsWith('/')) return base.with({ path }).toString();
  return Utils.resolvePath(Utils.dirname(base), path).toString();
}
