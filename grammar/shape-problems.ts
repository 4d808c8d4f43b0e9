/** What to say of atoms that fit no clause: the one problem that was most likely made. */
import type { CompiledSpec, CompiledVocabulary } from './compiled.ts';
import { type Failure, openingTypes, openingWords, quantityTypes } from './forms.ts';
import { nearWords } from './near.ts';
import type { Atom, Dimension, Problem, ProblemFix, Span } from './tree.ts';
import { dimensionNames, symbolsOf } from './units.ts';

/** `from` is the place of `atoms` in their segment, from which the nearest failure counts. */
export function shapeProblem(
  atoms: readonly Atom[],
  span: Span,
  spec: CompiledSpec,
  compiled: CompiledVocabulary,
  nearest: Failure | undefined,
  from: number,
  wrapper: string | undefined,
): Problem {
  const first = atoms[0] as Atom;
  if (first.kind === 'word' && first.value === 'AWG' && atoms[1]?.kind === 'number') return swappedGauge(first, atoms[1]);
  const inside = nearest === undefined ? undefined : failedInside(atoms, from, nearest, spec);
  if (inside !== undefined) return inside;
  if (first.kind === 'number') return bareNumber(first, spec);
  if (first.kind === 'quantity') return strayQuantity(first, spec);
  return strayWord(first, span, spec, compiled, wrapper);
}

function swappedGauge(unit: Atom, number: Atom): Problem {
  const span = { start: unit.span.start, end: number.span.end };
  const right = `${number.text} AWG`;
  return {
    slug: 'unit-spelling',
    span,
    message: `A gauge is written with its number first: ${right}.`,
    fixes: [{ title: `Write ${right}`, safe: true, edits: [{ span, newText: right }] }],
  };
}

/** The right keywords, then something else than their value. */
function failedInside(atoms: readonly Atom[], from: number, nearest: Failure, spec: CompiledSpec): Problem | undefined {
  if (nearest.literals === 0) return undefined;
  const start = (atoms[0] as Atom).span.start;
  const offender = atoms[nearest.at - from];
  const slots = nearest.wanted.filter((w) => w.is === 'slot');
  const dims = slots.flatMap(({ types }) => types.flatMap((type) => quantityTypes.get(type) ?? []));
  const written = `“${nearest.clause.example}”`;
  if (offender === undefined) {
    const last = atoms.at(-1) as Atom;
    return {
      slug: 'unknown-clause',
      span: { start, end: last.span.end },
      message: `This is not finished: it reads like ${written}.`,
    };
  }
  if (dims.length > 0 && offender.kind === 'quantity')
    return {
      slug: 'wrong-unit',
      span: offender.span,
      message: `${offender.text} is ${dimensionNames[offender.dimension]}, but here stands ${list(dims.map((d) => dimensionNames[d]))}: write it like ${written}.`,
    };
  if (dims.length > 0 && offender.kind === 'number') return missingUnit(offender, dims, written);
  const words = nearest.wanted.filter((w) => w.is === 'word').map(({ word }) => word);
  const near = offender.kind === 'word' ? nearWords(offender.value, words) : [];
  if (near.length > 0)
    return {
      slug: 'unknown-clause',
      span: offender.span,
      message: `“${offender.text}” does not fit here: did you mean ${near.join(' or ')}?`,
      fixes: near.map((word) => ({ title: `Write ${word}`, safe: near.length === 1, edits: [{ span: offender.span, newText: word }] })),
    };
  return {
    slug: 'unknown-clause',
    span: offender.span,
    message: `“${offender.text}” does not fit here: ${article(spec.spec.word)} says it like ${written}.`,
  };
}

