import { describe, expect, it } from 'vitest';
import { folding } from '../../server/editor/folding.ts';
import { analyseText } from '../analysed.ts';

/** `first-last kind` of each fold, lines from 1 as people count them. */
const folds = (text: string) =>
  folding(analyseText(text)).map(({ startLine, endLine, kind }) =>
    `${startLine + 1}-${endLine + 1} ${kind ?? ''}`.trim(),
  );

describe('folding', () => {
  it('takes statements of several lines, remarks, uses and sections', () => {
    expect(
      folds(`# A van
# of two remarks.
system "Shed" 12 V
    ambient 30 °C

use "a.amps"
use "b.amps"

# ---- Sun ----
# what it gives
# in June

fuse F1  5 A
run W1  2 x 1 mm², 1 m
    red    F1:in to F1:out  # a remark

    # one within
    black  spare

# ==== Loads ====
load LAMP  5 W
load FAN  5 W

`),
    ).toEqual(['1-2 comment', '3-4', '6-7 imports', '9-18 region', '10-11 comment', '14-18', '20-22 region']);
  });

  it('takes regions, one within another, and no remark that only begins so', () => {
    expect(
      folds(`# Regions of the van
# are marked.
#region Sun
panel P1  80 W
# region Roof
# what is on it
# and under it
load FAN  5 W
# endregion
#endregion
# Region of rust, behind
# the door
`),
    ).toEqual(['1-2 comment', '3-10 region', '5-9 region', '6-7 comment', '11-12 comment']);
  });

  it('finds nothing to fold in lines that stand alone', () => {
    expect(folds('# ---- Sun ----\n')).toEqual([]);
    expect(folds('fuse F1  5 A\n# one remark\nfuse F2  5 A\nuse "a.amps"\n')).toEqual([]);
    expect(folds('')).toEqual([]);
  });

  it('counts the lines of a file with Windows line ends alike', () => {
    const text = '# ---- Sun ----\nrun W1  2 x 1 mm²\n    red spare\n\n\n# ---- End ----\n';
    expect(folds(text.replaceAll('\n', '\r\n'))).toEqual(folds(text));
    expect(folds(text)).toEqual(['1-3 region', '2-3']);
  });
});
