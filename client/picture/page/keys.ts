/** What every key does in the drawing; the same list is shown as help. */
import type { Direction } from './roving.ts';

export type KeyAction =
  | { readonly does: 'go'; readonly direction: Direction }
  | { readonly does: 'pan'; readonly direction: Direction }
  | { readonly does: 'order'; readonly to: 'first' | 'last' | 'next' | 'previous' }
  | {
      readonly does:
        | 'open'
        | 'choose'
        | 'leave'
        | 'larger'
        | 'smaller'
        | 'fit'
        | 'find'
        | 'trace'
        | 'next-finding'
        | 'last-finding'
        | 'help';
    };

export interface Press {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
}

const arrows: Readonly<Record<string, Direction>> = {
  ArrowLeft: 'left',
  ArrowRight: 'right',
  ArrowUp: 'up',
  ArrowDown: 'down',
};

const plain: Readonly<Record<string, KeyAction>> = {
  Home: { does: 'order', to: 'first' },
  End: { does: 'order', to: 'last' },
  PageDown: { does: 'order', to: 'next' },
  PageUp: { does: 'order', to: 'previous' },
  Enter: { does: 'open' },
  ' ': { does: 'choose' },
  Escape: { does: 'leave' },
  '+': { does: 'larger' },
  '=': { does: 'larger' },
  '-': { does: 'smaller' },
  '0': { does: 'fit' },
  '/': { does: 'find' },
  t: { does: 'trace' },
  m: { does: 'next-finding' },
  M: { does: 'last-finding' },
  '?': { does: 'help' },
};

/** Undefined for keys that belong to the editor. */
export function actionOf({ key, shiftKey, ctrlKey, metaKey, altKey }: Press): KeyAction | undefined {
  if (ctrlKey || metaKey || altKey) return undefined;
  const direction = arrows[key];
  if (direction !== undefined) return { does: shiftKey ? 'pan' : 'go', direction };
  return plain[key];
}

/** Keys and what they do, for people. */
export const keyHelp: readonly (readonly [keys: string, does: string])[] = [
  ['← → ↑ ↓', 'along the wires: to the cores of a part, to the part at the end of a core, to the core beside it'],
  ['Page down, Page up', 'to the next or the previous part or cable, as one reads'],
  ['Home, End', 'to the first or the last of them'],
  ['Space', 'choose it: its figures, findings and terminal card are shown at the side'],
  ['Enter', 'go to its line in the text'],
  ['T', 'trace a load: its circuit from the source and back, with the voltage lost at each step'],
  ['M, Shift M', 'to the next or the previous finding'],
  ['/', 'find by name'],
  ['+ and −', 'larger, smaller'],
  ['0', 'show all of it'],
  ['Shift and an arrow', 'move the drawing'],
  ['Escape', 'end the trace, then let go of what is chosen'],
  ['?', 'this list'],
];
