/** A used file that is not there, where one of nearly its name is: `use "stok.amps"` beside `stock.amps`, or in another folder. */
import { CodeActionKind } from 'vscode-languageserver';
import { nearWords } from '../../../grammar/near.ts';
import type { Analysis } from '../../analysis.ts';
import { fileName } from '../../model/files.ts';
import { placeIn, statementAt } from '../../model/place.ts';
import type { Finding } from '../../rules/rule.ts';
import type { Paths } from '../moved-files.ts';
import type { Offered } from './offered.ts';

/** Specs that a `use` may have meant, and how it writes them. */
export interface Nearby extends Pick<Paths, 'write'> {
  readonly addresses: readonly string[];
}

/** More would be a list to search through. */
const mostOffered = 3;

export function nearFile(analysis: Analysis, finding: Finding, nearby: Nearby | undefined): Offered[] {
  const { slug, place } = finding;
  const statement = slug === 'use-missing' && place.uri === analysis.uri ? statementAt(place) : undefined;
  if (statement === undefined || nearby === undefined) return [];
  const atom = statement.node.body.find(({ span }) => statement.offset + span.start === place.span.start);
  if (atom?.kind !== 'text' || !atom.closed) return [];
  const file = { uri: analysis.uri };
  const within = placeIn({ file, statement }, { start: atom.span.start + 1, end: atom.span.end - 1 });
  const paths = nearby.addresses
    .filter((address) => address !== analysis.uri)
    .flatMap((address) => nearby.write(analysis.uri, address, atom.value) ?? [])
    .filter((path) => !path.includes('"'));
  return meant(atom.value, paths).map((path) => ({
    title: `Write “${path}”, which is there`,
    kind: CodeActionKind.QuickFix,
    finding,
    edits: [{ place: within, newText: path }],
  }));
}

/** The same name elsewhere first, then names that are near it. */
function meant(written: string, paths: readonly string[]): readonly string[] {
  const stem = (path: string) => fileName(path).replace(/\.amps$/iu, '');
  const same = paths.filter((path) => stem(path) === stem(written));
  const near = nearWords(stem(written), new Set(paths.map(stem)), mostOffered);
  const alike = near.flatMap((name) => paths.filter((path) => stem(path) === name));
  return [...same, ...alike].slice(0, mostOffered);
}
