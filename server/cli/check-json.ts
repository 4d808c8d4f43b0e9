/** The JSON of `ampscribe check`, version 1; its schema is `check.schema.json`. Lines and characters from 0, UTF-16. */
import { LineIndex } from '../../grammar/lines.ts';
import type { Place } from '../model/model.ts';
import type { Figures, Severity } from '../rules/rule.ts';
import { shownPath } from './files.ts';
import type { Loaded } from './load.ts';

export interface JsonRange {
  readonly start: { readonly line: number; readonly character: number };
  readonly end: { readonly line: number; readonly character: number };
}

export interface CheckJson {
  readonly version: 1;
  readonly files: readonly {
    readonly file: string;
    readonly findings: readonly {
      readonly slug: string;
      readonly severity: Severity;
      readonly message: string;
      readonly range: JsonRange;
      readonly subject?: string;
      readonly figures: Figures;
      readonly related: readonly { readonly message: string; readonly file: string; readonly range: JsonRange }[];
      readonly fixes: readonly {
        readonly title: string;
        readonly safe: boolean;
        readonly edits: readonly { readonly file: string; readonly range: JsonRange; readonly newText: string }[];
      }[];
    }[];
  }[];
}

export function checkJson(loaded: readonly Loaded[], here: string): CheckJson {
  return {
    version: 1,
    files: loaded.map(({ name, analysis }) => {
      const indexes = new Map<string, LineIndex>([[analysis.uri, analysis.lines]]);
      for (const file of analysis.files) {
        if (!indexes.has(file.uri)) indexes.set(file.uri, new LineIndex(file.text));
      }
      const range = (place: Place): JsonRange => {
        const lines = indexes.get(place.uri) ?? analysis.lines;
        return { start: lines.position(place.span.start), end: lines.position(place.span.end) };
      };
      const file = (place: Place) => (place.uri === analysis.uri ? name : shownPath(place.uri, here));
      return {
        file: name,
        findings: analysis.findings.map((finding) => ({
          slug: finding.slug,
          severity: finding.severity,
          message: finding.message,
          range: range(finding.place),
          ...(finding.subject === undefined ? {} : { subject: finding.subject }),
          figures: finding.figures,
          related: finding.related.map(({ message, place }) => ({ message, file: file(place), range: range(place) })),
          fixes: finding.fixes.map(({ title, safe, edits }) => ({
            title,
            safe,
            edits: edits.map(({ place, newText }) => ({ file: file(place), range: range(place), newText })),
          })),
        })),
      };
    }),
  };
}
