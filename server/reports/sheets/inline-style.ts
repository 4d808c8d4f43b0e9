/**
 * A style sheet turned into attributes, for readers that know only the simplest selectors. It reads drawings of our own making:
 * well-formed, with one level of rules and selectors of names and classes, one within another.
 */

interface Step {
  readonly tag: string | undefined;
  readonly classes: readonly string[];
}

interface Rule {
  /** From the outermost to the element itself. */
  readonly steps: readonly Step[];
  readonly declarations: readonly (readonly [property: string, value: string])[];
  readonly specificity: number;
}

interface Open {
  readonly tag: string;
  readonly classes: ReadonlySet<string>;
}

const sheet = /<style[^>]*>([\s\S]*?)<\/style>/g;
const tag = /<(\/?)([A-Za-z][\w:-]*)((?:[^<>"']|"[^"]*"|'[^']*')*?)(\/?)>/g;

export function withInlineStyle(svg: string): string {
  const rules = [...svg.matchAll(sheet)].flatMap(([, text = '']) => rulesOf(unescaped(text)));
  const open: Open[] = [];
  return svg
    .replace(sheet, '')
    .replace(tag, (whole, closing: string, name: string, attributes: string, empty: string) => {
      if (closing !== '') {
        open.pop();
        return whole;
      }
      const classes = /\sclass="([^"]*)"/.exec(attributes)?.[1] ?? '';
      const here: Open = { tag: name, classes: new Set(classes.split(/\s+/).filter((one) => one !== '')) };
      const style = styleOf([...open, here], rules);
      if (empty === '') open.push(here);
      return `<${name}${withAttributes(attributes, style)}${empty}>`;
    });
}

function rulesOf(text: string): Rule[] {
  return [...text.matchAll(/([^{}]+)\{([^{}]*)\}/g)].flatMap(([, selectors = '', body = '']) => {
    const declarations = body.split(';').flatMap((one): [string, string][] => {
      const colon = one.indexOf(':');
      return colon < 0 ? [] : [[one.slice(0, colon).trim(), one.slice(colon + 1).trim()]];
    });
    return selectors.split(',').flatMap((selector): Rule[] => {
      const steps = selector.trim().split(/\s+/).map(stepOf);
      if (!steps.every((step) => step !== undefined)) return [];
      const count = (of: (step: Step) => number) => steps.reduce((sum, step) => sum + of(step), 0);
      const specificity =
        1000 * count(({ classes }) => classes.length) + count((step) => (step.tag === undefined ? 0 : 1));
      return [{ steps, declarations, specificity }];
    });
  });
}

/** `text`, `.name`, `rect.wall`; undefined for anything else, such as what depends on the pointer. */
function stepOf(word: string): Step | undefined {
  const match = /^([A-Za-z][\w-]*)?((?:\.[\w-]+)*)$/.exec(word);
  if (match === null || word === '') return undefined;
  return { tag: match[1], classes: (match[2] ?? '').split('.').filter((one) => one !== '') };
}

function styleOf(path: readonly Open[], rules: readonly Rule[]): Map<string, string> {
  const style = new Map<string, string>();
  const won = new Map<string, number>();
  for (const { steps, declarations, specificity } of rules) {
    if (!matches(path, steps)) continue;
    for (const [property, value] of declarations) {
      if (specificity < (won.get(property) ?? 0)) continue;
      won.set(property, specificity);
      style.set(property, value);
    }
  }
  return style;
}

/** The last step is the element itself; the others are met on the way to it, with anything between. */
function matches(path: readonly Open[], steps: readonly Step[]): boolean {
  const own = path.at(-1);
  const last = steps.at(-1);
  if (own === undefined || last === undefined || !fits(own, last)) return false;
  let step = steps.length - 2;
  for (let at = path.length - 2; at >= 0 && step >= 0; at -= 1) {
    const [above, wanted] = [path[at], steps[step]];
    if (above !== undefined && wanted !== undefined && fits(above, wanted)) step -= 1;
  }
  return step < 0;
}

function fits({ tag: name, classes }: Open, step: Step): boolean {
  return (step.tag === undefined || step.tag === name) && step.classes.every((one) => classes.has(one));
}

/** What a style sheet says counts over an attribute. */
function withAttributes(attributes: string, style: ReadonlyMap<string, string>): string {
  const kept = attributes.replace(/\s([\w:-]+)="[^"]*"/g, (whole, name: string) => (style.has(name) ? '' : whole));
  const added = [...style].map(([name, value]) => ` ${name}="${value.replaceAll('"', '&quot;')}"`).join('');
  return `${kept.trimEnd()}${added}`;
}

function unescaped(text: string): string {
  return text
    .replaceAll('&#39;', "'")
    .replaceAll('&quot;', '"')
    .replaceAll('&gt;', '>')
    .replaceAll('&lt;', '<')
    .replaceAll('&amp;', '&');
}
