/** What `allow` statements accept of what was found, and those of them that are told of themselves. */
import { nearWords } from '../../grammar/near.ts';
import { isBlankSlot } from '../model/facts.ts';
import { lazily } from '../model/lazily.ts';
import type { Allowance, Model, Origin } from '../model/model.ts';
import { placeIn } from '../model/place.ts';
import { accepts, isReason } from './accepted.ts';
import type { Finding, Rule } from './rule.ts';

/** That a check could not be worked out is nothing anybody can accept. */
const cannotBeAllowed: ReadonlySet<string> = new Set(['rule-failed', 'answers-failed']);

export function applyAllowances(model: Model, found: readonly Finding[]) {
  const kept: Finding[] = [];
  const accepted: Finding[] = [];
  const used = new Set<number>();
  for (const one of found) {
    const index = model.allowances.findIndex((allowance) => accepts(allowance, one.slug, one.subject));
    if (index === -1 || cannotBeAllowed.has(one.slug)) kept.push(one);
    else {
      used.add(index);
      accepted.push(one);
    }
  }
  return { kept, accepted, used };
}

/**
 * An `allow` that names no finding there is, is itself a finding; so is one that matches nothing any more, where all that it
 * may rest on is known. `found` is all that was found, accepted or not.
 */
export function judgeAllowances(
  model: Model,
  by: { readonly used: ReadonlySet<number>; readonly found: readonly Finding[]; readonly rules: readonly Rule[] },
): Finding[] {
  const slugs = by.rules.map(({ slug }) => slug);
  const unsure = lazily(() => isUnsure(model, by.found, by.rules));
  return model.allowances.flatMap((allowance, index): Finding[] => {
    if (by.used.has(index) || !isReason(allowance.reason)) return [];
    if (!slugs.includes(allowance.slug)) return [unknownFinding(allowance, slugs)];
    return unsure() ? [] : [unused(allowance, model)];
  });
}

/** Beside these no currents are worked out, or not those that flow once they are mended. */
const upsets: ReadonlySet<string> = new Set([
  'case-unanswered',
  'controller-sides-swapped',
  'no-return',
  'no-source',
  'polarity-reversed',
  'rule-failed',
  'short-circuit',
  'voltage-collapse',
  'voltages-joined',
]);

/**
 * Whether something could not be read, is not written yet, or spoils what is worked out: with it mended, there may well be what an
 * `allow` accepts.
 */
function isUnsure({ files }: Model, found: readonly Finding[], rules: readonly Rule[]): boolean {
  const language = new Set(rules.filter(({ group }) => group === 'language').map(({ slug }) => slug));
  if (found.some(({ slug }) => language.has(slug) || upsets.has(slug))) return true;
  return files.some(({ statements }) =>
    statements.some(
      // Few texts have the mark at all, and what they are made of need not be asked then.
      ({ node, shaped }) => node.text.includes('?') && shaped.clauses.some(({ values }) => values.some(isBlankSlot)),
    ),
  );
}

const about = ({ slug, slugPlace, subject }: Allowance) => ({
  severity: 'warning' as const,
  place: slugPlace,
  subject: subject ?? slug,
  figures: {},
  related: [],
});

function unknownFinding(allowance: Allowance, slugs: readonly string[]): Finding {
  const { slug, slugPlace } = allowance;
  const near = nearWords(slug, slugs);
  return {
    ...about(allowance),
    slug: 'allow-unknown',
    message:
      near.length > 0
        ? `There is no finding “${slug}”: did you mean ${near.join(' or ')}?`
        : `There is no finding “${slug}”: take this allow out, or name one from the list of findings.`,
    fixes: near.map((name) => ({
      title: `Write ${name}`,
      safe: false,
      edits: [{ place: slugPlace, newText: name }],
    })),
  };
}

function unused(allowance: Allowance, model: Model): Finding {
  const { slug, subject, origin } = allowance;
  const { node } = origin.statement;
  return {
    ...about(allowance),
    slug: 'allow-unused',
    message: `Nothing here is found as ${slug}${subject === undefined ? '' : ` on ${subject}`} any more: take this allow out.`,
    fixes: [
      {
        title: 'Take this allow out',
        // The reason goes with it, which is somebody's own words.
        safe: false,
        // A comment may say more than the allow did.
        edits: [{ place: placeIn(origin, { start: 0, end: node.text.length }), newText: whatStays(origin, model) }],
      },
    ],
  };
}

/** The comments of a statement, a line each; and a blank line, lest these and its notes become notes of the next. */
function whatStays({ statement, file }: Origin, { files }: Model): string {
  const { node, notes, line } = statement;
  const newline = node.text.endsWith('\r\n') ? '\r\n' : '\n';
  const comments = node.comments.map((comment) => `${comment.text.trim()}${newline}`).join('');
  const statements = files.find(({ uri }) => uri === file.uri)?.statements ?? [];
  const next = statements[statements.indexOf(statement) + 1];
  const ends = line + node.text.split('\n').length - 1;
  const isNext = next !== undefined && next.line - (next.notes === '' ? 0 : next.notes.split('\n').length) === ends;
  return `${comments}${isNext && (notes !== '' || comments !== '') ? newline : ''}`;
}
