/** Findings for a terminal: the message, the source line, the words underlined, the other places, what would mend it. */
import { LineIndex } from '../../grammar/lines.ts';
import type { Analysis } from '../analysis.ts';
import type { Place } from '../model/model.ts';
import type { Finding, Severity } from '../rules/rule.ts';
import { shownPath } from './files.ts';
import type { Surroundings } from './io.ts';
import type { Loaded } from './load.ts';

type Paint = (style: 'error' | 'warning' | 'advice' | 'quiet' | 'strong', text: string) => string;

const codes: Record<Parameters<Paint>[0], readonly [number, number]> = {
  error: [31, 39],
  warning: [33, 39],
  advice: [36, 39],
  quiet: [2, 22],
  strong: [1, 22],
};

export function painter(colours: boolean): Paint {
  return (style, text) => (colours ? `\u001b[${codes[style][0]}m${text}\u001b[${codes[style][1]}m` : text);
}

/** All findings of one file, ready to print; empty when there are none. */
export function findingsText(name: string, analysis: Analysis, io: Pick<Surroundings, 'colours' | 'here'>): string {
  const paint = painter(io.colours);
  return analysis.findings.map((finding) => findingText(name, analysis, finding, paint, io.here)).join('');
}

function findingText(name: string, analysis: Analysis, finding: Finding, paint: Paint, here: string): string {
  const where = spot(name, analysis, finding.place, here);
  const head = `${paint('strong', `${where.file}:${where.line + 1}:${where.character + 1}`)}  ${paint(
    finding.severity,
    finding.severity,
  )}  ${finding.slug}`;
  const lines = [head, `  ${finding.message}`, ...excerpt(where, (text) => paint(finding.severity, text), paint)];
  for (const { message, place } of finding.related) {
    const other = spot(name, analysis, place, here);
    lines.push(paint('quiet', `  ${other.file}:${other.line + 1}:${other.character + 1}  ${message}`));
  }
  for (const fix of finding.fixes) lines.push(`  ${paint('quiet', 'fix:')} ${fix.title}`);
  return `${lines.join('\n')}\n\n`;
}

interface Spot {
  readonly file: string;
  readonly line: number;
  readonly character: number;
  readonly lineText: string;
  readonly length: number;
}

function spot(name: string, analysis: Analysis, place: Place, here: string): Spot {
  const own = place.uri === analysis.uri;
  const text = own ? analysis.text : (analysis.files.find(({ uri }) => uri === place.uri)?.text ?? '');
  const lines = own ? analysis.lines : new LineIndex(text);
  const { line, character } = lines.position(place.span.start);
  const lineText = text.slice(lines.lineStart(line), lines.lineStart(line + 1)).replace(/\r?\n?$/, '');
  const length = Math.min(place.span.end - place.span.start, Math.max(1, lineText.length - character));
  return { file: own ? name : shownPath(place.uri, here), line, character, lineText, length: Math.max(1, length) };
}

/** Characters of a line that are shown before and behind the words; a line of noise may have a million. */
const shownBefore = 100;
const shownBehind = 140;

/** A long line, cut down to what stands around the words. */
function around({ character, lineText, length }: Spot): { text: string; character: number; length: number } {
  if (lineText.length <= shownBefore + shownBehind) return { text: lineText, character, length };
  const from = Math.max(0, character - shownBefore);
  const to = Math.min(lineText.length, character + shownBehind);
  const [before, behind] = [from > 0 ? '… ' : '', to < lineText.length ? ' …' : ''];
  return {
    text: before + lineText.slice(from, to) + behind,
    character: character - from + before.length,
    length: Math.min(length, to - character),
  };
}

function excerpt(where: Spot, mark: (text: string) => string, paint: Paint): string[] {
  const { text: lineText, character, length } = around(where);
  const number = String(where.line + 1);
  const margin = ' '.repeat(number.length);
  // Tabs before the words are kept, so that the marks stand under them whatever a tab's width.
  const lead = lineText.slice(0, character).replace(/[^\t]/gu, ' ');
  const width = [...lineText.slice(character, character + length)].length;
  return [
    `  ${paint('quiet', `${number} │`)} ${lineText}`,
    `  ${paint('quiet', `${margin} │`)} ${lead}${mark('▔'.repeat(Math.max(1, width)))}`,
  ];
}

/** The closing line: how many findings of each severity in how many files. */
export function summaryText(loaded: readonly Loaded[], io: Pick<Surroundings, 'colours'>): string {
  const paint = painter(io.colours);
  const count = (severity: Severity) =>
    loaded.reduce((sum, { analysis }) => sum + analysis.findings.filter((f) => f.severity === severity).length, 0);
  const [errors, warnings, advice] = [count('error'), count('warning'), count('advice')];
  const files = `${loaded.length} ${loaded.length === 1 ? 'file' : 'files'}`;
  if (errors + warnings + advice === 0) return loaded.length === 0 ? '' : `${files} checked: nothing found.\n`;
  const parts = [
    errors > 0 ? paint('error', `${errors} ${errors === 1 ? 'error' : 'errors'}`) : '',
    warnings > 0 ? paint('warning', `${warnings} ${warnings === 1 ? 'warning' : 'warnings'}`) : '',
    advice > 0 ? paint('advice', `${advice} advice`) : '',
  ].filter((part) => part !== '');
  return `${files} checked: ${parts.join(', ')}.\n`;
}
