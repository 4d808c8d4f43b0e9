/** A lamp behind a fuse in a box, for examples on what passes its wall. */
import { lampSpec } from './language.ts';
import type { Example } from './rule.ts';

interface Boxed {
  /** What the box says after its name. */
  readonly box?: string;
  /** What the cables into it and out of it say: their outside diameter, their way through the wall. */
  readonly into?: string;
  readonly out?: string;
}

export function boxed(
  { box = 'plastic, IP54, indoors', into = 'enters BOX by gland M12', out = 'enters BOX by gland M12' }: Boxed,
  ...more: string[]
): Example {
  return lampSpec(
    {
      fuse: 'fuse F1 5 A, blade, 32 V, in BOX',
      feed: `run W1 1.5 mm² red, 0.1 m, B1:+ to F1:in, ${into}`,
      out: `run W2 1.5 mm² red, 1.2 m, F1:out to LAMP:+, ${out}`,
    },
    `enclosure BOX ${box}`,
    ...more,
  );
}
