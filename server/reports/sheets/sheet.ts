/** A sheet as it goes to a printer: one page, whole in itself. */

import type { Severity } from '../../rules/rule.ts';

/** What the title block tells besides the page’s number. */
export interface SheetFacts {
  /** Of the installation; the file’s name when it has none. */
  readonly title: string;
  readonly file: string;
  /** Revision of the file, with a mark when it was changed since; undefined outside a repository. */
  readonly revision: string | undefined;
  /** `2026-11-26`. */
  readonly date: string;
  readonly findings: { readonly errors: number; readonly warnings: number; readonly advice: number };
}

export interface Numbering {
  /** Number of the first page. */
  readonly first: number;
  readonly of: number;
}

export interface Sheet {
  /** In the unit of drawings, 96 to the inch. */
  readonly width: number;
  readonly height: number;
  readonly svg: string;
}

/** A drawing to be put on sheets. */
export interface Whole {
  readonly width: number;
  readonly height: number;
  /** A whole `<svg>` of that size. */
  readonly svg: string;
  /** Whether anything is drawn in a part of it; such parts alone get a page. */
  readonly occupied?: (x: number, y: number, width: number, height: number) => boolean;
}

export function counted(findings: readonly { readonly severity: Severity }[]): SheetFacts['findings'] {
  const count = (severity: Severity) => findings.filter((finding) => finding.severity === severity).length;
  return { errors: count('error'), warnings: count('warning'), advice: count('advice') };
}

/** `checked: 2 errors, 1 warning`. */
export function checkedWords({ errors, warnings, advice }: SheetFacts['findings']): string {
  const count = (number: number, one: string, many: string) => `${number} ${number === 1 ? one : many}`;
  const told = [
    ...(errors + warnings + advice === 0 ? ['no findings'] : []),
    ...(errors + warnings > 0 ? [count(errors, 'error', 'errors'), count(warnings, 'warning', 'warnings')] : []),
    ...(advice > 0 ? [`${advice} advice`] : []),
  ];
  return `checked: ${told.join(', ')}`;
}
