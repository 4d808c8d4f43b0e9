/** The words of an uncompressed PDF, by the tables that let a reader copy them. */

interface Font {
  readonly letters: ReadonlyMap<number, string>;
}

/** All words in the order they are drawn, a line a piece of text. */
export function wordsInPdf(pdf: string): string {
  const objects = new Map(
    [...pdf.matchAll(/(?:^|\n)(\d+) 0 obj\n([\s\S]*?)\nendobj/g)].map(([, id, body]) => [Number(id), body ?? '']),
  );
  const referred = (body: string, key: string) => Number(new RegExp(`/${key} (\\d+) 0 R`).exec(body)?.[1]);
  const fonts = new Map<string, Font>();
  for (const body of objects.values())
    for (const [, name = '', id] of body.matchAll(/\/(F\d+) (\d+) 0 R/g)) {
      const table = objects.get(referred(objects.get(Number(id)) ?? '', 'ToUnicode')) ?? '';
      fonts.set(name, { letters: lettersOf(table) });
    }
  const said: string[] = [];
  for (const body of objects.values()) {
    let font: Font | undefined;
    let piece = '';
    for (const [, name, code, end] of body.matchAll(/\/(F\d+) [\d.]+ Tf|<([0-9a-fA-F]{4})> Tj|\n(ET)\n/g)) {
      if (name !== undefined) font = fonts.get(name);
      else if (code !== undefined) piece += font?.letters.get(Number.parseInt(code, 16)) ?? '';
      else if (end !== undefined) {
        said.push(piece);
        piece = '';
      }
    }
  }
  return said.join('\n');
}

/** Ranges of a `ToUnicode` table: `<0000> <00ff> [<0000> <0057> …]`. */
function lettersOf(table: string): Map<number, string> {
  const letters = new Map<number, string>();
  for (const [, from = '', list = ''] of table.matchAll(/<([0-9a-f]{4})> <[0-9a-f]{4}> \[([^\]]*)\]/gi))
    [...list.matchAll(/<([0-9a-f ]*)>/gi)].forEach(([, hex = ''], index) => {
      const units = (hex.replaceAll(' ', '').match(/.{4}/g) ?? []).map((four) => Number.parseInt(four, 16));
      letters.set(Number.parseInt(from, 16) + index, String.fromCharCode(...units));
    });
  return letters;
}
