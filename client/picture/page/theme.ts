/** The editor's theme on the drawing and the cards: their own colours for its sort of theme, on the editor's ground and in its ink. */
import { type CardPalette, cardPalettes } from '../../../server/reports/cards/colours.ts';
import { shadeColours } from '../../../server/reports/picture/shades.ts';
import { type Palette, palettes } from '../../../server/reports/picture/style.ts';

type Theme = 'light' | 'dark' | 'contrast' | 'print';

/** By the classes that the editor puts on the body. */
export function themeOf(classes: { contains(name: string): boolean }): Theme {
  if (classes.contains('vscode-high-contrast-light')) return 'print';
  if (classes.contains('vscode-high-contrast')) return 'contrast';
  return classes.contains('vscode-dark') ? 'dark' : 'light';
}

/** Custom properties, by name. */
export function propertiesOf(theme: Theme): Record<string, string> {
  const own: Palette = palettes[theme];
  const card: CardPalette = cardPalettes[theme];
  const ground = `var(--vscode-editor-background, ${own.paper})`;
  const ink = `var(--vscode-editor-foreground, ${own.ink})`;
  const entries: [string, string][] = [
    ...Object.entries({ ...own, paper: ground, ink }).map(([name, value]): [string, string] => [
      `--diagram-${name}`,
      value,
    ]),
    ...shadeColours[theme].map((colour, step): [string, string] => [`--diagram-shade-${step}`, colour]),
    ...Object.entries({ ...card, paper: ground }).map(([name, value]): [string, string] => [`--amp-${name}`, value]),
  ];
  return Object.fromEntries(entries);
}

/** Now, and whenever the theme is changed. */
export function followTheme(): void {
  const apply = () => {
    for (const [name, value] of Object.entries(propertiesOf(themeOf(document.body.classList))))
      document.documentElement.style.setProperty(name, value);
  };
  apply();
  new MutationObserver(apply).observe(document.body, { attributes: true, attributeFilter: ['class'] });
}
