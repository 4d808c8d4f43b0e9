/**
 * Loading a bundle with what V8 made of it when it was built, so that a start does not compile it again. What is kept counts
 * for the same bundle and the same V8 only; any other loads as usual.
 */
import { isAscii } from 'node:buffer';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import Module, { createRequire } from 'node:module';
import { dirname } from 'node:path';
import { Script } from 'node:vm';

const sumOf = (source: Buffer) => createHash('sha256').update(source).digest();

/** `kept` need not be there. */
export function loadQuickly(file: string, kept: string): Script {
  const source = readFileSync(file);
  const cachedData = keptFor(source, kept);
  const text = source.toString(isAscii(source) ? 'latin1' : 'utf8');
  const script = new Script(Module.wrap(text), { filename: file, cachedData });
  const module = { exports: {} };
  script.runInThisContext()(module.exports, createRequire(file), module, file, dirname(file));
  return script;
}

/** V8 looks at the length of the source only: a sum in front tells for certain that it is the same. */
function keptFor(source: Buffer, kept: string): Buffer | undefined {
  if (!existsSync(kept)) return undefined;
  const data = readFileSync(kept);
  const sum = sumOf(source);
  return data.subarray(0, sum.length).equals(sum) ? data.subarray(sum.length) : undefined;
}

/** Writes what `loadQuickly` reads, of a bundle that it loaded. */
export function keep(file: string, script: Script, kept: string): void {
  writeFileSync(kept, Buffer.concat([sumOf(readFileSync(file)), script.createCachedData()]));
}
