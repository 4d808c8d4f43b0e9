/** Looking ahead: what is worked out before somebody asks for it, once for each piece of a spec. */
import { describe, expect, it } from 'vitest';
import type { Hover } from 'vscode-languageserver/node';
import { type Analysis, AnalysisCache, analyse } from '../../server/analysis.ts';
import type { Answers } from '../../server/answers/answers.ts';
import { lookAhead } from '../../server/editor/hover/ahead.ts';
import { runHover } from '../../server/editor/hover/run.ts';
import { LookAhead } from '../../server/session/look-ahead.ts';
import { manyVans } from '../bench/editor/specs.ts';
import { sourceOf, vanUri } from '../bench/vans.ts';
import { connect, settle, until } from './client.ts';
import { lamp } from './specs.ts';

/** The specs that are given, read one after the other as a person's edits are. */
function reader() {
  const cache = new AnalysisCache({ least: 0, small: 1, most: 60 });
  return { cache, read: (text: string): Analysis => analyse(vanUri, sourceOf(text), cache) };
}

/** Asks until there is nothing more to ask, and tells how often. */
function all(task: LookAhead): number {
  let steps = 0;
  while (task.step()) steps += 1;
  return steps;
}

describe('looking ahead', () => {
  it('asks once about each piece of what is open, and after an edit about the pieces that it changed', () => {
    const { read } = reader();
    const { text } = manyVans(800);
    let open = [read(text)];
    const asked: Answers[] = [];
    const task = new LookAhead(
      () => open,
      (_, answers) => asked.push(answers),
    );
    const pieces = open[0]?.pieces.length ?? 0;
    expect(pieces).toBe(2);
    expect(all(task)).toBe(pieces);
    expect(all(task)).toBe(0);
    const at = text.lastIndexOf('lead-10 red');
    const edited = read(`${text.slice(0, at)}signal-1 red${text.slice(at + 'lead-10 red'.length)}`);
    open = [edited];
    asked.length = 0;
    expect(all(task)).toBe(1);
    expect(asked).toEqual(edited.pieces.map(({ answers }) => answers).filter((one) => asked.includes(one)));
    // An undo brings back what was looked at before.
    open = [read(text)];
    expect(all(task)).toBe(0);
  });

  it('leaves nothing to be solved for the first hover over a run', () => {
    const solvedFor = (isAhead: boolean): number => {
      const { cache, read } = reader();
      const analysis = read(manyVans(800).text);
      if (isAhead) for (const { answers } of analysis.pieces) lookAhead(analysis, answers);
      const before = cache.solvedBefore.counted.solved;
      for (const run of analysis.model.runs.values()) runHover(analysis, run);
      return cache.solvedBefore.counted.solved - before;
    };
    expect(solvedFor(false)).toBeGreaterThan(8);
    expect(solvedFor(true)).toBe(0);
  });

  it('is done soon after findings are told, and again after an edit', async () => {
    let asked = 0;
    const client = await connect({ workings: { lookAhead: () => (asked += 1) } });
    client.open('lamp.amps', lamp('0.5 mm²'));
    await settle();
    expect(asked).toBe(0);
    await client.codes('lamp.amps');
    await until('it looked ahead', () => asked === 1);
    client.change('lamp.amps', { text: lamp('1 mm²') });
    await client.codes('lamp.amps');
    await until('it looked again', () => asked === 2);
    await client.shutdown();
  });

  it('changes no answer', async () => {
    const onRun = { position: { line: 6, character: 5 } };
    const hovered = async (ahead: typeof lookAhead | undefined) => {
      const client = await connect({ workings: { lookAhead: ahead } });
      client.open('lamp.amps', lamp('0.5 mm²'));
      const codes = await client.codes('lamp.amps');
      await settle();
      const hover = await client.ask<Hover>('textDocument/hover', 'lamp.amps', onRun);
      expect(client.logged).toEqual([]);
      await client.shutdown();
      return { codes, hover };
    };
    const without = await hovered(undefined);
    expect(without.hover).not.toBeNull();
    expect(await hovered(lookAhead)).toEqual(without);
  });
});
