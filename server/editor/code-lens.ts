/**
 * Code lenses: above a source, load or protective device what the worst case makes of it, and how much is found there; above
 * a case the way to see it in the picture.
 */
import type { CodeLens } from 'vscode-languageserver';
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import type { Analysis } from '../analysis.ts';
import type { Part } from '../model/model.ts';
import { statementAt } from '../model/place.ts';
import { amps, percent, volts } from '../reports/figures.ts';
import { deviceName } from '../rules/words.ts';
import { type AnsweredPiece, answeredPieces } from './pieces.ts';
import { rangeOf } from './ranges.ts';
import { takenBy } from './taken.ts';

export interface LensOptions {
  /** A command of the client that lists what is found; undefined where it has none. */
  readonly showFindings: string | undefined;
  /** A command of the client that shows a case in the picture; undefined where it has none. */
  readonly showCase?: string | undefined;
  /** The spec's own, as the client writes it. */
  readonly address?: string;
}

/** A source that gives less gives nothing. */
const leastAmps = 0.005;

const families: ReadonlySet<string> = new Set(['source', 'conversion', 'load', 'protection']);

export function codeLenses(analysis: Analysis, options: LensOptions): CodeLens[] {
  return [...ofParts(analysis, options), ...ofCases(analysis, options)];
}

function ofCases({ uri, lines, model }: Analysis, { showCase, address = uri }: LensOptions): CodeLens[] {
  if (showCase === undefined) return [];
  return model.cases
    .filter(({ implied, namePlace }) => !implied && namePlace.uri === uri)
    .map(({ name, namePlace }) => ({
      range: rangeOf(lines, namePlace.span),
      command: { title: 'Show this case in the picture', command: showCase, arguments: [address, name] },
    }));
}

function ofParts(analysis: Analysis, { showFindings }: LensOptions): CodeLens[] {
  const found = countFindings(analysis);
  const lenses = answeredPieces(analysis).flatMap((piece) =>
    [...piece.model.parts.values()].flatMap((part): CodeLens[] => {
      if (part.namePlace.uri !== analysis.uri || !families.has(part.kind.family)) return [];
      const range = rangeOf(analysis.lines, part.namePlace.span);
      const several = part.origin.statement.node.names.length > 1;
      const lens = (title: string, command = ''): CodeLens => ({
        range,
        command: { title: several ? `${part.name}: ${title}` : title, command },
      });
      const figures = figuresOf(piece, part);
      const count = found.get(part.name) ?? 0;
      return [
        ...(figures === undefined ? [] : [lens(figures)]),
        ...(count === 0 ? [] : [lens(count === 1 ? '1 finding' : `${count} findings`, showFindings)]),
      ];
    }),
  );
  return lenses.sort(
    ({ range: { start: a } }, { range: { start: b } }) => a.line - b.line || a.character - b.character,
  );
}

/** By part: what is found about it, and what stands in its statement and is about no other. */
function countFindings({ findings, model }: Analysis): Map<string, number> {
  const counts = new Map<string, number>();
  const declaredIn = (statement: ShapedPlaced | undefined) =>
    statement?.node.names.find(({ value }) => model.parts.get(value)?.origin.statement === statement)?.value;
  for (const { subject, place } of findings) {
    const about = subject !== undefined && model.parts.has(subject) ? subject : declaredIn(statementAt(place));
    if (about !== undefined) counts.set(about, (counts.get(about) ?? 0) + 1);
  }
  return counts;
}

function figuresOf(piece: AnsweredPiece, part: Part): string | undefined {
  switch (part.kind.family) {
    case 'protection':
      return deviceWords(piece, part);
    case 'source':
      return sourceWords(piece, part);
    default:
      return loadWords(piece, part) ?? sourceWords(piece, part);
  }
}

/** `11.62 V at least, 3.4 % lost in working, design current 6.9 A`. */
function loadWords({ answers }: AnsweredPiece, part: Part): string | undefined {
  const figures = answers.loads.get(part.name);
  if (figures?.source === undefined || figures.worstCase === '') return undefined;
  const { lowestVolts, dropPercent, worstCase } = figures;
  return `${volts(lowestVolts)} at least, ${percent(dropPercent)} lost in ${worstCase}, design current ${amps(takenBy(part, answers)?.amps)}`;
}

/** Of several ways the one that is used most. */
function deviceWords({ answers }: AnsweredPiece, part: Part): string | undefined {
  const ways = (answers.contacts.get(part.name) ?? []).filter(({ designAmps }) => designAmps > 0);
  const used = ({ designAmps, device }: (typeof ways)[number]) =>
    designAmps / (device?.amps ?? Number.POSITIVE_INFINITY);
  const [fullest] = [...ways].sort((a, b) => used(b) - used(a));
  if (fullest === undefined) return undefined;
  const { designAmps, device, pole } = fullest;
  const rating = device?.amps === undefined ? '' : ` of ${amps(device.amps)}${device.blank ? ' (proposed)' : ''}`;
  const way = ways.length > 1 ? `fullest way ${deviceName(part, pole)}: ` : '';
  return `${way}design current ${amps(designAmps)}${rating}`;
}

/** The case in which it gives most. */
function sourceWords({ cases }: AnsweredPiece, { name }: Part): string | undefined {
  let most: { amps: number; volts: number | undefined; case: string } | undefined;
  for (const { name: caseName, parts } of cases) {
    const here = parts.get(name);
    if (here?.amps === undefined || !(here.amps > (most?.amps ?? leastAmps))) continue;
    most = { amps: here.amps, volts: here.volts, case: caseName };
  }
  return most && `gives at most ${amps(most.amps)} at ${volts(most.volts)}, in ${most.case}`;
}
