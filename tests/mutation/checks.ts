/** What holds of the analysis of any text at all. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect } from 'vitest';
import { printTree } from '../../grammar/printer.ts';
import { type Analysis, AnalysisCache, analyse, type FileSource } from '../../server/analysis.ts';
import { answersJson } from '../../server/answers/answers-json.ts';
import type { Place } from '../../server/model/model.ts';
import { memorySource, specUri } from '../analysed.ts';
import { mutate, random } from './mutations.ts';

export const sampleFiles: Readonly<Record<string, string>> = Object.fromEntries(
  readdirSync('samples')
    .filter((name) => name.endsWith('.amps'))
    .map((name) => [name, readFileSync(`samples/${name}`, 'utf8')]),
);

const mostMilliseconds = 1000;

/** Time that this process worked, in ms: unlike the clock's, it does not count what else the machine does. */
export function worked(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

/** The sample's own files beside the text. */
export function sourceOf(text: string): FileSource {
  return memorySource({ ...sampleFiles, 'spec.amps': text });
}

/** Analyses and asserts: no throw, in time, prints back, every place inside its text, messages a person can read. */
export function checked(text: string, cache = new AnalysisCache(), source = sourceOf(text)): Analysis {
  const began = worked();
  const analysis = analyse(specUri, source, cache);
  const took = worked() - began;
  if (took > mostMilliseconds) throw new Error(`it took ${Math.round(took)} ms`);
  if (String(analysis.text) !== text || printTree(analysis.tree) !== text)
    throw new Error('it does not print back to its text');
  const lengths = new Map(analysis.files.map((file) => [file.uri, file.text.length]));
  const inside = ({ uri, span: { start, end } }: Place) =>
    Number.isInteger(start) && 0 <= start && start <= end && end <= (lengths.get(uri) ?? -1);
  for (const { slug, message, place, related, fixes, figures } of [...analysis.findings, ...analysis.accepted]) {
    if (place.uri !== specUri || !inside(place)) throw new Error(`${slug} is not in the text`);
    for (const other of related) if (!inside(other.place)) throw new Error(`a place beside ${slug} is in no text`);
    for (const { place: edited } of fixes.flatMap(({ edits }) => edits))
      if (!inside(edited)) throw new Error(`a fix of ${slug} is in no text`);
    if (slug === 'rule-failed' || slug === 'answers-failed') throw new Error(message);
    if (/\bundefined\b|\bNaN\b|\bInfinity\b|\[object|\.ts\b|∞ A/.test(message))
      throw new Error(`${slug} says: ${message}`);
    for (const [name, value] of Object.entries(figures))
      if (typeof value === 'number' && !Number.isFinite(value)) throw new Error(`${slug} has ${name} ${value}`);
  }
  return analysis;
}

/** Findings and answers, to be compared. */
export function outcome({ findings, accepted, answers }: Analysis) {
  return { findings, accepted, answers: answersJson(answers) };
}

/**
 * Mutates a text `count` times, as a person edits: five edits one upon another through one cache, then from the sample anew.
 * Every twentieth analysis is compared with one from scratch.
 */
export function mutateMany(text: string, seed: number, count: number): number {
  const next = random(seed);
  let cache = new AnalysisCache();
  let now = text;
  let changed = 0;
  let done: string[] = [];
  // As in an editor the text itself comes first; its time is that of a program that has not run yet.
  analyse(specUri, sourceOf(text), cache);
  for (let step = 0; step < count; step++) {
    if (step % 5 === 0) {
      now = text;
      done = [];
      // A cache lives long, but not for ever: it is begun anew every hundred edits.
      if (step % 100 === 0) cache = new AnalysisCache();
    }
    const { text: mutated, what } = mutate(now, next);
    done.push(what);
    if (mutated !== now) changed++;
    now = mutated;
    try {
      const analysis = checked(now, cache);
      if (step % 20 === 19) expect(outcome(analysis)).toEqual(outcome(checked(now)));
    } catch (error) {
      const why = error instanceof Error ? (error.stack ?? error.message) : String(error);
      throw new Error(`seed ${seed}, step ${step} (${done.join('; ')}): ${why}\n${now}`);
    }
  }
  return changed;
}
