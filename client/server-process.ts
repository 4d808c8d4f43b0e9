/** The process of the server, where it is one of its own. */

/**
 * Its surroundings. By default the C library (glibc) keeps a pool of memory for each thread that asks, and the JavaScript engine
 * has several that hardly do: one pool for all takes 10 MB less. Who has chosen a number keeps it.
 */
export function serverEnvironment({ MALLOC_ARENA_MAX = '1' }: NodeJS.ProcessEnv): {
  readonly MALLOC_ARENA_MAX: string;
} {
  return { MALLOC_ARENA_MAX };
}

/**
 * What Node is told. Four threads would compile and clear beside the one that answers, and on two cores they stand in its way
 * just when an edit is answered. One keeps up.
 */
export const serverEngine: readonly string[] = ['--v8-pool-size=1'];
