/** What the editor shows beside the text, as settings ask for it. */

export interface Shown {
  /** Design current, capacity and drop at the end of each run. */
  readonly runHints: boolean;
  /** What would be written for a blank, beside it. */
  readonly blankHints: boolean;
  /** The terminal at the other side of an isolator’s or switch’s pole. */
  readonly poleHints: boolean;
  /** Figures and findings above sources, loads and protective devices. */
  readonly lenses: boolean;
}

export const usuallyShown: Shown = { runHints: true, blankHints: true, poleHints: false, lenses: true };

/** Reads `{ hints: { runs, blanks, poles }, lenses }`; what is no yes or no counts as unsaid. */
export function readShown(settings: unknown): Shown {
  const { hints, lenses } = record(settings);
  const { runs, blanks, poles } = record(hints);
  const said = (value: unknown, usual: boolean) => (typeof value === 'boolean' ? value : usual);
  return {
    runHints: said(runs, usuallyShown.runHints),
    blankHints: said(blanks, usuallyShown.blankHints),
    poleHints: said(poles, usuallyShown.poleHints),
    lenses: said(lenses, usuallyShown.lenses),
  };
}

function record(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null ? { ...value } : {};
}
