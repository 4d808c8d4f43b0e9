/** Warming up: when the server works at something of its own, and that nobody notices. */
import { readFileSync } from 'node:fs';
import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, it, vi } from 'vitest';
import type { Hover } from 'vscode-languageserver/node';
import { analyse } from '../../server/analysis.ts';
import { features } from '../../server/session/features.ts';
import { Quiet } from '../../server/session/quiet.ts';
import { type Rounds, WarmUp } from '../../server/session/warm-up.ts';
import { edited, warmUpRounds } from '../../server/session/warm-up-rounds.ts';
import { connect, pushed, settle, until } from './client.ts';
import { slowly } from './slowly.ts';
import { lamp } from './specs.ts';

/** Rounds of a millisecond a step, which count how often they were begun and how many steps were made. */
function counted(end = Number.POSITIVE_INFINITY) {
  const counts = { begun: 0, steps: 0 };
  function* rounds(): Generator<undefined> & Rounds {
    counts.begun += 1;
    while (counts.steps < end) {
      counts.steps += 1;
      const until = performance.now() + 1;
      while (performance.now() < until);
      yield;
    }
    throw new Error('the rounds failed');
  }
  return { counts, rounds };
}

const onRun = { position: { line: 6, character: 5 } };
const quick = { quiet: 20, most: 60 };

describe('warming up', () => {
  it('begins when the first findings were told and nothing was heard for a while', async () => {
    const { counts, rounds } = counted();
    const client = await connect({ workings: { warmUp: rounds } });
    await pause(100);
    expect(counts.begun).toBe(0);
    client.open('lamp.amps', lamp('0.5 mm²'));
    await pause(100);
    expect(counts.begun).toBe(0);
    await client.codes('lamp.amps');
    const told = counts.steps;
    await until('it works', () => counts.steps > 20);
    expect(told).toBe(0);
    expect(counts.begun).toBe(1);
    await client.shutdown();
  });

  it('begins after findings that were pushed as well', async () => {
    const { counts, rounds } = counted();
    const client = await connect({ capabilities: pushed, workings: { warmUp: rounds } });
    client.open('lamp.amps', lamp('0.5 mm²'));
    await until('it works', () => counts.steps > 0);
    expect(client.published.length).toBe(1);
    await client.shutdown();
  });

  it('has the process told whenever findings were handed out, which were the first, and how many runs hang together', async () => {
    const told: (readonly [boolean, number])[] = [];
    const client = await connect({ environment: { findingsTold: (...are) => told.push(are) } });
    client.open('lamp.amps', lamp('0.5 mm²'));
    await settle();
    expect(told).toEqual([]);
    for (const text of [lamp('0.5 mm²'), lamp()]) {
      client.change('lamp.amps', { text });
      await client.codes('lamp.amps');
    }
    expect(told).toEqual([
      [true, 3],
      [false, 3],
    ]);
    await client.shutdown();
  });

  it('has the process told how long the texts are that are opened before the first findings', async () => {
    const lengths: number[] = [];
    const client = await connect({ environment: { textOpened: (characters) => lengths.push(characters) } });
    client.open('lamp.amps', lamp());
    client.open('other.amps', lamp('0.5 mm²'));
    await client.codes('lamp.amps');
    client.open('late.amps', lamp());
    await client.codes('late.amps');
    expect(lengths).toEqual([lamp().length, lamp('0.5 mm²').length]);
    await client.shutdown();
  });

  it('ends at a message, and carries on after it', async () => {
    const { counts, rounds } = counted();
    const quiet = new Quiet([new WarmUp(rounds, { quiet: 40, most: 5000 })], () => false);
    quiet.start();
    await until('it works', () => counts.steps > 0);
    quiet.heard();
    const { steps } = counts;
    await pause(20);
    expect(counts.steps).toBe(steps);
    await until('it carries on', () => counts.steps > steps + 10);
    expect(counts.begun).toBe(1);
    quiet.stop();
  });

  it('waits while something is worked out that somebody waits for', async () => {
    const { counts, rounds } = counted();
    const { analyse } = slowly({ named: 0, whole: 400 });
    const client = await connect({ workings: { analyse, warmUp: rounds } });
    client.open('lamp.amps', lamp('0.5 mm²'));
    await client.codes('lamp.amps');
    client.change('lamp.amps', { text: lamp() });
    const { steps } = counts;
    const findings = client.codes('lamp.amps').then(() => counts.steps);
    expect(await findings).toBeLessThan(steps + 16);
    await until('it carries on', () => counts.steps > steps + 20);
    await client.shutdown();
  });

  it('is over for good after so much work', async () => {
    const { counts, rounds } = counted();
    const quiet = new Quiet([new WarmUp(rounds, quick)], () => false);
    quiet.start();
    await pause(300);
    const { steps } = counts;
    expect(steps).toBeGreaterThan(5);
    expect(steps).toBeLessThan(quick.most + 10);
    quiet.start();
    await pause(100);
    expect(counts).toEqual({ begun: 1, steps });
  });

  it('is over where it fails, and nobody is told', async () => {
    const { counts, rounds } = counted(3);
    const client = await connect({ workings: { warmUp: rounds } });
    client.open('lamp.amps', lamp());
    await client.codes('lamp.amps');
    await until('it failed', () => counts.steps === 3);
    await settle();
    expect(counts).toEqual({ begun: 1, steps: 3 });
    expect(client.logged).toEqual([]);
    expect(await client.codes('lamp.amps')).toEqual([]);
    await client.shutdown();
  });

  it('is over when the server shuts down', async () => {
    const { counts, rounds } = counted();
    const client = await connect({ workings: { warmUp: rounds } });
    client.open('lamp.amps', lamp());
    await client.codes('lamp.amps');
    await until('it works', () => counts.steps > 0);
    await client.connection.sendRequest('shutdown');
    const { steps } = counts;
    await pause(150);
    expect(counts.steps).toBe(steps);
  });
});

