/** Links: the file of a `use`, and the page of a finding that an `allow` names. */
import type { DocumentLink } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import { fileName, resolveIn } from '../model/files.ts';
import { placeIn } from '../model/place.ts';
import { allRules } from '../rules/all.ts';
import { rangeOf } from './ranges.ts';

export interface LinkOptions {
  /** Address of a path as the `use` of a file writes it. */
  readonly resolve: (from: string, path: string) => string;
  readonly pageUri: (slug: string) => string | undefined;
}

const titles = new Map(allRules.map(({ slug, page }) => [slug, page.title]));

export function documentLinks(analysis: Analysis, { resolve, pageUri }: LinkOptions): DocumentLink[] {
  const [file] = analysis.model.files;
  if (file === undefined) return [];
  const used = new Set(analysis.model.files.map(({ uri }) => uri));
  const leading = file.statements.filter(({ shaped }) => ['use', 'allow'].includes(shaped.spec?.word ?? ''));
  return leading.flatMap((statement): DocumentLink[] =>
    statement.shaped.clauses.flatMap(({ values }) =>
      values.flatMap(({ atom, type }): DocumentLink[] => {
        const link = (start: number, end: number, target: string, tooltip: string) => [
          { range: rangeOf(analysis.lines, placeIn({ file, statement }, { start, end }).span), target, tooltip },
        ];
        const { start, end } = atom.span;
        if (statement.shaped.spec?.word === 'use' && atom.kind === 'text' && atom.closed) {
          const target = resolveIn({ resolve }, analysis.uri, atom.value);
          // A file that is not there is a finding, and no link.
          return target !== undefined && used.has(target)
            ? link(start + 1, end - 1, target, `Open ${fileName(target)}`)
            : [];
        }
        if (type !== 'name<slug>' || atom.kind !== 'word') return [];
        const [title, target] = [titles.get(atom.value), pageUri(atom.value)];
        return title === undefined || target === undefined ? [] : link(start, end, target, title);
      }),
    ),
  );
}
