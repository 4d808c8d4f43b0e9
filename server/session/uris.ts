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

/** The path by which `from` uses the file `to`, from the root of the disk or with `./` where `path` is written so. */
export function writeUse(from: string, to: string, path: string): string | undefined {
  const [base, target] = [URI.parse(from), URI.parse(to)];
  if (base.scheme !== target.scheme || base.authority !== target.authority) return undefined;
  if (path.startsWith('/')) return target.path;
  const [up, down] = [base.path.split('/').slice(0, -1), target.path.split('/')];
  let same = 0;
  while (same < up.length && same < down.length - 1 && up[same] === down[same]) same += 1;
  const written = [...up.slice(same).map(() => '..'), ...down.slice(same)].join('/');
  return path.startsWith('./') && !written.startsWith('../') ? `./${written}` : written;
}
