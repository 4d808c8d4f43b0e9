/**
 * Every action over every sample, asked for at places all through the text: what comes of it parses, keeps every comment, is
 * tidy where the sample was, and changes nothing electrical but what the action says.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { CodeAction } from 'vscode-languageserver';
import { formatDocument } from '../../../grammar/format.ts';
import { parseDocument } from '../../../grammar/parse.ts';
import type { Analysis } from '../../../server/analysis.ts';
import { answersJson } from '../../../server/answers/answers-json.ts';
import { groupBy } from '../../../server/answers/grouping.ts';
import { codeActions, resolveCodeAction } from '../../../server/editor/code-actions.ts';
import { vocabulary } from '../../../server/kinds/vocabulary.ts';
import { areaMm2 } from '../../../server/physics/conductors.ts';
import { allRules } from '../../../server/rules/all.ts';
import { withoutMarkers } from '../../../server/rules/pages.ts';
import { analyseText } from '../../analysed.ts';
import { byName, differences } from '../../answers/differences.ts';
import { editedFiles } from '../editing.ts';
import { optionsFor } from './offering.ts';

const files = { 'stock.amps': readFileSync('samples/stock.amps', 'utf8') };
const samples = readdirSync('samples').filter((name) => name.endsWith('.amps'));
const groups = new Map(allRules.map(({ slug, group }) => [slug, group]));

/** Places asked at in a sample, and actions of a kind that are tried there, however many there are. */
const places = 900;
const mostOfKind = 5;
/** Lines that are cut off in the middle. */
const cuts = 12;

const ofRating: ReadonlySet<string> = new Set([
  'switch-below-fuse',
  'switch-below-load',
  'switch-category',
  'switch-not-dc',
  'switch-voltage',
]);

interface Tried {
  readonly action: CodeAction;
  readonly after: Analysis;
}

const language = ({ findings }: Analysis) =>
  findings.filter(({ slug }) => groups.get(slug) === 'language').map(({ slug, subject }) => `${slug} ${subject ?? ''}`);
const comments = ({ tree }: Pick<Analysis, 'tree'>) =>
  [
    ...tree.statements.flatMap(({ node }) => node.comments.map(({ text }) => text.trim())),
    ...tree.items.flatMap((item) =>
      item.kind === 'gap' ? item.text.split('\n').flatMap((line) => (line.includes('#') ? [line.trim()] : [])) : [],
    ),
  ].sort();
const findings = ({ findings: found }: Analysis) =>
  found
    .map(({ slug, subject, severity, figures }) => JSON.stringify({ slug, subject, severity, figures }, rounded))
    .sort();
/** The order of statements is the order of sums, whose last digits differ by it. */
const rounded = (_: string, value: unknown) => (typeof value === 'number' ? Number(value.toPrecision(6)) : value);
const electrics = ({ answers }: Analysis) => byName(answersJson(answers));
const format = (text: string) => formatDocument(parseDocument(text, vocabulary));
const newIn = (after: readonly string[], before: readonly string[]) => {
  const left = [...before];
  return after.filter((one) => {
    const at = left.indexOf(one);
    if (at !== -1) left.splice(at, 1);
    return at === -1;
  });
};

/** Every action that is offered at any of the places, each once; of many of one kind some from all through the text. */
function actionsOf(analysis: Analysis): CodeAction[] {
  const { text } = analysis;
  const stride = Math.max(1, Math.floor(text.length / places));
  const found = new Map<string, CodeAction>();
  for (let offset = 0; offset <= text.length; offset += stride)
    for (const action of codeActions(
      analysis,
      { start: offset, end: offset },
      { ...optionsFor(files), resolves: true },
    ))
      if (!found.has(action.title)) found.set(action.title, { ...action, data: offset });
  const byKind = groupBy([...found.values()], ({ kind }) => kind);
  return [...byKind.values()].flatMap((actions) => {
    const step = Math.max(1, actions.length / mostOfKind);
    return Array.from({ length: Math.min(actions.length, mostOfKind) }, (_, n) => actions[Math.floor(n * step)]).filter(
      (one) => one !== undefined,
    );
  });
}

