/**
 * How wide words are, before anything is drawn: advance widths of DejaVu Sans, in which pictures are exported. Where a screen
 * has another typeface in its place, that is narrower, so what fits here fits there.
 */

/** Thousandths of the size, from the space (U+0020) to U+017F: read from DejaVu Sans 2.37. */
const regular = [
  318, 401, 460, 838, 636, 950, 780, 275, 390, 390, 500, 838, 318, 361, 318, 337, 636, 636, 636, 636, 636, 636, 636,
  636, 636, 636, 337, 337, 838, 838, 838, 531, 1000, 684, 686, 698, 770, 632, 575, 775, 752, 295, 295, 656, 557, 863,
  748, 787, 603, 787, 695, 635, 611, 732, 684, 989, 685, 611, 685, 390, 337, 390, 838, 500, 500, 613, 635, 550, 635,
  615, 352, 635, 634, 278, 278, 579, 278, 974, 634, 612, 635, 635, 411, 521, 392, 634, 592, 818, 592, 592, 525, 636,
  337, 636, 838, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600,
  600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 318, 401, 636, 636, 636, 636, 337, 500, 500, 1000,
  471, 612, 838, 361, 1000, 500, 500, 838, 401, 401, 500, 636, 636, 318, 500, 401, 471, 612, 969, 969, 969, 531, 684,
  684, 684, 684, 684, 684, 974, 698, 632, 632, 632, 632, 295, 295, 295, 295, 775, 748, 787, 787, 787, 787, 787, 838,
  787, 732, 732, 732, 732, 611, 605, 630, 613, 613, 613, 613, 613, 613, 982, 550, 615, 615, 615, 615, 278, 278, 278,
  278, 612, 634, 612, 612, 612, 612, 612, 838, 612, 634, 634, 634, 634, 592, 635, 592, 684, 613, 684, 613, 684, 613,
  698, 550, 698, 550, 698, 550, 698, 550, 770, 635, 775, 635, 632, 615, 632, 615, 632, 615, 632, 615, 632, 615, 775,
  635, 775, 635, 775, 635, 775, 635, 752, 634, 916, 695, 295, 278, 295, 278, 295, 278, 295, 278, 295, 278, 590, 556,
  295, 278, 656, 579, 579, 557, 278, 557, 278, 557, 375, 557, 342, 562, 284, 748, 634, 748, 634, 748, 634, 813, 748,
  634, 787, 612, 787, 612, 787, 612, 1070, 1023, 695, 411, 695, 411, 695, 411, 635, 521, 635, 521, 635, 521, 635, 521,
  611, 392, 611, 392, 611, 392, 732, 634, 732, 634, 732, 634, 732, 634, 732, 634, 732, 634, 989, 818, 611, 592, 611,
  685, 525, 685, 525, 685, 525, 352,
];

