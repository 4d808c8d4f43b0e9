/** A drawing room with its layout engine in this very process. */
import { inProcessEngine } from '../reports/picture/elk-engine.ts';
import { Drafting } from './drafting.ts';

export function drawingRoom(): Drafting {
  return new Drafting(inProcessEngine());
}
