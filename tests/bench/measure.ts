/** Times of a call: warmed up, then repeated; medians with the spread between the tenth and the ninetieth of a hundred. */
export interface Measured {
  readonly median: number;
  readonly tenth: number;
  readonly ninetieth: number;
  readonly runs: number;
}

/** `seconds` of measuring, after a fifth of it to warm up; at least five runs. */
export function measure(call: () => void, seconds = 1): Measured {
  const until = (ms: number, least: number): number[] => {
    const times: number[] = [];
    const began = performance.now();
    while (performance.now() - began < ms || times.length < least) {
      const start = performance.now();
      call();
      times.push(performance.now() - start);
    }
    return times;
  };
  until(200 * seconds, 3);
  const times = until(1000 * seconds, 5).sort((a, b) => a - b);
  const at = (part: number) => times[Math.min(times.length - 1, Math.floor(part * times.length))] as number;
  return { median: at(0.5), tenth: at(0.1), ninetieth: at(0.9), runs: times.length };
}

export function told(name: string, { median, tenth, ninetieth, runs }: Measured, wanted?: number): string {
  const digits = (ms: number) => ms.toFixed(ms < 1 ? 3 : ms < 100 ? 2 : 0).padStart(8);
  const goal = wanted === undefined ? '' : `  wanted under ${wanted} ms: ${median < wanted ? 'yes' : 'NO'}`;
  return `${name.padEnd(44)}${digits(median)} ms  (${digits(tenth).trim()} to ${digits(ninetieth).trim()}, ${runs} runs)${goal}`;
}
