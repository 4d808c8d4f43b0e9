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
