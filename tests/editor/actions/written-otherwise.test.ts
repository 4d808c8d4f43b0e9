/**
 * Every action at every word of a spec that is written in other ways: what comes of it is read without a new complaint, remarks
 * stay in their statements, no line is less tidy, and where nothing electrical is meant to change nothing does.
 */
import { describe, expect, it } from 'vitest';
import { formatDocument } from '../../../grammar/format.ts';
import { parseDocument } from '../../../grammar/parse.ts';
import type { Analysis } from '../../../server/analysis.ts';
import { answersJson } from '../../../server/answers/answers-json.ts';
import { codeActions } from '../../../server/editor/code-actions.ts';
import { vocabulary } from '../../../server/kinds/vocabulary.ts';
import { allRules } from '../../../server/rules/all.ts';
import { analyseText } from '../../analysed.ts';
import { byName, differences } from '../../answers/differences.ts';
import { editedFiles } from '../editing.ts';
import { optionsFor } from './offering.ts';

const hut = `# The hut.
system "Hut" 12 V

place LOFT  50 °C
place SHED  30 °C

stock twin  cable 2 x 1.5 mm², class 5

battery B1     agm, 12 V, 60 Ah, at SHED
enclosure BOX  plastic, IP54, at LOFT
fuse F1        5 A, blade, 32 V, at SHED
fuse F2        ? A, blade, 32 V, breaks 3 kA, at SHED
busbar NEG     50 A
load FAN       9 W, at LOFT
load LAMP      12 W, at LOFT

run W1  2.5 mm² red, 0.1 m, B1:+ to F1:in
run W2  2.5 mm² red, 0.2 m, F1:out to F2:in
run W3  1.5 mm² red, 2.5 m, along SHED 1.5 m and LOFT 1 m, F2:out to LAMP:+
run W4  = twin, 3 m, along LOFT
    red    F1:out to FAN:+
    black  NEG    to FAN:-
run W5  6 mm² black, 0.3 m, NEG to B1:-
run W6  1.5 mm² black, 2 m, NEG to GONG:-

case night  LAMP on
`;

const eachLine = (change: (line: string, n: number) => string) => hut.split('\n').map(change).join('\n');
const says = (line: string) => line.trim() !== '' && !line.startsWith('#');
const begins = (line: string) => /^[^\s#]/u.test(line);
/** A line cut off in the middle. */
const half = (name: string) => hut.replace(new RegExp(`^(run ${name} .{12}).*$`, 'mu'), '$1');

const written: readonly (readonly [string, string])[] = [
  ['as it is', hut],
  ['from a mark on, with other line ends', `\uFEFF${hut.replaceAll('\n', '\r\n')}`],
  ['with no end', hut.trimEnd()],
  ['with remarks behind', eachLine((line, n) => (says(line) ? `${line}  # remark ${n}` : line))],
  ['with notes above', eachLine((line, n) => (begins(line) ? `# note ${n}\n${line}` : line))],
  ['with commas behind names', hut.replaceAll(/^(\w+ [A-Z]\w*) +/gmu, '$1, ')],
  ['in many lines', eachLine((line) => line.replaceAll(', ', '\n    '))],
  ['in many lines with remarks', eachLine((line, n) => line.replaceAll(', ', `,  # remark ${n}\n    `))],
  ['with gaps and tabs', eachLine((line) => line.replaceAll(/ {2,}/gu, '\t').replaceAll(', ', ',   '))],
  ['with other letters', hut.replaceAll(/\b(?=LAMP|BOX|W\d|NEG|LOFT|F2)/gu, 'Ärger-'.normalize('NFD'))],
  ['with a run twice', hut.replace(/^run W2.*\n/mu, '$&$&')],
  ['with half a run', half('W2')],
  ['with half of another', half('W3')],
];

const groups = new Map(allRules.map(({ slug, group }) => [slug, group]));
const complaints = ({ findings }: Analysis) =>
  findings.filter(({ slug }) => groups.get(slug) === 'language').map(({ slug, subject }) => `${slug} ${subject ?? ''}`);
const found = ({ findings }: Analysis) => findings.map(({ slug, subject }) => `${slug} ${subject ?? ''}`).sort();
const electrics = ({ answers }: Analysis) => byName(answersJson(answers));
const format = (text: string) => formatDocument(parseDocument(text, vocabulary));
const untidy = (text: string) => newIn(text.split('\n'), format(text).split('\n')).length;

/** Remarks with the statement that they stand in or above. */
function remarks(text: string): string[] {
  let head = '';
  let notes: string[] = [];
  return text.split(/\r?\n/u).flatMap((line) => {
    const [, note] = /^(# note \d+)/u.exec(line) ?? [];
    if (note !== undefined) notes.push(note);
    if (!begins(line) && !line.includes('# remark')) return [];
    if (begins(line)) head = /^\S+ +[^\s,]+/u.exec(line)?.[0].replaceAll(/ +/gu, ' ') ?? line;
    const own = [...notes, ...(/# remark \d+/u.exec(line) ?? [])];
    if (begins(line)) notes = [];
    return own.map((remark) => `${remark} of ${head}`);
  });
}

function newIn(after: readonly string[], before: readonly string[]): string[] {
  const left = [...before];
  return after.filter((one) => {
    const at = left.indexOf(one);
    if (at !== -1) left.splice(at, 1);
    return at === -1;
  });
}

describe.each(written)('a spec written %s', (_, text) => {
  const before = analyseText(text);
  const plain = electrics(before);

  it('bears every action', () => {
    const tried = new Set<string>();
    for (const { offset, node } of before.tree.statements)
      for (const { span, kind: atom } of node.atoms) {
        if (atom === 'line' || atom === 'comma') continue;
        const start = offset + span.start;
        const actions = codeActions(before, { start, end: start }, optionsFor());
        const here = actions.filter(({ kind }) => kind?.startsWith('source') !== true);
        expect(new Set(here.map(({ edit }) => JSON.stringify(edit))).size).toBe(here.length);
        expect(new Set(actions.map(({ title }) => title)).size).toBe(actions.length);
        for (const { title, kind = '', edit } of actions) {
          if (tried.has(title)) continue;
          tried.add(title);
          // Whoever accepts goes on and writes the reason.
          const after = (editedFiles({ 'spec.amps': text }, edit)['spec.amps'] ?? '').replace(
            /^(allow .*) ""(?=\r?$)/mu,
            '$1 "tested"',
          );
          const now = analyseText(after);
          const isFix = kind === 'quickfix' && !/^(?:Accept|Declare) it/u.test(title);
          // Of half a statement one thing is told at a time, and what is declared is there to be wired.
          const complained = newIn(complaints(now), complaints(before)).filter(
            (one) => kind !== 'quickfix' || !one.startsWith('terminal-unconnected '),
          );
          if (!isFix) expect([title, complained]).toEqual([title, []]);
          expect([title, newIn(remarks(text), remarks(after))]).toEqual([title, []]);
          // A fix changes its words and nothing beside them.
          if (!isFix) expect([title, Math.max(untidy(after), untidy(text))]).toEqual([title, untidy(text)]);
          if (text.includes('\r')) expect(after).not.toMatch(/(?<!\r)\n/u);
          if (!/^(?:refactor\.(?:extract|inline)|source\.sort)/u.test(kind)) continue;
          expect([title, found(now)]).toEqual([title, found(before)]);
          expect([title, differences(plain, electrics(now))]).toEqual([title, []]);
        }
      }
    expect(tried.size).toBeGreaterThan(10);
  }, 60_000);
});
