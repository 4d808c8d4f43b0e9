/** `npm run bench`: what the engine costs. Medians; a busy machine shows in the spread. */
import { besideSimulator } from './beside-simulator.ts';
import { engine } from './engine.ts';
import { wasAskedForMemory } from './peak-memory.ts';
import { picture } from './picture.ts';
import { ruleBook } from './rule-book.ts';
import { wholeVan } from './whole-van.ts';

if (!wasAskedForMemory(process.argv)) {
  // First, since what it costs cold is measured.
  picture()
    .then(() => {
      engine();
      besideSimulator();
      wholeVan();
      ruleBook();
    })
    .catch((error: unknown) => {
      console.error(error);
      process.exitCode = 1;
    });
}
