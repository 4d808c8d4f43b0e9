/**
 * Clearing away. What an edit leaves behind fills the young generation, and the next edit would wait while that is cleared. So
 * it is done as soon as nobody waits.
 */
import type { QuietTask } from './quiet.ts';

/** As soon as the server has looked ahead, which leaves some behind as well. */
const usualQuiet = 60;

export class Clearing implements QuietTask {
  private isDue = false;

  constructor(
    private readonly clear: () => void,
    readonly after = usualQuiet,
  ) {}

  /** Something was worked out. */
  due(): void {
    this.isDue = true;
  }

  step(): boolean {
    if (this.isDue) this.clear();
    this.isDue = false;
    return false;
  }
}
