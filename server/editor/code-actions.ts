/** What the light bulb offers: fixes of findings, all safe ones at once, a chosen value for a blank, accepting with a reason. */
import { type CodeAction, CodeActionKind, type Diagnostic } from 'vscode-languageserver';
import type { Span } from '../../grammar/tree.ts';
import type { Analysis } from '../analysis.ts';
import type { Place } from '../model/model.ts';
import { allRules } from '../rules/all.ts';
import type { Edit, Finding, Fix } from '../rules/rule.ts';
import { type DiagnosticOptions, diagnosticOf } from './diagnostics.ts';
import { overlaps, workspaceEdit } from './ranges.ts';

export const fixAllKind = `${CodeActionKind.SourceFixAll}.ampscribe`;
/** A blank written in is a change of the text that no finding asked for. */
export const fillBlankKind = `${CodeActionKind.RefactorRewrite}.blank`;

export interface CodeActionOptions extends DiagnosticOptions {
  /** Kinds the client wants; all when undefined. */
  readonly only?: readonly string[] | undefined;
}

export function codeActions(analysis: Analysis, span: Span, options: CodeActionOptions): CodeAction[] {
  const wants = (kind: string) =>
    options.only === undefined || options.only.some((one) => kind === one || kind.startsWith(`${one}.`));
  const actions: CodeAction[] = [];
  if (wants(CodeActionKind.QuickFix)) {
    const here = analysis.findings.filter(({ place }) => overlaps(place.span, span));
    for (const finding of here) actions.push(...fixes(analysis, finding, options));
    for (const finding of here) actions.push(...accept(analysis, finding, options));
  }
  if (wants(fillBlankKind)) actions.push(...fillBlanks(analysis, span));
  if (wants(fixAllKind)) actions.push(...fixAll(analysis));
  return actions;
}

function fixes(analysis: Analysis, finding: Finding, options: CodeActionOptions): CodeAction[] {
  const diagnostics: Diagnostic[] = [diagnosticOf(analysis, finding, options)];
  const only = finding.fixes.filter(({ safe }) => safe).length === 1;
  return finding.fixes.map((fix) => ({
    title: fix.title,
    kind: CodeActionKind.QuickFix,
    diagnostics,
    // Preferred is what a key press applies unseen: only where there is one safe way.
    ...(fix.safe && only ? { isPreferred: true } : {}),
    edit: workspaceEdit(analysis, fix.edits),
  }));
}

/** Every safe fix of the file at once; of several for one finding the first, and none that touches another's words. */
function fixAll(analysis: Analysis): CodeAction[] {
  const taken: Place[] = [];
  const edits: Edit[] = [];
  let count = 0;
  for (const { fixes: offered } of analysis.findings) {
    const fix = offered.find(({ safe }) => safe);
    if (fix === undefined || fix.edits.some(({ place }) => taken.some((other) => collides(place, other)))) continue;
    taken.push(...fix.edits.map(({ place }) => place));
    edits.push(...fix.edits);
    count += 1;
  }
  if (count === 0) return [];
  return [
    {
      title: `Mend everything that is safe to mend (${count})`,
      kind: fixAllKind,
      edit: workspaceEdit(analysis, edits),
    },
  ];
}

/** Whether two edits meet: equal places of insertion too, since their order would be a guess. */
function collides(a: Place, b: Place): boolean {
  if (a.uri !== b.uri) return false;
  if (a.span.start === b.span.start) return true;
  return a.span.start < b.span.end && b.span.start < a.span.end;
}

const groups = new Map(allRules.map((rule) => [rule.slug, rule.group]));

/** An `allow` line behind the statement, its reason to be written by the person who accepts. */
function accept(analysis: Analysis, finding: Finding, options: CodeActionOptions): CodeAction[] {
  const { slug, subject, place } = finding;
  const group = groups.get(slug);
  // What cannot be read cannot be accepted, nor can an acceptance itself.
  if (group === undefined || group === 'language' || group === 'spec') return [];
  const file = analysis.model.files[0];
  const statement = file?.statements.find(
    ({ offset, node }) => offset <= place.span.start && place.span.start < offset + node.text.length,
  );
  if (statement === undefined) return [];
  const end = statement.offset + statement.node.text.length;
  const newline = analysis.text.includes('\r\n') ? '\r\n' : '\n';
  const before = statement.node.text.endsWith('\n') ? '' : newline;
  const words = `allow ${slug}${subject === undefined ? '' : ` on ${subject}`}`;
  const fix: Fix = {
    title: `Accept it, with a reason to fill in: ${words}`,
    safe: false,
    edits: [
      { place: { uri: analysis.uri, span: { start: end, end } }, newText: `${before}${words} "reason"${newline}` },
    ],
  };
  return [
    {
      title: fix.title,
      kind: CodeActionKind.QuickFix,
      diagnostics: [diagnosticOf(analysis, finding, options)],
      edit: workspaceEdit(analysis, fix.edits),
    },
  ];
}

/** Where a blank stands in the range: what the tool works out for it. */
function fillBlanks(analysis: Analysis, span: Span): CodeAction[] {
  const { model, answers } = analysis;
  return answers.chosen.flatMap(({ subject, clause, text, why }): CodeAction[] => {
    const facts = model.parts.get(subject)?.facts ?? model.runs.get(subject)?.facts;
    const fact = facts?.fact(clause);
    if (
      facts === undefined ||
      fact === undefined ||
      fact.fromStock !== undefined ||
      fact.origin.file.uri !== analysis.uri
    )
      return [];
    const value = fact.clause.values.find(({ atom }) => atom.text.startsWith('?'));
    if (value === undefined) return [];
    const { offset } = fact.origin.statement;
    const place = { uri: analysis.uri, span: { start: offset + value.span.start, end: offset + value.span.end } };
    if (!overlaps(place.span, span)) return [];
    return [
      {
        title: `Write ${text}, ${why}`,
        kind: fillBlankKind,
        edit: workspaceEdit(analysis, [{ place, newText: text }]),
      },
    ];
  });
}
