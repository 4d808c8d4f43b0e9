/**
 * Loading a bundle with what V8 made of it when it ran before, so that a start does not compile it again. What is kept counts
 * for the same bundle, the same V8 and the same settings of it only; any other loads as usual.
 */
import { isAscii } from 'node:buffer';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import Module, { createRequire } from 'node:module';
import { dirname } from 'node:path';
import { Script } from 'node:vm';

/** Of what was compiled, too: V8 does not look at it, and ends the process over a damaged one. */
const sumOf = (source: Buffer, compiled: Buffer) => createHash('sha256').update(source).update(compiled).digest();
const sumBytes = 32;

/** A bundle that runs. */
export interface Loaded {
  /** How many bytes of code kept compiled it was loaded with: 0 where nothing was kept, or for another bundle or V8. */
  readonly keptBytes: number;
  /** Keeps what is compiled of it by now, where `loadQuickly` reads it. A program that loads it meanwhile reads all of it or nothing. */
  keep(): void;
}

/** `kept` need not be there. */
export function loadQuickly(file: string, kept: string): Loaded {
  const source = readFileSync(file);
  const cachedData = keptFor(source, kept);
  const text = source.toString(isAscii(source) ? 'latin1' : 'utf8');
  const script = new Script(Module.wrap(text), { filename: file, cachedData });
  const module = { exports: {} };
  script.runInThisContext()(module.exports, createRequire(file), module, file, dirname(file));
  const keptBytes = script.cachedDataRejected === false ? (cachedData?.length ?? 0) : 0;
  return {
    keptBytes,
    keep: () => {
      const compiled = script.createCachedData();
      // A run that did little compiled little. Much more replaces it, or every end would write the same again.
      if (compiled.length < keptBytes * 1.25) return;
      mkdirSync(dirname(kept), { recursive: true });
      const whole = `${kept}.${process.pid}`;
      writeFileSync(whole, Buffer.concat([sumOf(readFileSync(file), compiled), compiled]));
      renameSync(whole, kept);
    },
  };
}

/** V8 looks at the length of the source only: a sum in front tells for certain that it is the same, and that all is whole. */
function keptFor(source: Buffer, kept: string): Buffer | undefined {
  if (!existsSync(kept)) return undefined;
  const data = readFileSync(kept);
  const compiled = data.subarray(sumBytes);
  return data.subarray(0, sumBytes).equals(sumOf(source, compiled)) ? compiled : undefined;
}
