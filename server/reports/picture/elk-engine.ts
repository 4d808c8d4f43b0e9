/** The layout engine in this very process; loaded when it is first used, since it is large. */

import type { EngineNode } from './engine.ts';
import type { LayoutEngine } from './scene.ts';

export function inProcessEngine(): LayoutEngine {
  let loading: Promise<{ layout(graph: EngineNode): Promise<unknown> }> | undefined;
  return {
    async layout(graph) {
      loading ??= import('elkjs/lib/elk.bundled.js').then(({ default: Elk }) => new Elk());
      return (await (await loading).layout(graph)) as EngineNode;
    },
  };
}
