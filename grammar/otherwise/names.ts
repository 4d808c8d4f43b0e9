/** `load LEFT 9 W and RIGHT 9 W`, `load LAMP 9 W with a fuse of 5 A`: a name or a part more behind what is said. */
import { spanOf } from '../mend.ts';
import { looksLikeName } from '../name-problems.ts';
import { problem } from '../phrases.ts';
import { isName, isWord, type Rewriter } from './rewriting.ts';

/** A name behind a clause, and what is said once more of it. */
export const nameBehindClause: Rewriter = (body, at, spec, compiled) => {
  const [and, name] = [body[at], body[at + 1]];
  if (spec.spec.head !== 'names' || at === 0 || !isWord(and, /^and$/)) return undefined;
  if (!isName(name, [spec, compiled]) || !looksLikeName.test(name.value)) return undefined;
  let end = at + 2;
  while (end < body.length && body[end]?.kind !== 'comma' && body[end]?.kind !== 'line') end += 1;
  const message = `Names that belong together stand before what is said of them: write “and ${name.value}” behind the first name, or give ${name.value} a ${spec.spec.word} of its own.`;
  return { count: end - at, put: [], problem: problem('unknown-clause', spanOf([and, name]), message) };
};
