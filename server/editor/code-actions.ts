/** What the light bulb offers: each action is a file of `actions/`; here they are gathered, and written out for the client. */
import { type CodeAction, CodeActionKind } from 'vscode-languageserver';
import type { Span } from '../../grammar/tree.ts';
import type { Analysis } from '../analysis.ts';
import { accept } from './actions/accept.ts';
import { addFuse } from './actions/add-fuse.ts';
import { addIsolator } from './actions/add-isolator.ts';
import { declare } from './actions/declare.ts';
import { extractStock } from './actions/extract-stock.ts';
import { fillBlanks } from './actions/fill-blanks.ts';
import { type Again, fixAll } from './actions/fix-all.ts';
import { fixes } from './actions/fixes.ts';
import { inlineStock } from './actions/inline-stock.ts';
import { type Nearby, nearFile } from './actions/near-file.ts';
import {
  type Asked,
  addIsolatorKind,
  extractStockKind,
  fillBlankKind,
  fixAllKind,
  inlineStockKind,
  type Offered,
  otherCoreKind,
  sortKind,
  splitRunKind,
  swapSizeKind,
} from './actions/offered.ts';
import { otherCore } from './actions/other-core.ts';
import { sortStatements } from './actions/sort-statements.ts';
import { splitAtBox } from './actions/split-at-box.ts';
import { swapSize } from './actions/swap-size.ts';
import { takeOut } from './actions/take-out.ts';
import { type DiagnosticOptions, diagnosticOf } from './diagnostics.ts';
import { overlaps, workspaceEdit } from './ranges.ts';

export { fillBlankKind, fixAllKind, offeredKinds } from './actions/offered.ts';

export interface CodeActionOptions extends DiagnosticOptions {
  /** Kinds the client wants; all when undefined. */
  readonly only?: readonly string[] | undefined;
  /** The client asks for the edit of an action when it is chosen: then it is worked out no sooner. */
  readonly resolves?: boolean;
  readonly again?: Again;
  /** Analyses of the specs that use this file. */
  readonly users?: readonly Analysis[];
  /** Other specs, where they are known: one of them may be the file that is missing. */
  readonly nearby?: Nearby | undefined;
}

/** What comes back with an action whose edit is wanted. */
export interface ActionData {
  readonly spec: string;
  readonly span: Span;
}

export function codeActions(analysis: Analysis, span: Span, options: CodeActionOptions): CodeAction[] {
  const asked: Asked = { analysis, span, users: options.users ?? [] };
  return offered(asked, options).flatMap((one) => written(one, asked, options));
}

/**
 * The edit of an action that was offered without one, which may come to nothing; undefined where the text has changed so that
 * it is offered no more.
 */
export function resolveCodeAction(
  analysis: Analysis,
  { title, kind }: Pick<CodeAction, 'title' | 'kind'>,
  span: Span,
  options: CodeActionOptions,
): CodeAction['edit'] {
  const only = kind === undefined ? undefined : [kind];
  const asked: Asked = { analysis, span, users: options.users ?? [] };
  const found = offered(asked, { ...options, only }).find((one) => one.title === title);
  return found === undefined ? undefined : (editOf(analysis, found) ?? { changes: {} });
}

/** Kinds of action, each with what offers it. */
const refactorings: readonly (readonly [string, (asked: Asked) => readonly Offered[]])[] = [
  [fillBlankKind, fillBlanks],
  [swapSizeKind, swapSize],
  [extractStockKind, extractStock],
  [inlineStockKind, inlineStock],
  [addIsolatorKind, addIsolator],
  [splitRunKind, splitAtBox],
  [otherCoreKind, otherCore],
  [sortKind, sortStatements],
];

function offered(asked: Asked, { only, again, nearby }: CodeActionOptions): Offered[] {
  const { analysis, span } = asked;
  // The empty kind is above all others.
  const wants = (kind: string) =>
    only === undefined || only.some((one) => one === '' || kind === one || kind.startsWith(`${one}.`));
  const found: Offered[] = [];
  if (wants(CodeActionKind.QuickFix)) {
    const here = analysis.findings.filter(({ place }) => overlaps(place.span, span));
    found.push(
      ...here.flatMap((finding) => fixes(analysis, finding)),
      ...here.flatMap((finding) => addFuse(asked, finding, again)),
      ...here.flatMap((finding) => nearFile(analysis, finding, nearby)),
      ...here.flatMap((finding) => declare(analysis, finding)),
      ...here.flatMap((finding) => takeOut(asked, finding)),
      ...eachOnce(here.flatMap((finding) => accept(analysis, finding))),
    );
  }
  for (const [kind, offers] of refactorings) if (wants(kind)) found.push(...offers(asked));
  if (wants(fixAllKind)) found.push(...fixAll(analysis, again));
  return toldApart(analysis, found);
}

/** One `allow` accepts all that is found so of one thing. */
function eachOnce(accepts: readonly Offered[]): Offered[] {
  return accepts.filter((one, i) => accepts.findIndex(({ title }) => title === one.title) === i);
}

/** Over several lines one mend may be offered for several findings, and one value for several blanks: each says where. */
function toldApart({ lines }: Analysis, offers: readonly Offered[]): Offered[] {
  const lineOf = ({ finding, edits }: Offered) => {
    const place = finding?.place ?? (typeof edits === 'function' ? undefined : edits[0]?.place);
    return place === undefined ? undefined : lines.position(place.span.start).line + 1;
  };
  const linesOf = new Map<string, Set<number>>();
  for (const one of offers) {
    const line = lineOf(one);
    if (line !== undefined) linesOf.set(one.title, (linesOf.get(one.title) ?? new Set()).add(line));
  }
  return offers.map((one) =>
    (linesOf.get(one.title)?.size ?? 0) > 1 ? { ...one, title: `${one.title}, in line ${lineOf(one)}` } : one,
  );
}

function written(one: Offered, { analysis, span }: Asked, options: CodeActionOptions): CodeAction[] {
  const { title, kind, finding, preferred, edits } = one;
  const action: CodeAction = {
    title,
    kind,
    ...(finding === undefined ? {} : { diagnostics: [diagnosticOf(analysis, finding, options)] }),
    ...(preferred === true ? { isPreferred: true } : {}),
  };
  if (typeof edits === 'function' && options.resolves === true)
    return [{ ...action, data: { spec: analysis.uri, span } satisfies ActionData }];
  const edit = editOf(analysis, one);
  return edit === undefined ? [] : [{ ...action, edit }];
}

function editOf(analysis: Analysis, { edits }: Offered): CodeAction['edit'] {
  const known = typeof edits === 'function' ? edits() : edits;
  return known.length === 0 ? undefined : workspaceEdit(analysis, known);
}
