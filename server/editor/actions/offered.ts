/** What the light bulb offers, in plain terms: a title at once, and the change of the text when it is asked for. */
import { CodeActionKind } from 'vscode-languageserver';
import type { Span } from '../../../grammar/tree.ts';
import type { Analysis } from '../../analysis.ts';
import type { Edit, Finding } from '../../rules/rule.ts';

export interface Offered {
  /** What it does, and what it changes electrically if it does. */
  readonly title: string;
  readonly kind: string;
  /** The finding that it answers, if it answers one. */
  readonly finding?: Finding;
  /** What a key press applies unseen. */
  readonly preferred?: boolean;
  /** Known already, or worked out when the action is chosen. */
  readonly edits: readonly Edit[] | (() => readonly Edit[]);
}

/** Where the person stands: the analysis, and the words that are selected (none: the pointer alone). */
export interface Asked {
  readonly analysis: Analysis;
  readonly span: Span;
  /** Analyses of the specs that use this file: its names are theirs too, and what is free here may be wired there. */
  readonly users: readonly Analysis[];
}

export const fixAllKind = `${CodeActionKind.SourceFixAll}.ampscribe`;
/** A blank written in is a change of the text that no finding asked for. */
export const fillBlankKind = `${CodeActionKind.RefactorRewrite}.blank`;
export const extractStockKind = `${CodeActionKind.RefactorExtract}.stock`;
export const inlineStockKind = `${CodeActionKind.RefactorInline}.stock`;
export const swapSizeKind = `${CodeActionKind.RefactorRewrite}.size`;
export const splitRunKind = `${CodeActionKind.RefactorRewrite}.split`;
export const addIsolatorKind = `${CodeActionKind.RefactorRewrite}.isolator`;
export const otherCoreKind = `${CodeActionKind.RefactorRewrite}.core`;
export const sortKind = `${CodeActionKind.Source}.sort.ampscribe`;

/** Kinds that the server names to clients: whoever asks for one gets those below it too. */
export const offeredKinds: readonly string[] = [
  CodeActionKind.QuickFix,
  CodeActionKind.RefactorExtract,
  CodeActionKind.RefactorInline,
  CodeActionKind.RefactorRewrite,
  fixAllKind,
  sortKind,
];
