/** Parts whose rating is what may flow through them for ever: joints, shunts, socket-outlets. */
import type { Part } from '../model/model.ts';

/** Switches are none of these: what they open counts as well. */
export function isRatedToCarry({ kind: { family, word } }: Pick<Part, 'kind'>): boolean {
  return family === 'joint' || word === 'shunt' || word === 'socket';
}