describe('the rounds of warming up', () => {
  it('tell nothing: answers are what they are without, and nothing is published', async () => {
    const client = await connect({ capabilities: pushed, workings: { warmUp: warmUpRounds } });
    client.open('lamp.amps', lamp('0.5 mm²'));
    await until('findings are told', () => client.published.length > 0);
    const told = client.newest('lamp.amps');
    const hover = () => client.ask<Hover>('textDocument/hover', 'lamp.amps', onRun);
    const before = await hover();
    await settle();
    expect(await hover()).toEqual(before);
    expect(client.published).toEqual([told]);
    expect(client.logged).toEqual([]);
    await client.shutdown();
  });

  it('each work out a spec that was not worked out before, in which the run that was edited stands', () => {
    const texts = Array.from({ length: 200 }, (_, round) => edited(round));
    expect(new Set(texts.map(({ text }) => text)).size).toBe(200);
    for (const { text, at } of texts.slice(0, 80)) expect(text.slice(at - 80, at)).toMatch(/\nrun W\d+ .*, $/);
  });

  it('are about the electrics: every statement in them is understood', () => {
    const stock = readFileSync('samples/stock.amps', 'utf8');
    for (const round of [0, 7, 31]) {
      const { text } = edited(round);
      const { tree, model } = analyse('file:///van/a.amps', {
        read: (uri) => ({ text: uri.endsWith('a.amps') ? text : stock }),
        resolve: (_, path) => `file:///van/${path}`,
      });
      expect(tree.statements.length).toBeGreaterThan(80);
      expect(model.problems).toEqual([]);
    }
  });

  it('ask what an edit brings every time, and all else in turn', () => {
    const asked = (['hover', 'completion', 'outline', 'semanticTokens', 'inlayHints', 'codeActions'] as const).map(
      (name) => vi.spyOn(features, name),
    );
    const rounds = warmUpRounds();
    const [hover, ...others] = asked;
    while ((hover?.mock.calls.length ?? 0) < 9) rounds.next();
    expect(others.map(({ mock }) => mock.calls.length)).toEqual([8, 2, 2, 2, 2]);
    for (const one of asked) one.mockRestore();
  });

  it('go on and on, in steps', () => {
    const rounds = warmUpRounds();
    for (let step = 0; step < 500; step += 1) expect(rounds.next().done).toBe(false);
  });
});
