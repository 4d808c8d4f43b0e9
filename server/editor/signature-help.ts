/** Signature help: the form of the clause that is being written, or what the statement may still say. */
import {
  MarkupKind,
  type ParameterInformation,
  type SignatureHelp,
  type SignatureInformation,
} from 'vscode-languageserver';
import { type Expectation, expectedAt } from '../../grammar/expected.ts';
import type { ClauseNode } from '../../grammar/shaped.ts';
import type { ClauseSpec, StatementSpec } from '../../grammar/vocabulary.ts';
import type { Analysis } from '../analysis.ts';
import { at } from './at.ts';
import { contextOf } from './completion/context.ts';
import { clauseHover, readableForm } from './hover/words.ts';
import { render } from './markup.ts';

export interface SignatureOptions {
  readonly markdown: boolean;
}

/** More forms than this side by side help nobody. */
const mostForms = 6;
/** A statement's clauses beyond these are told by completion. */
const mostClauses = 12;

export function signatureHelp(analysis: Analysis, offset: number, options: SignatureOptions): SignatureHelp | null {
  const expectation = expectedAt(analysis.tree, offset);
  const { where, statement, spec } = expectation;
  if (spec === undefined || (where !== 'clause' && where !== 'unit' && where !== 'name')) return null;
  const written = at(analysis, offset);
  const named = written?.atom !== undefined && written.clause === undefined;
  if (written?.clause !== undefined && written.statement === statement) {
    const { clause, value } = written;
    const slot = value?.slot ?? nextSlot(clause, written.relative);
    return help([clauseSignature(clause.spec, spec.spec, slot, options)]);
  }
  const begun = where === 'name' || named ? [] : begunClauses(analysis, offset, expectation);
  if (begun.length > 0) return help(begun.map(({ clause, slot }) => clauseSignature(clause, spec.spec, slot, options)));
  return help(statementSignature(expectation, spec.spec, options));
}

function help(signatures: readonly SignatureInformation[]): SignatureHelp | null {
  const [first] = signatures;
  if (first === undefined) return null;
  return {
    signatures: [...signatures],
    activeSignature: 0,
    ...(first.activeParameter === undefined ? {} : { activeParameter: first.activeParameter }),
  };
}

/** The first value of a clause that stands at or behind the pointer. */
function nextSlot({ values }: ClauseNode, relative: number): string | undefined {
  return (values.find(({ span }) => span.end >= relative) ?? values.at(-1))?.slot;
}

/** Clauses that the words since the last comma have begun, with the value each would take next. */
function begunClauses(
  analysis: Analysis,
  offset: number,
  expectation: Expectation,
): { clause: ClauseSpec; slot: string | undefined }[] {
  const { segment } = contextOf(analysis, offset, expectation, { snippets: false, markdown: false });
  if (segment.trim() === '') return [];
  const expected =
    expectation.where === 'unit' ? [...expectation.values, ...expectation.expected] : expectation.expected;
  const begun = new Map<ClauseSpec, string | undefined>();
  for (const one of expected) if (!begun.has(one.clause)) begun.set(one.clause, 'slot' in one ? one.slot : undefined);
  return [...begun].slice(0, mostForms).map(([clause, slot]) => ({ clause, slot }));
}

function clauseSignature(
  clause: ClauseSpec,
  statement: StatementSpec,
  slot: string | undefined,
  options: SignatureOptions,
): SignatureInformation {
  const label = readableForm(clause.form);
  const parameters: ParameterInformation[] = [];
  const slots: string[] = [];
  for (const { 0: written, index } of label.matchAll(/‹[^›]+›…?/gu)) {
    parameters.push({ label: [index, index + written.length] });
    slots.push(written.replaceAll(/[‹›…]/gu, ''));
  }
  const active = slot === undefined ? -1 : slots.indexOf(slot);
  return {
    label,
    documentation: documentation(clause, statement, options),
    parameters,
    ...(active < 0 ? {} : { activeParameter: active }),
  };
}

/** What the statement may still say: what it must first. */
function statementSignature(
  { given, statement }: Expectation,
  spec: StatementSpec,
  options: SignatureOptions,
): SignatureInformation[] {
  const groups = new Set(spec.clauses.filter(({ id }) => given.has(id)).map(({ oneOf }) => oneOf));
  const open = spec.clauses.filter(
    ({ id, repeatable, oneOf }) =>
      (repeatable === true || !given.has(id)) && (oneOf === undefined || !groups.has(oneOf)),
  );
  const must = (clause: ClauseSpec) =>
    !given.has(clause.id) && (clause.required === true || clause.oneOf !== undefined);
  const listed = [...open.filter(must), ...open.filter((clause) => !must(clause))].slice(0, mostClauses);
  if (listed.length === 0) return [];
  const names = (statement?.node.names ?? []).map(({ value }) => value).join(' and ');
  let label = [spec.word, spec.head === 'none' ? '' : names || '‹name›'].filter((piece) => piece !== '').join(' ');
  const parameters = listed.map((clause, i): ParameterInformation => {
    const form = readableForm(clause.form);
    const start = label.length + 2;
    label += `${i === 0 ? '  ' : ', '}${form}`;
    return { label: [start, start + form.length], documentation: documentation(clause, spec, options) };
  });
  if (open.length > listed.length) label += ', …';
  const [first] = listed;
  return [
    {
      label,
      documentation: spec.meaning,
      parameters,
      ...(first !== undefined && must(first) ? { activeParameter: 0 } : {}),
    },
  ];
}

function documentation(clause: ClauseSpec, statement: StatementSpec, { markdown }: SignatureOptions) {
  // The form is the signature itself, and its head the statement that is written.
  const blocks = clauseHover(clause, statement).filter((_, i) => i === 1 || i === 3);
  const rendered = render(blocks, markdown);
  return rendered.kind === MarkupKind.PlainText ? rendered.value : rendered;
}
