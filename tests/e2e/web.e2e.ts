/** VS Code for the Web as `npm start` serves it: the server is a web worker, the samples a virtual workspace. */
import { describe } from 'vitest';
import { hosted } from './hosted.ts';
import { findingsInTheEditor } from './scenario.ts';
import { serveWeb } from './servers.ts';

describe('VS Code for the Web', () => {
  findingsInTheEditor('web', hosted(serveWeb));
});
