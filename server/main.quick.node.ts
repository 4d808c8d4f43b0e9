/**
 * The language server as the extension starts it, and the build: loaded with what was compiled of it when it ran before, in the
 * file that `--compiled` names. Editors bring V8 in many versions, so each computer keeps its own, and nothing is shipped.
 */
import './session/engine-settings.ts';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { asAtFirst } from './session/engine-settings.ts';
import { loadQuickly } from './session/load-quickly.ts';

const { compiled } = parseArgs({ options: { compiled: { type: 'string' } }, strict: false }).values;
const bundle = join(__dirname, 'server.node.js');
if (typeof compiled === 'string') {
  const server = loadQuickly(bundle, compiled);
  process.on('exit', () => {
    // It counts for the settings that a server starts with.
    asAtFirst();
    try {
      server.keep();
    } catch {
      // A full or locked disk costs the next start its speed, and nobody anything else.
    }
  });
} else require(bundle);
