/**
 * Times of a call: warmed up, then repeated; medians with the spread between the tenth and the ninetieth of a hundred. Beside
 * the time that passed stands the processor time of the process, which other work on the machine hardly touches.
 */
export interface Measured {
  /** Milliseconds that passed. */
  readonly median: number;
  readonly tenth: number;
  readonly ninetieth: number;
  /** Median of the processor time in milliseconds. */
  readonly processor: number;
  /** The least of it. */
  readonly leastProcessor: number;
  readonly runs: number;
}

/** `seconds` of measuring, after a fifth of it to warm up; at least five runs. */
export function measure(call: () => void, seconds = 1): Measured {
  return measureAfter(() => undefined, call, seconds);
}

/** The same of a call on what is made afresh for every run, which is not counted. */
export function measureAfter<T>(make: () => T, call: (made: T) => void, seconds = 1): Measured {
  const until = (ms: number, least: number) => {
    const passed: number[] = [];
    const processor: number[] = [];
    const began = performance.now();
    while (performance.now() - began < ms || passed.length < least) {
      const made = make();
      const before = process.cpuUsage();
      const start = performance.now();
      call(made);
      passed.push(performance.now() - start);
      const { user, system } = process.cpuUsage(before);
      processor.push((user + system) / 1000);
    }
    return { passed, processor };
  };
  until(200 * seconds, 3);
  const { passed, processor } = until(1000 * seconds, 5);
  const at = (values: number[], part: number) => {
    values.sort((a, b) => a - b);
    return values[Math.min(values.length - 1, Math.floor(part * values.length))] as number;
  };
  return {
    median: at(passed, 0.5),
    tenth: at(passed, 0.1),
    ninetieth: at(passed, 0.9),
    processor: at(processor, 0.5),
    leastProcessor: at(processor, 0),
    runs: passed.length,
  };
}

export function told(name: string, { median, tenth, ninetieth, processor, runs }: Measured, wanted?: number): string {
  const digits = (ms: number) => ms.toFixed(ms < 1 ? 3 : ms < 100 ? 2 : 0);
  const goal = wanted === undefined ? '' : `  wanted under ${wanted} ms: ${median < wanted ? 'yes' : 'NO'}`;
  return (
    `${name.padEnd(44)}${digits(median).padStart(8)} ms  (${digits(tenth)} to ${digits(ninetieth)}, ${runs} runs; ` +
    `processor ${digits(processor)} ms)${goal}`
  );
}

export function median(times: readonly number[]): number {
  return [...times].sort((a, b) => a - b)[times.length >> 1] ?? Number.NaN;
}
