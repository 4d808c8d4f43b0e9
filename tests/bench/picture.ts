/**
 * What the wiring diagram costs, from the analysis to its text: the first one with the layout engine not yet loaded, and the
 * next ones after a clause has changed and after a part was added.
 */

import { drawSvg } from '../../server/reports/picture/draw-svg.ts';
import { inProcessEngine } from '../../server/reports/picture/elk-engine.ts';
import { layOut } from '../../server/reports/picture/lay-out.ts';
import { patchesBetween } from '../../server/reports/picture/patches.ts';
import { pictureOf } from '../../server/reports/picture/picture-of.ts';
import type { Drawing } from '../../server/reports/picture/scene.ts';
import { analyseText } from '../analysed.ts';
import { systemOf } from '../reports/picture/systems.ts';
import { type Measured, told } from './measure.ts';

const text = systemOf(130, 1);
const look = { colours: 'light' } as const;

export async function picture(): Promise<void> {
  const engine = inProcessEngine();
  const analysis = analyseText(text);
  const { parts, cores } = pictureOf(analysis);
  console.log(`The diagram of ${parts.length} parts and ${cores.length} cores`);
  const draw = async (spec: string, before?: Drawing) => {
    const analysed = analyseText(spec);
    return async () => {
      const drawing = await layOut(pictureOf(analysed), engine, before);
      if (before === undefined) drawSvg(drawing, look);
      else patchesBetween(before, drawing);
      return drawing;
    };
  };
  const first = await draw(text);
  const cold = await timed(first, 1);
  console.log(told('  first, nothing loaded', cold.measured, 1500));
  const before = cold.last;
  let count = 0;
  const clause = await repeated(async () => {
    count += 1;
    return await draw(text.replace(/(run W3 .*?, )[\d.]+ m,/, `$1${(1 + count / 100).toFixed(2)} m,`), before);
  }, 20);
  console.log(told('  again after a length was changed', clause, 100));
  const added = await repeated(async () => {
    count += 1;
    return draw(
      `${text}fuse NF${count} 5 A\nload NL${count} 12 W\nrun NW${count} 2.5 mm² red, 2 m, POS1 to NF${count}:in\nrun NX${count} 2.5 mm² red, 2 m, NF${count}:out to NL${count}:+\nrun NY${count} 2.5 mm² black, 2 m, NL${count}:- to NEG1\n`,
      before,
    );
  }, 10);
  console.log(told('  again after a fuse and a load were added', added, 400));
}

/** Of calls that are made ready beforehand, each once. */
async function repeated(make: () => Promise<() => Promise<Drawing>>, runs: number): Promise<Measured> {
  const all: Measured[] = [];
  for (let run = 0; run < runs; run += 1) all.push((await timed(await make(), 1)).measured);
  const at = (values: readonly number[], part: number) =>
    [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(part * values.length))] as number;
  const [passed, processor] = [all.map(({ median }) => median), all.map(({ processor: own }) => own)];
  return {
    median: at(passed, 0.5),
    tenth: at(passed, 0.1),
    ninetieth: at(passed, 0.9),
    processor: at(processor, 0.5),
    leastProcessor: at(processor, 0),
    runs,
  };
}

async function timed(call: () => Promise<Drawing>, runs: number): Promise<{ measured: Measured; last: Drawing }> {
  const before = process.cpuUsage();
  const start = performance.now();
  const last = await call();
  const passed = performance.now() - start;
  const { user, system } = process.cpuUsage(before);
  const processor = (user + system) / 1000;
  return {
    measured: { median: passed, tenth: passed, ninetieth: passed, processor, leastProcessor: processor, runs },
    last,
  };
}
