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
import { formInWords, readableForm } from './hover/form.ts';
import { clauseHover } from './hover/words.ts';
import { render } from './markup.ts';

export interface SignatureOptions {
  readonly markdown: boolean;
  /** The client takes places in a label for a parameter; else its words. */
  readonly labelOffsets?: boolean;
  /** The client can show that no parameter is next; else it shows the first. */
  readonly noParameter?: boolean;
  /** What the client shows already: a form that somebody went to there stays in front. */
  readonly shown?: SignatureHelp | undefined;
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
    const before = written.statement.node.text.slice(0, value?.span.start ?? written.relative);
    return help([clauseSignature(clause.spec, spec.spec, slot, before, options)], options);
  }
  const begun = where === 'name' || named ? [] : begunClauses(analysis, offset, expectation);
  const before = analysis.text.slice(statement?.offset ?? offset, expectation.replace.start);
  return help(
    begun.length > 0
      ? begun.map(({ clause, slot }) => clauseSignature(clause, spec.spec, slot, before, options))
      : statementSignature(expectation, spec.spec, options),
    options,
  );
}

/** As the client can take it. */
function help(
  signatures: readonly SignatureInformation[],
  { labelOffsets = true, noParameter = false, shown }: SignatureOptions,
): SignatureHelp | null {
  if (signatures.length === 0) return null;
  const inFront = shown?.signatures[shown.activeSignature ?? 0]?.label;
  const activeSignature = Math.max(
    0,
    signatures.findIndex(({ label }) => label === inFront),
  );
  const active = signatures[activeSignature]?.activeParameter ?? (noParameter ? null : undefined);
  return {
    signatures: signatures.map(({ activeParameter, parameters = [], ...signature }) => ({
      ...signature,
      parameters: labelOffsets ? parameters : parameters.map((one) => inWords(signature.label, one)),
      ...(activeParameter === undefined ? (noParameter ? { activeParameter: null } : {}) : { activeParameter }),
    })),
    activeSignature,
    ...(active === undefined ? {} : { activeParameter: active }),
  };
}

function inWords(label: string, parameter: ParameterInformation): ParameterInformation {
  const { label: words } = parameter;
  return typeof words === 'string' ? parameter : { ...parameter, label: label.slice(...words) };
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
  // A word that goes on with a list may come before the value that ends it.
  const part = analysis.model.parts.get(/^\s*(?:with\s+)?(\S+)/u.exec(segment)?.[1] ?? '');
  for (const one of expected)
    if (part === undefined || isSaidOf(part.kind.word, one.clause))
      begun.set(one.clause, begun.get(one.clause) ?? ('slot' in one ? one.slot : undefined));
  return [...begun].slice(0, mostForms).map(([clause, slot]) => ({ clause, slot }));
}

/** A charge is a battery's, a position a selector's. */
function isSaidOf(kind: string, { form }: ClauseSpec): boolean {
  const only = /^(?:\[with\] )?\{(battery|selector):/u.exec(form)?.[1];
  return only === undefined || only === kind;
}

/** `before` is the text up to the value of the slot: of several that one name stands for, its last word tells which is meant. */
function clauseSignature(
  clause: ClauseSpec,
  statement: StatementSpec,
  slot: string | undefined,
  before: string,
  options: SignatureOptions,
): SignatureInformation {
  const { label, slots } = formInWords(clause.form);
  const parameters = slots.map(({ span }): ParameterInformation => ({ label: [span.start, span.end] }));
  const said = slots.map(({ slot: name, span }) => ({ slot: name, behind: lastWord(label.slice(0, span.start)) }));
  const behind = lastWord(before);
  const exact = said.findIndex((one) => one.slot === slot && one.behind === behind);
  const active = exact >= 0 ? exact : said.findIndex((one) => one.slot === slot);
  return {
    label,
    documentation: documentation(clause, statement, options),
    parameters,
    ...(active < 0 ? {} : { activeParameter: active }),
  };
}

function lastWord(text: string): string | undefined {
  return text.match(/[^\s()[\]|]+/gu)?.at(-1);
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
  const stock = statement?.shaped.wrapper;
  const head = spec.head === 'none' ? '' : names || '‹name›';
  let label = (stock === undefined ? [spec.word, head] : [stock.word, head, ` ${spec.word}`])
    .filter((piece) => piece !== '')
    .join(' ');
  const parameters = listed.map((clause, i): ParameterInformation => {
    const form = readableForm(clause.form);
    const gap = i > 0 ? ', ' : stock === undefined ? '  ' : ' ';
    const start = label.length + gap.length;
    label += gap + form;
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
