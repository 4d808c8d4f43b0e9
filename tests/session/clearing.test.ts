/** Clearing away what an edit left behind, once findings are told and nobody waits. */
import { expect, it } from 'vitest';
import { Clearing } from '../../server/session/clearing.ts';
import { connect, settle, until } from './client.ts';
import { lamp } from './specs.ts';

it('is done once for what was worked out, and has no more steps', () => {
  let cleared = 0;
  const clearing = new Clearing(() => (cleared += 1));
  expect(clearing.step()).toBe(false);
  expect(cleared).toBe(0);
  clearing.due();
  clearing.due();
  expect(clearing.step()).toBe(false);
  expect(clearing.step()).toBe(false);
  expect(cleared).toBe(1);
});

it('comes after looking ahead, and again after every edit', async () => {
  const done: string[] = [];
  const client = await connect({
    environment: { clearYoung: () => void done.push('cleared') },
    workings: { lookAhead: () => done.push('looked ahead') },
  });
  client.open('lamp.amps', lamp('0.5 mm²'));
  await settle();
  expect(done).toEqual([]);
  await client.codes('lamp.amps');
  await until('it cleared', () => done.includes('cleared'));
  expect(done).toEqual(['looked ahead', 'cleared']);
  client.change('lamp.amps', { text: lamp('1 mm²') });
  await client.codes('lamp.amps');
  await until('it cleared again', () => done.length === 4);
  expect(done.slice(2)).toEqual(['looked ahead', 'cleared']);
  await client.shutdown();
});

it('is left where it cannot be asked for', async () => {
  const client = await connect({ environment: { clearYoung: undefined } });
  client.open('lamp.amps', lamp('0.5 mm²'));
  await client.codes('lamp.amps');
  await settle();
  expect(await client.codes('lamp.amps')).not.toEqual([]);
  expect(client.logged).toEqual([]);
  await client.shutdown();
});
