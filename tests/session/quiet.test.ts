/** What is done while nobody asks for anything: in which turn, and that every message comes before it. */
import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { Quiet, type QuietTask } from '../../server/session/quiet.ts';
import { until } from './client.ts';

/** Does so many steps, and says in `done` that it did each. */
function task(name: string, after: number, steps: number, done: string[]): QuietTask {
  let left = steps;
  return {
    after,
    step: () => {
      done.push(name);
      left -= 1;
      return left > 0;
    },
  };
}

const idle = () => false;

describe('while it is quiet', () => {
  it('tasks that wait less have their turn first, and the next follow when these have nothing more to do', async () => {
    const done: string[] = [];
    const quiet = new Quiet([task('later', 60, 2, done), task('sooner', 10, 3, done)], idle);
    quiet.start();
    await until('all is done', () => done.length === 5);
    expect(done).toEqual(['sooner', 'sooner', 'sooner', 'later', 'later']);
    quiet.stop();
  });

  it('a task waits for as long as it says', async () => {
    const began = performance.now();
    const times: number[] = [];
    const step = () => {
      times.push(performance.now() - began);
      return false;
    };
    const quiet = new Quiet([{ after: 120, step }], idle);
    quiet.start();
    await until('it works', () => times.length > 0);
    expect(times[0]).toBeGreaterThanOrEqual(119);
    quiet.stop();
  });

  it('nothing is done before findings are told', async () => {
    const done: string[] = [];
    const quiet = new Quiet([task('one', 0, 9, done)], idle);
    quiet.heard();
    await pause(60);
    expect(done).toEqual([]);
  });

  it('a message puts all off, and then the first task has its turn again', async () => {
    const done: string[] = [];
    const quiet = new Quiet([task('first', 30, 1, done), task('second', 5000, 1, done)], idle);
    quiet.start();
    await until('the first is done', () => done.length === 1);
    quiet.heard();
    expect(done).toEqual(['first']);
    await until('it is asked again', () => done.length === 2);
    expect(done).toEqual(['first', 'first']);
    quiet.stop();
  });

  it('a task that fails is asked no more, and the others are', async () => {
    const done: string[] = [];
    const fails: QuietTask = {
      after: 0,
      step: () => {
        done.push('failed');
        throw new Error('it failed');
      },
    };
    const quiet = new Quiet([fails, task('other', 5, 1, done)], idle);
    quiet.start();
    await until('the other had its turn', () => done.includes('other'));
    quiet.heard();
    await until('it had it again', () => done.filter((one) => one === 'other').length === 2);
    expect(done.filter((one) => one === 'failed')).toEqual(['failed']);
    quiet.stop();
  });

  it('nothing is done while something is worked out that somebody waits for', async () => {
    const done: string[] = [];
    let isBusy = true;
    const quiet = new Quiet([task('one', 5, 1, done)], () => isBusy);
    quiet.start();
    await pause(60);
    expect(done).toEqual([]);
    isBusy = false;
    await until('it works', () => done.length === 1);
    quiet.stop();
  });

  it('nothing more is done once it is stopped', async () => {
    const done: string[] = [];
    const quiet = new Quiet([task('one', 0, Number.POSITIVE_INFINITY, done)], idle);
    quiet.start();
    await until('it works', () => done.length > 10);
    quiet.stop();
    const { length } = done;
    await pause(40);
    expect(done.length).toBe(length);
    quiet.heard();
    await pause(40);
    expect(done.length).toBe(length);
  });
});
