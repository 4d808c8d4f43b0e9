/** Inlay hints: figures at the end of each core’s line, chosen values beside blanks, the far side of an isolator’s pole. */
import type { InlayHint, Position } from 'vscode-languageserver';
import type { ShapedPlaced } from '../../grammar/shaped.ts';
import type { Span } from '../../grammar/tree.ts';
import type { Analysis } from '../analysis.ts';
import type { CoreFigures } from '../answers/answers.ts';
import type { Core, Place, Terminal } from '../model/model.ts';
import { amps, dropVolts } from '../reports/figures.ts';
import { casesOfCore } from './hover/cases.ts';
import { onTerminal } from './hover/terminal.ts';
import { type AnsweredPiece, answeredPieces, piecesByStatement } from './pieces.ts';
import { overlaps, rangeOf } from './ranges.ts';
import type { Shown } from './shown.ts';

export function inlayHints(analysis: Analysis, within: Span, shown: Shown): InlayHint[] {
  const hints = [
    ...(shown.runHints ? runHints(analysis, within) : []),
    ...(shown.blankHints ? blankHints(analysis, within) : []),
    ...(shown.poleHints ? poleHints(analysis, within) : []),
  ];
  const [from, to] = [analysis.lines.position(within.start), analysis.lines.position(within.end)];
  // Cores that stand in one line while a line end is missing may well have the same to tell.
  const seen = new Set<string>();
  return hints
    .filter(({ position, label }) => {
      const key = `${position.line} ${position.character} ${label}`;
      return !isBefore(position, from) && !isBefore(to, position) && !seen.has(key) && seen.add(key) !== undefined;
    })
    .sort((a, b) => a.position.line - b.position.line || a.position.character - b.position.character);
}

const isBefore = (a: Position, b: Position) => a.line < b.line || (a.line === b.line && a.character < b.character);

function runHints(analysis: Analysis, within: Span): InlayHint[] {
  return answeredPieces(analysis).flatMap((piece) =>
    [...piece.model.runs.values()].flatMap((run) => {
      const { file, statement } = run.origin;
      if (file.uri !== analysis.uri || !overlaps(spanOf(statement), within)) return [];
      return run.cores.flatMap((core): InlayHint[] => {
        const figures = piece.answers.cores.get(core);
        const told = figures === undefined ? undefined : coreWords(piece, figures);
        const end = core.toPlace ?? core.fromPlace;
        if (told === undefined || end === undefined) return [];
        return [
          {
            position: analysis.lines.position(lineEnd(core, end)),
            label: told.label,
            tooltip: told.tooltip,
            paddingLeft: true,
          },
        ];
      });
    }),
  );
}

function spanOf({ offset, node }: ShapedPlaced): Span {
  return { start: offset, end: offset + node.text.length };
}

/** Behind the last word of the line on which a core's ends stand, and before a remark. */
function lineEnd({ run }: Core, { span }: Place): number {
  const { offset, node } = run.origin.statement;
  let end = span.end - offset;
  for (const atom of node.atoms) {
    if (atom.span.end <= end) continue;
    if (atom.kind === 'line') break;
    end = atom.span.end;
  }
  return offset + end;
}

/** Nothing for a conductor that carries nothing, or whose wiring is wrong so that figures mean nothing. */
function coreWords(piece: AnsweredPiece, figures: CoreFigures): { label: string; tooltip: string } | undefined {
  const { core, capacity, neededAmps, shortCircuitAmps, designAmps, designFrom } = figures;
  if (core.from === undefined || piece.answers.miswirings.isUpset(core.from)) return undefined;
  const panels = shortCircuitAmps !== undefined;
  const current = panels ? neededAmps : designAmps;
  if (current === undefined || (!panels && designFrom === '') || !(current > 0)) return undefined;
  const good = capacity === undefined || capacity.reason !== undefined ? undefined : capacity.amps;
  const worst = casesOfCore(piece, core).reduce<{ volts: number; name: string } | undefined>((most, one) => {
    const volts = Math.abs(one.figures.dropVolts);
    return volts > (most?.volts ?? 0) ? { volts, name: one.answer.name } : most;
  }, undefined);
  const label = [
    `${amps(current)}${good === undefined ? '' : ` of ${amps(good)}`}`,
    ...(worst === undefined ? [] : [`${dropVolts(worst.volts)} lost`]),
  ];
  const tooltip = [
    panels
      ? `Must be good for ${amps(neededAmps)}: its panels give ${amps(shortCircuitAmps)} into a short circuit.`
      : `Design current ${amps(designAmps)}, in case ${designFrom}.`,
    ...(good === undefined ? [] : [`As it lies it is good for ${amps(good)}.`]),
    ...(worst === undefined ? [] : [`It loses at most ${dropVolts(worst.volts)}, in case ${worst.name}.`]),
  ];
  return { label: label.join(', '), tooltip: tooltip.join(' ') };
}

function blankHints(analysis: Analysis, within: Span): InlayHint[] {
  const seen = new Set<number>();
  return analysis.answers.chosen.flatMap(({ place, text, why }): InlayHint[] => {
    if (place.uri !== analysis.uri || !overlaps(place.span, within) || seen.has(place.span.start)) return [];
    seen.add(place.span.start);
    const range = rangeOf(analysis.lines, place.span);
    return [
      {
        position: range.end,
        label: `= ${text}`,
        tooltip: `Left open: it would be ${text}, ${why}.`,
        // Taken with a double click.
        textEdits: [{ range, newText: text }],
        paddingLeft: true,
      },
    ];
  });
}

function poleHints(analysis: Analysis, within: Span): InlayHint[] {
  const { text } = analysis;
  return piecesByStatement(analysis).flatMap((piece) =>
    piece.statements
      .filter((statement) => overlaps(spanOf(statement), within))
      .flatMap((statement) => piece.model.usesIn(statement))
      .flatMap(({ place, name, target }): InlayHint[] => {
        if (target !== 'terminal' || place.uri !== analysis.uri || !overlaps(place.span, within)) return [];
        const terminal = piece.model.terminals.get(name);
        const other = terminal === undefined ? undefined : acrossPole(terminal);
        // A bar's ends are no ends of a core.
        if (other === undefined || text.charAt(place.span.start - 1) !== ':') return [];
        const on = onTerminal(piece, other);
        return [
          {
            position: analysis.lines.position(place.span.end),
            label: `\u2194 ${other.spec.name}`,
            tooltip: `Goes through to ${other.id}, on which there is ${on.length === 0 ? 'nothing' : on.join(', ')}.`,
            paddingLeft: true,
          },
        ];
      }),
  );
}

/** The terminal at the other side of a pole that is worked by hand; undefined where there are several, or none. */
function acrossPole({ part, spec }: Terminal): Terminal | undefined {
  const others = part.contacts.flatMap(({ from, to, operated }) =>
    operated !== 'hand' ? [] : from === spec.name ? [to] : to === spec.name ? [from] : [],
  );
  return others.length === 1 ? part.terminals.find((one) => one.spec.name === others[0]) : undefined;
}