/** The text once an action is chosen at a place. */
function chosen(analysis: Analysis, { title, kind = '' }: CodeAction, offset: number): string {
  const span = { start: offset, end: offset };
  const options = { ...optionsFor(files), only: [kind], resolves: true };
  const action = codeActions(analysis, span, options).find((one) => one.title === title);
  const edit = action?.edit ?? resolveCodeAction(analysis, { title, kind }, span, options);
  if (edit === undefined) throw new Error(`no edit of ${title}`);
  return editedFiles({ ...files, 'spec.amps': String(analysis.text) }, edit)['spec.amps'] ?? '';
}

describe.each(samples)('over samples/%s', (name) => {
  const text = withoutMarkers(readFileSync(`samples/${name}`, 'utf8'));
  const before = analyseText(text, files);
  let known: readonly Tried[] | undefined;
  const tried = (): readonly Tried[] => {
    known ??= actionsOf(before).map((action) => ({
      action,
      // Whoever accepts goes on and writes the reason.
      after: analyseText(
        chosen(before, action, Number(action.data)).replace(/^(allow .*) ""(?=\r?$)/mu, '$1 "tested"'),
        files,
      ),
    }));
    return known;
  };
  const of = (kind: string) => tried().filter(({ action }) => action.kind?.startsWith(kind));

  it('every action parses, keeps every comment, and leaves tidy text tidy', () => {
    const tidy = format(text) === text;
    for (const { action, after } of tried()) {
      expect([action.title, newIn(language(after), language(before))]).toEqual([action.title, []]);
      expect([action.title, newIn(comments(before), comments(after))]).toEqual([action.title, []]);
      const formatted = format(String(after.text));
      expect([action.title, format(formatted)]).toEqual([action.title, formatted]);
      if (tidy && action.kind !== 'quickfix')
        expect([action.title, String(after.text)]).toEqual([action.title, formatted]);
    }
  }, 60_000);

  it('stock put in or written out, and sorting, change no answer and no finding', () => {
    const plain = electrics(before);
    for (const { action, after } of [...of('refactor.extract'), ...of('refactor.inline'), ...of('source.sort')]) {
      expect([action.title, differences(plain, electrics(after))]).toEqual([action.title, []]);
      expect([action.title, findings(after)]).toEqual([action.title, findings(before)]);
    }
  });

  it('a size swapped is not thinner, and no other run changes', () => {
    for (const { action, after } of of('refactor.rewrite.size'))
      for (const [run, { size }] of before.model.runs) {
        const now = after.model.runs.get(run)?.size;
        if (size === undefined) continue;
        expect(now, action.title).toBeDefined();
        if (now === undefined) continue;
        expect([action.title, areaMm2(now) >= areaMm2(size) * (1 - 1e-9)]).toEqual([action.title, true]);
        if (!action.title.startsWith(`Write ${now.written} for ${size.written}`))
          expect([action.title, now.written]).toEqual([action.title, size.written]);
      }
  });

  it('a run that is cut carries what it carried and loses what it lost', () => {
    for (const { action, after } of [...of('refactor.rewrite.split'), ...of('refactor.rewrite.isolator')]) {
      for (const [load, figures] of before.answers.loads) {
        const now = after.answers.loads.get(load);
        const { dropVolts, designAmps, lowestVolts } = figures;
        expect([
          action.title,
          differences(
            { dropVolts, designAmps, lowestVolts },
            { dropVolts: now?.dropVolts, designAmps: now?.designAmps, lowestVolts: now?.lowestVolts },
          ),
        ]).toEqual([action.title, []]);
      }
      for (const [core, figures] of before.answers.cores) {
        const halves = [...after.answers.cores].filter(
          ([one]) => one.run.name === core.run.name && one.label === core.label,
        );
        for (const [, now] of halves)
          expect([action.title, core.run.name, differences(figures.designAmps, now.designAmps)]).toEqual([
            action.title,
            core.run.name,
            [],
          ]);
      }
      // What is new is the isolator's or the box's; of the wiring nothing is worse.
      const wiring = (one: Analysis) => [
        ...new Set(
          one.findings
            .filter(({ slug }) => ['cable', 'network', 'protection', 'battery'].includes(groups.get(slug) ?? ''))
            .map(({ slug }) => slug),
        ),
      ];
      expect([action.title, newIn(wiring(after), wiring(before))]).toEqual([action.title, []]);
      if (action.kind === 'refactor.rewrite.isolator') {
        const isolator = [...after.model.parts.values()].find((part) => !before.model.parts.has(part.name));
        expect(isolator?.kind.word).toBe('isolator');
        const about = after.findings.filter(({ subject, slug }) => subject === isolator?.name && ofRating.has(slug));
        expect([action.title, about.map(({ message }) => message)]).toEqual([action.title, []]);
        for (const { id } of isolator?.terminals ?? [])
          expect(after.answers.network.at.get(id)?.filter((edge) => edge.is === 'core')).toHaveLength(1);
      }
    }
  });

  it('another core joins two terminals and takes nothing away', () => {
    for (const { action, after } of of('refactor.rewrite.core')) {
      const cores = ({ model }: Analysis) =>
        [...model.runs.values()].flatMap((run) => run.cores.map(({ from, to }) => `${from?.id} ${to?.id}`));
      expect(newIn(cores(before), cores(after))).toEqual([]);
      expect([action.title, newIn(cores(after), cores(before)).length]).toEqual([action.title, 1]);
    }
  });

  it('what is accepted is found no more, and no figure changes', () => {
    const plain = electrics(before);
    for (const { action, after } of of('quickfix').filter((one) => one.action.title.startsWith('Accept it'))) {
      expect([action.title, differences(plain, electrics(after))]).toEqual([action.title, []]);
      const code = String(action.diagnostics?.[0]?.code);
      const count = (one: Analysis) => one.findings.filter(({ slug }) => slug === code).length;
      expect([action.title, count(after)]).toEqual([action.title, count(before) - 1]);
    }
  });

  it('another line end, or none at the end, makes no difference', () => {
    const windows = analyseText(text.replaceAll('\n', '\r\n'), files);
    const unended = analyseText(text.trimEnd(), files);
    for (const { action } of tried()) {
      const at = Number(action.data);
      const plain = chosen(before, action, at);
      const lines = text.slice(0, at).split('\n').length - 1;
      expect([action.title, chosen(windows, action, at + lines)]).toEqual([
        action.title,
        plain.replaceAll('\n', '\r\n'),
      ]);
      if (at < unended.text.length)
        expect([action.title, chosen(unended, action, at).trimEnd()]).toEqual([action.title, plain.trimEnd()]);
    }
  }, 60_000);

  it('while a line of it is being written, every action still does no harm', () => {
    const step = Math.max(1, Math.floor(text.length / cuts));
    for (let end = step; end < text.length; end += step) {
      const rest = text.indexOf('\n', end);
      const half = analyseText(text.slice(0, end) + (rest === -1 ? '' : text.slice(rest)), files);
      const own = half.tree.statements.findLast(({ offset }) => offset < end)?.offset ?? 0;
      for (const offset of [end, Math.max(0, own - 3), own]) {
        for (const { title, kind, edit } of codeActions(half, { start: offset, end: offset }, optionsFor(files))) {
          const changed = editedFiles({ ...files, 'spec.amps': String(half.text) }, edit)['spec.amps'] ?? '';
          const tree = parseDocument(changed, vocabulary);
          const lost = newIn(comments(half), comments({ tree }));
          expect([end, title, lost]).toEqual([end, title, []]);
          // A mend may well let be read what was not read before.
          if (kind === 'quickfix' || kind === 'source.fixAll.ampscribe') continue;
          const problems = (read: Pick<Analysis, 'tree'>) =>
            read.tree.statements.flatMap(({ shaped, node }) =>
              [...shaped.problems, ...node.problems].map(({ slug }) => slug),
            );
          expect([end, title, newIn(problems({ tree }), problems(half))]).toEqual([end, title, []]);
        }
      }
    }
  }, 60_000);
});
