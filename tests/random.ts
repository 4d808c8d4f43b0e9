/**
 * Random tests are the same in every run, so that a change is what makes one fail; RANDOM_SEED tries others.
 */
import fc from 'fast-check';

fc.configureGlobal({ seed: Number(process.env.RANDOM_SEED ?? 20261125) });
