/** Colours of a card: those of a page of its own, or left to the page it stands in. */

export type CardColours = 'variables' | 'light' | 'dark' | 'contrast' | 'print';

export interface CardPalette {
  readonly paper: string;
  readonly ink: string;
  readonly quiet: string;
  /** The body of the part. */
  readonly body: string;
  readonly metal: string;
  readonly warning: string;
}

const light: CardPalette = {
  paper: '#ffffff',
  ink: '#1d2021',
  quiet: '#5b6063',
  body: '#eceee9',
  metal: '#c9a66b',
  warning: '#fff1c7',
};

/** Contrast of every text with what it stands on is at least 4.5 to 1, of lines 3 to 1. */
export const cardPalettes: Readonly<Record<CardColours, CardPalette>> = {
  light,
  print: light,
  dark: {
    paper: '#1f2223',
    ink: '#e9ebe8',
    quiet: '#a9afb0',
    body: '#33383a',
    metal: '#a9864d',
    warning: '#4a3f16',
  },
  contrast: {
    paper: '#000000',
    ink: '#ffffff',
    quiet: '#ffffff',
    body: '#000000',
    metal: '#000000',
    warning: '#000000',
  },
  variables: {
    paper: 'var(--amp-paper)',
    ink: 'var(--amp-ink)',
    quiet: 'var(--amp-quiet)',
    body: 'var(--amp-body)',
    metal: 'var(--amp-metal)',
    warning: 'var(--amp-warning)',
  },
};
