/** What was found, on pages behind the drawing: its marks tell where, these pages what and what to do. */
import type { Analysis } from '../../analysis.ts';
import type { Severity } from '../../rules/rule.ts';
import { wrapped } from '../letters.ts';
import { element, text, type Xml } from '../xml.ts';
import { fieldOf, framed } from './frame.ts';
import { type Page, type Paper, pageOf } from './paper.ts';
import type { Numbering, Sheet, SheetFacts } from './sheet.ts';

export interface FindingLine {
  readonly severity: Severity;
  /** Why it was accepted, when it was. */
  readonly accepted: string | undefined;
  /** Name of what it is about; empty when it is about the whole. */
  readonly about: string;
  readonly message: string;
  /** Where it is written: `line 25`. */
  readonly where: string;
}

/** The worst first, then in the order of the spec; what was accepted last. */
export function findingLines({ findings, accepted, model, lines, uri }: Analysis): FindingLine[] {
  const order: readonly Severity[] = ['error', 'warning', 'advice'];
  const told = (list: Analysis['findings'], reasonOf: (one: Analysis['findings'][number]) => string | undefined) =>
    [...list]
      .sort((a, b) => order.indexOf(a.severity) - order.indexOf(b.severity))
      .map(
        (finding): FindingLine => ({
          severity: finding.severity,
          accepted: reasonOf(finding),
          about: finding.subject ?? '',
          message: finding.message,
          where: finding.place.uri === uri ? `line ${lines.position(finding.place.span.start).line + 1}` : '',
        }),
      );
  const reason = (slug: string, subject: string | undefined) =>
    model.allowances.find((one) => one.slug === slug && (one.subject === undefined || one.subject === subject))
      ?.reason ?? '';
  return [...told(findings, () => undefined), ...told(accepted, ({ slug, subject }) => reason(slug, subject))];
}

const size = 10;
const lineHeight = 13;
const gap = 9;
const indent = 24;

interface Entry {
  readonly line: FindingLine;
  readonly head: string;
  readonly words: readonly string[];
  readonly height: number;
}

export interface FindingPages {
  readonly page: Page;
  readonly pages: readonly (readonly Entry[])[];
}

export function findingPages(findings: readonly FindingLine[], paper: Paper): FindingPages {
  const page = pageOf(paper, 'upright');
  const field = fieldOf(page);
  const pages: Entry[][] = [];
  let used = Number.POSITIVE_INFINITY;
  for (const line of findings) {
    const entry = entryOf(line, field.width - indent);
    if (used + entry.height > field.height) {
      pages.push([]);
      used = 0;
    }
    pages.at(-1)?.push(entry);
    used += entry.height + gap;
  }
  return { page, pages };
}

/** No message is so long that a page could not hold several; one made so is cut. */
const mostLines = 20;

function entryOf(line: FindingLine, width: number): Entry {
  const head = [line.about, line.where].filter((word) => word !== '').join(', ');
  const accepted = line.accepted === undefined ? '' : ` Accepted: “${line.accepted}”.`;
  const words = wrapped(`${line.message}${accepted}`, width, size).slice(0, mostLines);
  return { line, head, words, height: (words.length + 1) * lineHeight };
}

export function findingSheets({ page, pages }: FindingPages, facts: SheetFacts, { first, of }: Numbering): Sheet[] {
  const field = fieldOf(page);
  return pages.map((entries, index) => {
    let y = field.y;
    const drawn = entries.map((entry) => {
      const at = y;
      y += entry.height + gap;
      return drawEntry(entry, field.x, at);
    });
    return framed(page, { facts, shows: 'what was found', number: first + index, of }, drawn);
  });
}

/** As the drawing marks them: told apart by letter and by colour. */
const marks: Readonly<Record<Severity, { readonly letter: string; readonly colour: string }>> = {
  error: { letter: '!', colour: '#b3261e' },
  warning: { letter: '?', colour: '#8a5a00' },
  advice: { letter: 'i', colour: '#1d5a96' },
};

function drawEntry({ line, head, words }: Entry, x: number, y: number): Xml {
  const { letter, colour } = marks[line.severity];
  const title = `${line.severity}${head === '' ? '' : ` · ${head}`}${line.accepted === undefined ? '' : ' · accepted'}`;
  return element(
    'g',
    { 'font-size': size, fill: '#1d2021' },
    element('circle', {
      cx: x + 8,
      cy: y + 7,
      r: 7,
      fill: line.accepted === undefined ? colour : '#ffffff',
      stroke: colour,
      'stroke-width': 1.4,
    }),
    element(
      'text',
      {
        x: x + 8,
        y: y + 10.4,
        'text-anchor': 'middle',
        'font-weight': 'bold',
        fill: line.accepted === undefined ? '#ffffff' : colour,
      },
      text(letter),
    ),
    element('text', { x: x + indent, y: y + 10, 'font-weight': 'bold' }, text(title)),
    words.map((one, index) => element('text', { x: x + indent, y: y + 10 + (index + 1) * lineHeight }, text(one))),
  );
}
