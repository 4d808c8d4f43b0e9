/** What is named and is nowhere: a statement that declares it, with what it must say left open. */
import { CodeActionKind } from 'vscode-languageserver';
import type { ShapedPlaced } from '../../../grammar/shaped.ts';
import type { Analysis } from '../../analysis.ts';
import { allKinds } from '../../kinds/all.ts';
import type { Finding } from '../../rules/rule.ts';
import { at } from '../at.ts';
import { type Declarable, isTaken, leftOpen, mostGuessed, nextOf, parts, wantedBy } from '../completion/declare.ts';
import type { Offered } from './offered.ts';
import { tidied } from './patched.ts';
import { above, behind, spanOf } from './statements.ts';

/** A line that declares it, and where its like stand. */
interface Declaration {
  readonly line: string;
  readonly beside: ShapedPlaced | undefined;
}

export function declare(analysis: Analysis, finding: Finding): Offered[] {
  const { slug, subject: name, place, fixes } = finding;
  if (slug !== 'unknown-name' || name === undefined || isTaken(analysis, name)) return [];
  // `F2-out` would be a name, and is a terminal.
  if (fixes.some(({ edits }) => edits.some(({ newText }) => newText.includes(':')))) return [];
  const here = at(analysis, place.span.start);
  if (here?.value === undefined || here.clause === undefined || place.span.start >= spanOf(here.statement).end)
    return [];
  const { statement } = here;
  const wanted = wantedBy([here.value.type], here.clause.spec.id);
  return declarations(analysis, name, wanted, statement).map(({ line, beside }) => ({
    title: `Declare it: ${line.replaceAll('  ', ' ')}`,
    kind: CodeActionKind.QuickFix,
    finding,
    edits: () =>
      tidied(analysis, [beside === undefined ? above(analysis, statement, [line]) : behind(analysis, beside, [line])]),
  }));
}

function declarations(
  analysis: Analysis,
  name: string,
  wanted: ReturnType<typeof wantedBy>,
  statement: ShapedPlaced,
): Declaration[] {
  /** Places, boxes and stock stand together, as far as they stand above. */
  const lastOf = (word: string) =>
    analysis.tree.statements.findLast(
      ({ shaped, offset }) => offset < statement.offset && (shaped.wrapper ?? shaped.spec)?.word === word,
    );
  switch (wanted) {
    case 'end':
      return partsFor(analysis, name).map((line) => ({ line, beside: undefined }));
    case 'place':
      return [{ line: `place ${name}  ${leftOpen(analysis).warmth}`, beside: lastOf('place') }];
    case 'enclosure':
      return [{ line: `enclosure ${name}`, beside: lastOf('enclosure') }];
    case 'stock':
      return statement.shaped.spec?.word === 'run'
        ? [{ line: `stock ${name}  cable ${leftOpen(analysis).size}`, beside: lastOf('stock') }]
        : [];
    default:
      return [];
  }
}

/** Parts that have the terminals by which it is named: of the kind whose names begin alike, else of those that may be meant. */
function partsFor(analysis: Analysis, name: string): string[] {
  const terminals = terminalsOf(analysis, name);
  const stem = name.replace(/\d+$/u, '');
  const isAlike = (word: string) => nextOf(analysis, word)?.replace(/\d+$/u, '') === stem;
  const fitting = parts.flatMap((part) => {
    const says = saysWith(part, [...terminals]);
    return says === undefined
      ? []
      : [{ word: part.word, line: `${part.word} ${name}${says === '' ? '' : `  ${says}`}` }];
  });
  const alike = fitting.filter(({ word }) => isAlike(word));
  if (alike.length === 0 && stem !== name && allKinds.some(({ word }) => isAlike(word))) return [];
  return (alike.length > 0 ? alike : fitting.slice(0, mostGuessed)).map(({ line }) => line);
}

/** By which terminals a name is used in the file. */
function terminalsOf({ tree }: Analysis, name: string): ReadonlySet<string> {
  return new Set(
    tree.statements.flatMap(({ node }) =>
      node.atoms.flatMap((atom) => (atom.kind === 'terminal' && atom.part === name ? [atom.terminal] : [])),
    ),
  );
}

/** What a part must say to have these terminals; undefined if it cannot have them. One that is a node is named without. */
function saysWith({ word, says, terminals: own }: Declarable, named: readonly string[]): string | undefined {
  if (word === 'busbar' || word === 'splice') return named.length === 0 ? says : undefined;
  if (named.length === 0) return undefined;
  const numbers = named.map(Number);
  if (own?.ends === '1') {
    const poles = Math.ceil(Math.max(...numbers) / 2);
    if (!numbers.every((number) => Number.isInteger(number) && number > 0)) return undefined;
    return poles === 1 ? says : says.replace('1 pole', `${poles} poles`);
  }
  const has = own === undefined ? ['+', '-'] : [own.ends, own.begins];
  return named.every((one) => has.includes(one)) ? says : undefined;
}