function missingUnit(number: Atom, dims: readonly Dimension[], written: string): Problem {
  const symbols = [...new Set(dims.map((d) => symbolsOf(d)[0] ?? ''))].filter((s) => s !== '').slice(0, 4);
  return {
    slug: 'missing-unit',
    span: number.span,
    message: `${number.text} has no unit: write ${list(symbols.map((s) => `${number.text} ${s}`))}, as in ${written}.`,
    fixes: symbols.map(
      (symbol): ProblemFix => ({
        title: `Write ${number.text} ${symbol}`,
        safe: symbols.length === 1,
        edits: [{ span: { start: number.span.end, end: number.span.end }, newText: ` ${symbol}` }],
      }),
    ),
  };
}

function bareNumber(number: Atom, spec: CompiledSpec): Problem {
  const dims = plainDimensions(spec).slice(0, 4);
  if (dims.length === 0)
    return { slug: 'unknown-clause', span: number.span, message: `“${number.text}” means nothing here: take it out.` };
  return missingUnit(number, dims, `“${spec.spec.example}”`);
}

/** Dimensions that may stand by themselves in a kind (`80 A`, `12 V`), in the order of its clauses. */
function plainDimensions(spec: CompiledSpec): Dimension[] {
  return [...new Set(spec.open.flatMap((form) => openingTypes(form).flatMap((type) => quantityTypes.get(type) ?? [])))];
}

function strayQuantity(quantity: Atom & { kind: 'quantity' }, spec: CompiledSpec): Problem {
  const dims = plainDimensions(spec);
  const says = dims.length === 0 ? '' : ` by itself only ${list(dims.map((d) => dimensionNames[d]))}`;
  const keywords = spec.forms
    .filter((form) => form.elements.some((e) => e.is === 'slot' && e.types.some((t) => quantityTypes.get(t)?.includes(quantity.dimension))))
    .flatMap((form) => openingWords(form).words)
    .filter((word) => word !== '=')
    .slice(0, 4);
  const hint = keywords.length > 0 ? `; ${dimensionNames[quantity.dimension]} stands behind ${list(keywords)}` : '';
  return {
    slug: 'wrong-unit',
    span: quantity.span,
    message: `${quantity.text} does not fit here: ${article(spec.spec.word)} says${says || ' nothing of the kind'}${hint}.`,
  };
}

function strayWord(
  first: Atom,
  span: Span,
  spec: CompiledSpec,
  compiled: CompiledVocabulary,
  wrapper: string | undefined,
): Problem {
  const what = wrapper === undefined ? article(spec.spec.word) : `${article(wrapper)} of ${spec.spec.word}`;
  const word = first.kind === 'word' ? first.value : undefined;
  const smallest = first.kind === 'word' ? first.span : span;
  if (word !== undefined) {
    const owners = (compiled.openers.get(word) ?? []).filter((owner) => owner !== spec && !spec.byWord.has(word));
    if (owners.length > 0) {
      const names = owners.map((owner) => owner.spec.word);
      return {
        slug: 'misplaced-clause',
        span,
        message: `${capital(what)} does not say “${word}”: that belongs to ${list(names.slice(0, 4).map(article))}.`,
      };
    }
    const near = nearWords(word, spec.byWord.keys());
    if (near.length > 0)
      return {
        slug: 'unknown-clause',
        span: smallest,
        message: `${capital(what)} does not say “${word}”: did you mean ${near.join(' or ')}?`,
        fixes: near.map((name) => ({ title: `Write ${name}`, safe: near.length === 1, edits: [{ span: smallest, newText: name }] })),
      };
  }
  const some = [...spec.byWord.keys()].filter((w) => w !== '=').slice(0, 6);
  return {
    slug: 'unknown-clause',
    span: smallest,
    message: `${capital(what)} does not say “${first.text}”: it says ${list(some)} and the like.`,
  };
}

export function article(word: string): string {
  return /^[aeiou]/i.test(word) ? `an ${word}` : `a ${word}`;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export function list(words: readonly string[]): string {
  if (words.length <= 1) return words[0] ?? '';
  return `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`;
}
