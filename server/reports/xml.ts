/** Writing XML: whatever comes from a spec stays text, and the result is well formed whatever that is. */

export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** A piece of XML that is written already: by `element` and `text`, or by a drawing that escapes for itself. */
export interface Xml {
  readonly xml: string;
}

/** One element with what is in it; an attribute that is undefined is left out. */
export function element(name: string, attributes: Attributes, ...inside: readonly (Xml | readonly Xml[])[]): Xml {
  const opening = Object.entries(attributes)
    .map(([key, value]) =>
      value === undefined ? '' : ` ${key}="${escaped(typeof value === 'number' ? plain(value) : value)}"`,
    )
    .join('');
  const body = inside.flat().map(({ xml }) => xml);
  return { xml: body.length === 0 ? `<${name}${opening}/>` : `<${name}${opening}>${body.join('')}</${name}>` };
}

/** Words between two tags. */
export function text(words: string): Xml {
  return { xml: escaped(words) };
}

/** A drawing that is well formed already; never words of a spec. */
export function written(xml: string): Xml {
  return { xml };
}

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

// What XML 1.0 has no place for, half a surrogate pair too; readers warn of the usual sign for it.
const impossible = /[^\t\n\r\u0020-\ud7ff\ue000-\ufffc\u{10000}-\u{10ffff}]/gu;

/** Words as they may stand between tags and in quotes. */
export function escaped(words: string): string {
  return words.replace(impossible, '□').replace(/[&<>"']/g, (sign) => entities[sign] ?? sign);
}

/** A length of a drawing: two decimals are finer than any printer. */
export function plain(value: number): string {
  if (!Number.isFinite(value)) return '0';
  const rounded = Math.round(value * 100) / 100;
  return String(rounded === 0 ? 0 : rounded);
}
