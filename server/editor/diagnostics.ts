/** Findings as diagnostics of the protocol. */
import { type Diagnostic, DiagnosticSeverity, DiagnosticTag } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import type { Finding, Severity } from '../rules/rule.ts';
import { locationOf } from './ranges.ts';

export interface DiagnosticOptions {
  readonly pageUri: (slug: string) => string | undefined;
  readonly relatedInformation: boolean;
  readonly tags: boolean;
}

/** What a diagnostic carries for other programs: the figures that decided, and the edits that would mend. */
export interface DiagnosticData {
  readonly subject?: string;
  readonly figures: Finding['figures'];
  readonly fixes: readonly {
    readonly title: string;
    readonly safe: boolean;
    readonly edits: readonly { readonly uri: string; readonly range: Diagnostic['range']; readonly newText: string }[];
  }[];
}

export const source = 'ampscribe';

const severities: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  advice: DiagnosticSeverity.Information,
};

/** Findings about words that do nothing any more and may go. */
const unnecessary: ReadonlySet<string> = new Set(['allow-unused']);

export function diagnosticOf(analysis: Analysis, finding: Finding, options: DiagnosticOptions): Diagnostic {
  const { slug, severity, message, place, subject, figures, related, fixes } = finding;
  const href = options.pageUri(slug);
  const data: DiagnosticData = {
    ...(subject === undefined ? {} : { subject }),
    figures,
    fixes: fixes.map(({ title, safe, edits }) => ({
      title,
      safe,
      edits: edits.map((edit) => ({ ...locationOf(analysis, edit.place), newText: edit.newText })),
    })),
  };
  return {
    range: locationOf(analysis, place).range,
    severity: severities[severity],
    code: slug,
    ...(href === undefined ? {} : { codeDescription: { href } }),
    source,
    message,
    ...(options.tags && unnecessary.has(slug) ? { tags: [DiagnosticTag.Unnecessary] } : {}),
    ...(options.relatedInformation && related.length > 0
      ? {
          relatedInformation: related.map((one) => ({
            location: locationOf(analysis, one.place),
            message: one.message,
          })),
        }
      : {}),
    data,
  };
}

export function diagnostics(analysis: Analysis, options: DiagnosticOptions): Diagnostic[] {
  return analysis.findings.map((finding) => diagnosticOf(analysis, finding, options));
}