/** The same of DejaVu Sans Bold 2.37. */
const bold = [
  348, 456, 521, 838, 696, 1002, 872, 306, 457, 457, 523, 838, 380, 415, 380, 365, 696, 696, 696, 696, 696, 696, 696,
  696, 696, 696, 400, 400, 838, 838, 838, 580, 1000, 774, 762, 734, 830, 683, 683, 821, 837, 372, 372, 775, 637, 995,
  837, 850, 733, 850, 770, 720, 682, 812, 774, 1103, 771, 724, 725, 457, 365, 457, 838, 500, 500, 675, 716, 593, 716,
  678, 435, 716, 712, 343, 343, 665, 343, 1042, 712, 687, 716, 716, 493, 595, 478, 712, 652, 924, 645, 652, 582, 712,
  365, 712, 838, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600,
  600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 600, 348, 456, 696, 696, 636, 696, 365, 500, 500, 1000,
  564, 646, 838, 415, 1000, 500, 500, 838, 438, 438, 500, 736, 636, 380, 500, 438, 564, 646, 1035, 1035, 1035, 580, 774,
  774, 774, 774, 774, 774, 1085, 734, 683, 683, 683, 683, 372, 372, 372, 372, 838, 837, 850, 850, 850, 850, 850, 838,
  850, 812, 812, 812, 812, 724, 738, 719, 675, 675, 675, 675, 675, 675, 1048, 593, 678, 678, 678, 678, 343, 343, 343,
  343, 687, 712, 687, 687, 687, 687, 687, 838, 687, 712, 712, 712, 712, 652, 716, 652, 774, 675, 774, 675, 774, 675,
  734, 593, 734, 593, 734, 593, 734, 593, 830, 716, 838, 716, 683, 678, 683, 678, 683, 678, 683, 678, 683, 678, 821,
  716, 821, 716, 821, 716, 821, 716, 837, 712, 974, 790, 372, 343, 372, 343, 372, 343, 372, 343, 372, 343, 744, 686,
  372, 343, 775, 665, 665, 637, 343, 637, 343, 637, 479, 637, 557, 642, 371, 837, 712, 837, 712, 837, 712, 983, 837,
  712, 850, 687, 850, 687, 850, 687, 1167, 1094, 770, 493, 770, 493, 770, 493, 720, 595, 720, 595, 720, 595, 720, 595,
  682, 478, 682, 478, 682, 478, 812, 712, 812, 712, 812, 712, 812, 712, 812, 712, 812, 712, 1103, 924, 724, 652, 724,
  725, 582, 725, 582, 725, 582, 435,
];

const firstListed = 0x20;

/** First of the scripts whose letters are as wide as they are high. */
const firstSquare = 0x2e80;

/** Beyond the table: a width that most Greek, Cyrillic, Georgian and other letters keep within, and the signs used here. */
const usual = { regular: 840, bold: 930, square: 1050 };

const dots = 1000;

/** Family names to write into a picture: the one it is measured in first, then what may stand in for it. */
export const typeface = "'DejaVu Sans', Verdana, 'Segoe UI', 'Noto Sans', sans-serif";

/** Width of a text on one line, in the unit of `size`. */
export function textWidth(text: string, size: number, weight: 'regular' | 'bold' = 'regular'): number {
  const table = weight === 'bold' ? bold : regular;
  let thousandths = 0;
  for (const letter of text) {
    const code = letter.codePointAt(0) ?? firstListed;
    if (code >= 0x300 && code < 0x370) continue;
    if (letter === '…') thousandths += dots;
    else thousandths += table[code - firstListed] ?? (code >= firstSquare ? usual.square : usual[weight]);
  }
  return (thousandths * size) / 1000;
}

/** As much of a text as fits, with … where some is left out. */
export function shortened(text: string, width: number, size: number, weight: 'regular' | 'bold' = 'regular'): string {
  if (textWidth(text, size, weight) <= width) return text;
  const letters = [...text];
  let fits = 0;
  let used = textWidth('…', size, weight);
  while (fits < letters.length) {
    used += textWidth(letters[fits] ?? '', size, weight);
    if (used > width) break;
    fits += 1;
  }
  return `${letters.slice(0, fits).join('').trimEnd()}…`;
}

/** Words on as many lines as they need; a word that is wider than a line is broken. */
export function wrapped(text: string, width: number, size: number, weight: 'regular' | 'bold' = 'regular'): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/u).filter((one) => one !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (textWidth(longer, size, weight) <= width) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    const pieces = broken(word, width, size, weight);
    lines.push(...pieces.slice(0, -1));
    line = pieces.at(-1) ?? '';
  }
  return line === '' ? lines : [...lines, line];
}

function broken(word: string, width: number, size: number, weight: 'regular' | 'bold'): string[] {
  const pieces: string[] = [];
  let piece = '';
  for (const letter of word) {
    if (piece !== '' && textWidth(piece + letter, size, weight) > width) {
      pieces.push(piece);
      piece = '';
    }
    piece += letter;
  }
  return piece === '' ? pieces : [...pieces, piece];
}
