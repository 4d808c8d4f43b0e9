/**
 * What the JavaScript engine of a server's own process is told, before all else is loaded. The process is there all day beside
 * the editor, and mostly it waits: it should take little memory, and little of the machine when it works.
 */
import { PerformanceObserver } from 'node:perf_hooks';
import { getHeapSpaceStatistics, getHeapStatistics, setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { lazily } from '../model/lazily.ts';

// V8 lets garbage grow to several times what is alive. The young generation stays as small as it begins until the first
// findings are told, and the old one grows by a quarter before it is cleared: half the memory, for a few percent of the time.
const growYoungBy = (factor: number) => setFlagsFromString(`--semi-space-growth-factor=${factor}`);

/** From this size on, in bytes, clearing takes so long that it is better done less often: a spec of some ten thousand lines. */
const large = 96e6;
const growths = { usual: 25, large: 100 };

const growBy = (percent: number) => setFlagsFromString(`--heap-growing-percent=${percent}`);

// An edit runs a little of everything: functions put into each other far down take V8 long to compile, and are no quicker.
setFlagsFromString('--max-inlined-bytecode-size=150');
setFlagsFromString('--max-inlined-bytecode-size-cumulative=400');

/** V8 up to 11 has no quick compiler between its first and its last. */
const hasQuickCompiler = Number.parseInt(process.versions.v8, 10) >= 12;

// One thread works beside this one, and what the quick compiler is done with waited there for its turn: 40 MB of it.
if (hasQuickCompiler) setFlagsFromString('--no-maglev-destroy-on-background');

/** How much a function is used before it is compiled for speed: looked at so often, more for a long one, or called so often. */
const compiling = hasQuickCompiler
  ? {
      atFirst: ['--invocation-count-for-maglev=2000', '--invocation-count-for-turbofan=60000'],
      usually: ['--invocation-count-for-maglev=400', '--invocation-count-for-turbofan=3000'],
    }
  : { atFirst: ['--ticks-before-optimization=60'], usually: ['--ticks-before-optimization=3'] };

const compile = (when: keyof typeof compiling) => {
  for (const flag of compiling[when]) setFlagsFromString(flag);
};

/**
 * What is first read runs all of the program, and most of it a few hundred times. Compiling that for speed takes the machine
 * as long as the reading does, and comes too late for it: so at first it is done for what is used most by far. What is kept
 * compiled counts for these settings, all of them.
 */
export const asAtFirst = (): void => {
  growYoungBy(1);
  growBy(growths.usual);
  compile('atFirst');
};

/** From so many characters on, some seven thousand lines, a text is long. */
const longText = 3e5;

/**
 * What is read of a long text stays: clearing a small young generation a thousand times over took a third of the first reading.
 * A large one is little beside what such a spec takes in all.
 */
export const readAtFirst = (characters: number): void => {
  if (characters < longText) return;
  growBy(growths.large);
  growYoungBy(4);
};

/**
 * In bytes, both halves: an edit fills it once, and most of that is garbage by then. A smaller one was copied from half full. Of
 * many runs that hang together an edit works out all.
 */
const youngFor = (runs: number) => (runs > 400 ? 32e6 : 8e6);

let youngSize = 0;
let growing: PerformanceObserver | undefined;

/** The young generation grows to that, and not to the most that V8 would let it have. */
function growYoungTo(bytes: number): void {
  if (bytes <= youngSize) return;
  youngSize = bytes;
  growYoungBy(4);
  growing?.disconnect();
  growing = new PerformanceObserver(() => {
    const young = getHeapSpaceStatistics().find((space) => space.space_name === 'new_space');
    // Its size would be what is taken up by now: later versions of V8 take memory as they fill it.
    if (young !== undefined && 2 * (young.space_used_size + young.space_available_size) < bytes) return;
    growYoungBy(1);
    growing?.disconnect();
  });
  growing.observe({ entryTypes: ['gc'] });
}

/** Once the first findings are told, what was used often is compiled as usual. So many runs hang together at most. */
export const findingsAreTold = (areFirst: boolean, runs: number): void => {
  growBy(getHeapStatistics().used_heap_size < large ? growths.usual : growths.large);
  growYoungTo(youngFor(runs));
  if (areFirst) compile('usually');
};

type Collect = (options: { readonly type: 'minor' }) => void;

/** V8 hands it out in a context of its own alone, and only while it is told to. */
const collector = lazily((): Collect => {
  setFlagsFromString('--expose-gc');
  const collect = runInNewContext('gc') as Collect;
  setFlagsFromString('--no-expose-gc');
  return collect;
});

/** Clears the young generation, so that there is room for what the next edit makes. It takes a millisecond or two. */
export const clearYoung = (): void => collector()({ type: 'minor' });

asAtFirst();
