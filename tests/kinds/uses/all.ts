/** Every scene of a kind or statement. */
import type { Scene } from '../effect.ts';
import { conversion } from './conversion.ts';
import { enclosures } from './enclosures.ts';
import { joints } from './joints.ts';
import { loads } from './loads.ts';
import { protection } from './protection.ts';
import { sources } from './sources.ts';
import { statements } from './statements.ts';
import { switching } from './switching.ts';

export const scenes: readonly Scene[] = [
  ...sources,
  ...conversion,
  ...protection,
  ...switching,
  ...joints,
  ...loads,
  ...enclosures,
  ...statements,
];
