/**
 * How wide letters are, with no screen to ask. The widths are those of DejaVu Sans (its metrics table), which is as wide as
 * Verdana and wider than the other typefaces that editors use: what fits in these fits in all.
 */

/** Hundredths of the letter height, from the space to the tilde. */
const usual = [
  32, 40, 46, 84, 64, 95, 78, 27, 39, 39, 50, 84, 32, 36, 32, 34, 64, 64, 64, 64, 64, 64, 64, 64, 64, 64, 34, 34, 84,
  84, 84, 53, 100, 68, 69, 70, 77, 63, 58, 77, 75, 29, 29, 66, 56, 86, 75, 79, 60, 79, 69, 63, 61, 73, 68, 99, 69, 61,
  69, 39, 34, 39, 84, 50, 50, 61, 63, 55, 63, 62, 35, 63, 63, 28, 28, 58, 28, 97, 63, 61, 63, 63, 41, 52, 39, 63, 59,
  82, 59, 59, 52, 64, 34, 64, 84,
];
const others: Readonly<Record<string, number>> = { '²': 40, '°': 50, '·': 32, '×': 84, '−': 84, '…': 100 };
/** Bold letters are at most this much wider. */
const boldFactor = 1.16;

export function textWidth(text: string, height: number, bold = false): number {
  let hundredths = 0;
  for (const letter of text) {
    const code = letter.codePointAt(0) ?? 0;
    // Latin, Greek and Cyrillic letters are at most as wide as an M, what lies beyond is as wide as high or more.
    hundredths += usual[code - 32] ?? others[letter] ?? (code < 0x1100 ? 90 : 130);
  }
  return (hundredths / 100) * height * (bold ? boldFactor : 1);
}
