import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type CodeAction, CodeActionKind } from 'vscode-languageserver';
import { formatDocument } from '../../grammar/format.ts';
import { parseDocument } from '../../grammar/parse.ts';
import type { Analysis } from '../../server/analysis.ts';
import { type CodeActionOptions, codeActions, fillBlankKind, fixAllKind } from '../../server/editor/code-actions.ts';
import { diagnosticOf } from '../../server/editor/diagnostics.ts';
import { vocabulary } from '../../server/kinds/vocabulary.ts';
import { allRules } from '../../server/rules/all.ts';
import { withoutMarkers } from '../../server/rules/pages.ts';
import type { Finding } from '../../server/rules/rule.ts';
import { analyseFiles, editedFiles, type Files } from './editing.ts';

const options: CodeActionOptions = { pageUri: (slug) => `page:/${slug}.md`, relatedInformation: true, tags: true };
const whole = (analysis: Analysis) => ({ start: 0, end: analysis.text.length });
const of = (files: Files, only?: string[], span = whole(analyseFiles(files))) =>
  codeActions(analyseFiles(files), span, { ...options, only });

interface Source {
  readonly from: string;
  readonly files: Files;
}

const asFound: Source = {
  from: 'spokewagon-as-found.amps',
  files: {
    'spec.amps': withoutMarkers(readFileSync('samples/spokewagon-as-found.amps', 'utf8')),
    'stock.amps': readFileSync('samples/stock.amps', 'utf8'),
  },
};

const sources: readonly Source[] = [
  asFound,
  ...allRules.flatMap(({ slug, page }) =>
    page.wrong.map(
      ({ spec, files = {} }, n): Source => ({
        from: `${slug} ${n + 1}`,
        files: {
          ...Object.fromEntries(Object.entries(files).map(([name, text]) => [name, withoutMarkers(text)])),
          'spec.amps': withoutMarkers(spec),
        },
      }),
    ),
  ),
];

const like = (a: Finding, b: Finding) => a.slug === b.slug && a.subject === b.subject;
/** As whoever accepts goes on writing. */
const withReason = (files: Files): Files =>
  Object.fromEntries(
    Object.entries(files).map(([name, text]) => [name, text.replace(/^(allow .*) ""$/mu, '$1 "tested"')]),
  );
const count = (findings: readonly Finding[], one: Finding) => findings.filter((other) => like(one, other)).length;
const errors = (findings: readonly Finding[]) =>
  findings.filter(({ severity }) => severity === 'error').map(({ slug, subject }) => `${slug} ${subject ?? ''}`);

/** What the light bulb offers at the words of a finding, for that finding. */
function offered(
  analysis: Analysis,
  finding: Finding,
): { readonly mends: CodeAction[]; readonly makes: CodeAction[]; readonly accepts: CodeAction[] } {
  const own = diagnosticOf(analysis, finding, options);
  const actions = codeActions(analysis, finding.place.span, { ...options, only: [CodeActionKind.QuickFix] }).filter(
    ({ diagnostics = [] }) => JSON.stringify(diagnostics) === JSON.stringify([own]),
  );
  const accepts = actions.filter(({ title }) => title.startsWith('Accept it'));
  const makes = actions.filter(({ title }) => /^(?:Declare it|Take \S+ out|Put fuses? .+): /u.test(title));
  return { accepts, makes, mends: actions.filter((one) => !accepts.includes(one) && !makes.includes(one)) };
}

describe.each(sources)('$from', ({ files }) => {
  const analysis = analyseFiles(files);

  it('offers every fix of every finding at its words, and each takes its finding away without a new error', () => {
    for (const finding of analysis.findings) {
      const { mends, makes } = offered(analysis, finding);
      expect(mends.map(({ title }) => title)).toEqual(finding.fixes.map(({ title }) => title));
      for (const { title, edit, kind } of [...mends, ...makes]) {
        expect(kind).toBe(CodeActionKind.QuickFix);
        const after = analyseFiles(editedFiles(files, edit)).findings;
        expect([title, count(after, finding)]).toEqual([title, count(analysis.findings, finding) - 1]);
        const known = errors(analysis.findings);
        const brought = errors(after).filter((one) => !known.includes(one));
        // Of several terminals offered one is meant, and the others may well be wrong.
        const choice = mends.length > 1 && finding.slug === 'unknown-terminal';
        if (!choice) expect([title, brought]).toEqual([title, []]);
      }
    }
  });

  it('offers to accept what is about electrics, never what cannot be read; with a reason written it is gone', () => {
    const groups = new Map(allRules.map(({ slug, group }) => [slug, group]));
    for (const finding of analysis.findings) {
      const { accepts } = offered(analysis, finding);
      const group = groups.get(finding.slug);
      expect(accepts).toHaveLength(group === 'language' || group === 'spec' ? 0 : 1);
      for (const { edit, isPreferred } of accepts) {
        expect(isPreferred).toBeUndefined();
        const after = analyseFiles(withReason(editedFiles(files, edit)));
        expect(after.findings.map(({ slug, subject }) => `${slug} ${subject}`)).not.toContain(
          `${finding.slug} ${finding.subject}`,
        );
        expect(after.accepted.some((one) => like(one, finding))).toBe(true);
        // Of a case that has no answer only for what is accepted, nothing else tells that it is not checked.
        const brought = errors(after.findings.filter(({ slug }) => slug !== 'case-unanswered'));
        expect(brought.filter((one) => !errors(analysis.findings).includes(one))).toEqual([]);
        expect(after.findings.map(({ slug }) => slug)).not.toContain('allow-unused');
      }
    }
  });

  it('mends all at once only what is safe, and brings no new error', () => {
    const safe = analysis.findings.filter(({ fixes }) => fixes.some((fix) => fix.safe));
    const [all, ...more] = codeActions(analysis, whole(analysis), { ...options, only: [CodeActionKind.SourceFixAll] });
    expect(more).toEqual([]);
    if (safe.length === 0) {
      expect(all).toBeUndefined();
      return;
    }
    expect(all?.kind).toBe(fixAllKind);
    expect(all?.title).toMatch(/^Mend all that needs no decision \(\d+\)$/);
    const safeTexts = safe.flatMap(({ fixes }) =>
      fixes.filter((fix) => fix.safe).flatMap(({ edits }) => edits.map(({ newText }) => newText)),
    );
    for (const { newText } of Object.values(all?.edit?.changes ?? {}).flat()) expect(safeTexts).toContain(newText);
    const after = analyseFiles(editedFiles(files, all?.edit)).findings;
    // What was unread before may have findings of its own now; of the kinds mended there are fewer.
    const mended = (findings: readonly Finding[]) =>
      findings.filter(({ slug }) => safe.some((one) => one.slug === slug));
    expect(mended(after).length).toBeLessThan(mended(analysis.findings).length);
    expect(errors(after).filter((one) => !errors(analysis.findings).includes(one))).toEqual([]);
  });
});

describe('the light bulb', () => {
  const text = `system "S" 12 V
battery B1  lead-acid, 12 V, 80 Ah, internal 15 mΩ
fuse F1  10 amps, blade
load L1  24 W

run W1  2,5 mm² red, 0.1 metres, B1:+ to F1:in
run W2  1,5 mm² red, 1 m, F1:out to L1:+
run W3  1.5 mm² black, 1 m, L1:- to B1:-
`;
  const files: Files = { 'spec.amps': text };
  const at = (words: string) => ({ start: text.indexOf(words), end: text.indexOf(words) });

  it('offers only what concerns the words under it', () => {
    const titles = of(files, ['quickfix'], at('2,5 mm²')).map(({ diagnostics = [] }) => diagnostics[0]?.code);
    expect(new Set(titles)).toEqual(new Set(['decimal-comma']));
    expect(of(files, ['quickfix'], at('load'))).toEqual([]);
    // The place right behind a word is still that word’s: there the pointer stands after typing it.
    const end = text.indexOf('2,5 mm²') + '2,5 mm²'.length;
    expect(of(files, ['quickfix'], { start: end, end }).length).toBeGreaterThan(0);
  });

  it('prefers a fix only where there is one safe way', () => {
    const preferred = of(files, ['quickfix']).filter(({ isPreferred }) => isPreferred === true);
    expect(preferred.map(({ diagnostics }) => diagnostics?.[0]?.code).sort()).toEqual(
      ['decimal-comma', 'decimal-comma', 'unit-spelling', 'unit-spelling'].sort(),
    );
    const thousands = { 'spec.amps': 'load L1  1,000 W\n' };
    const offers = of(thousands, ['quickfix']);
    expect(offers.map(({ title }) => title)).toEqual(['Write 1000 W', 'Write 1.000 W']);
    expect(offers.filter(({ isPreferred }) => isPreferred === true)).toEqual([]);
    expect(of(thousands, [fixAllKind])).toEqual([]);
  });

  it('mends everything safe in one go, and twice is no more than once', () => {
    const [all] = of(files, [fixAllKind]);
    expect(all?.title).toBe('Mend all that needs no decision (4)');
    const mended = editedFiles(files, all?.edit);
    expect(mended['spec.amps']).toBe(
      text.replace('2,5', '2.5').replace('1,5', '1.5').replace('10 amps', '10 A').replace('0.1 metres', '0.1 m'),
    );
    expect(analyseFiles(mended).findings).toEqual([]);
    expect(of(mended, [fixAllKind])).toEqual([]);
  });

  it('leaves out of mending at once what would touch the same words as another fix', () => {
    const analysis = analyseFiles(files);
    const [one] = analysis.findings.filter(({ fixes }) => fixes.some(({ safe }) => safe));
    const fixAt = (start: number, end: number, newText: string): Finding => ({
      ...(one as Finding),
      fixes: [{ title: newText, safe: true, edits: [{ place: { uri: analysis.uri, span: { start, end } }, newText }] }],
    });
    const texts = (...findings: Finding[]) =>
      codeActions({ ...analysis, findings }, whole(analysis), { ...options, only: [fixAllKind] }).flatMap(({ edit }) =>
        Object.values(edit?.changes ?? {})
          .flat()
          .map(({ newText }) => newText),
      );
    expect(texts(fixAt(0, 4, 'a'), fixAt(2, 6, 'b'), fixAt(4, 8, 'c'))).toEqual(['a', 'c']);
    // Two insertions at one place have no order; one behind replaced words has.
    expect(texts(fixAt(3, 3, 'a'), fixAt(3, 3, 'b'))).toEqual(['a']);
    expect(texts(fixAt(0, 3, 'a'), fixAt(3, 3, 'b'))).toEqual(['a', 'b']);
  });

  it('gives the kinds asked for, and all when none is', () => {
    const kinds = (only?: string[]) => new Set(of(files, only).map(({ kind }) => kind));
    // All is selected: sizes of the runs in it are offered in the other system.
    expect(kinds()).toEqual(new Set(['quickfix', fixAllKind, 'refactor.rewrite.size']));
    expect(kinds(['quickfix'])).toEqual(new Set(['quickfix']));
    expect(kinds(['source'])).toEqual(new Set([fixAllKind]));
    expect(kinds(['source.fixAll'])).toEqual(new Set([fixAllKind]));
    expect(kinds(['source.fixAllOthers'])).toEqual(new Set());
    expect(kinds(['refactor'])).toEqual(new Set(['refactor.rewrite.size']));
    expect(kinds(['refactor.extract'])).toEqual(new Set());
  });

  it('offers to accept once what is found twice of one thing', () => {
    const outside = text
      .replace('10 amps', '10 A')
      .replaceAll(/\d,5 mm²/gu, '? mm²')
      .replace('0.1 metres', '3 m, along YARD')
      .concat('place YARD outdoors, 70 °C\n');
    const accepts = of({ 'spec.amps': outside }, ['quickfix']).filter(({ title }) => title.startsWith('Accept'));
    const ofW1 = accepts.filter(({ title }) => title.endsWith('allow insulation-for-place on W1'));
    expect(ofW1).toHaveLength(1);
    expect(
      analyseFiles({ 'spec.amps': outside }).findings.filter(({ slug }) => slug === 'insulation-for-place'),
    ).toHaveLength(2);
  });

  it('tells apart what would be mended alike in several lines', () => {
    const alike = { 'spec.amps': 'load A  5 watt\nload B  5 watt\n' };
    const titles = (span?: { start: number; end: number }) =>
      of(alike, [CodeActionKind.QuickFix], span).map(({ title }) => title);
    expect(titles()).toEqual(['Write 5 W, in line 1', 'Write 5 W, in line 2']);
    expect(titles({ start: 11, end: 11 })).toEqual(['Write 5 W']);
  });

  it('writes what is worked out for a blank, with the reason', () => {
    const blank = {
      'spec.amps': text
        .replace('10 amps', '? A')
        .replace('1,5 mm²', '? mm²')
        .replace('2,5', '4')
        .replace('metres', 'm'),
    };
    const spec = blank['spec.amps'];
    const actions = of(blank, [fillBlankKind]);
    expect(actions.map(({ title }) => title)).toEqual(
      [
        expect.stringMatching(/^Write \d+(\.\d)? A, the smallest .+[^.]$/),
        expect.stringMatching(/^Write \d+(\.\d+)? mm², the smallest .+[^.]$/),
      ].sort((a, b) => String(a).localeCompare(String(b))),
    );
    let files: Files = blank;
    for (const { edit } of actions) {
      files = editedFiles(blank, edit);
      expect(analyseFiles(files).findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    }
    const here = spec.indexOf('? mm²');
    expect(of(blank, [fillBlankKind], { start: here, end: here })).toHaveLength(1);
    expect(of(blank, [fillBlankKind], { start: 0, end: 0 })).toEqual([]);
  });

  it('tells apart blanks that are filled alike in several lines', () => {
    const two = { 'spec.amps': text.replaceAll(/(?:2,5|1,5|1\.5) mm²/gu, '? mm²').replace('metres', 'm') };
    const titles = of(two, [fillBlankKind]).map(({ title }) => title);
    expect(titles).toHaveLength(3);
    expect(new Set(titles).size).toBe(3);
    expect(titles.filter((title) => /, in line \d$/u.test(title)).length).toBeGreaterThan(1);
  });

  it('leaves what stands around an accepted statement in its columns', () => {
    const written = text
      .replace('10 amps', '7 A')
      .replaceAll(',5 mm²', '.5 mm²')
      .replace('metres', 'm')
      .replace('load L1', 'load LONG-NAME')
      .replaceAll('L1:', 'LONG-NAME:');
    const spec = formatDocument(parseDocument(written, vocabulary));
    const analysis = analyseFiles({ 'spec.amps': spec });
    const finding = analysis.findings.find(({ subject }) => subject === 'F1');
    const [accept] = offered(analysis, finding as Finding).accepts;
    const after = editedFiles({ 'spec.amps': spec }, accept?.edit)['spec.amps'] ?? '';
    expect(after).toMatch(/\nallow \S+ on F1 ""\nload LONG-NAME {2}24 W\n/u);
    expect(formatDocument(parseDocument(after, vocabulary))).toBe(after);
  });

  it('writes an allow behind its statement, with any line end, at the end of the file too', () => {
    // The return is the last line.
    const faulty = text.replace('10 amps', '40 A').replace('1,5', '16').replace('2,5', '16').replace('metres', 'm');
    for (const spec of [faulty, faulty.trimEnd(), faulty.replaceAll('\n', '\r\n')]) {
      const analysis = analyseFiles({ 'spec.amps': spec });
      const finding = analysis.findings.find(
        ({ slug, subject }) => slug === 'return-thinner-than-feed' && subject === 'W3',
      );
      const { accepts } = offered(analysis, finding as Finding);
      expect(accepts.map(({ title }) => title)).toEqual([
        'Accept it, with a reason to fill in: allow return-thinner-than-feed on W3',
      ]);
      const after = editedFiles({ 'spec.amps': spec }, accepts[0]?.edit)['spec.amps'] ?? '';
      const newline = spec.includes('\r\n') ? '\r\n' : '\n';
      expect(after.startsWith(spec)).toBe(true);
      expect(after.slice(spec.length)).toBe(
        `${spec.endsWith('\n') ? '' : newline}allow return-thinner-than-feed on W3 ""${newline}`,
      );
      // Until its reason is written nothing is accepted, and that it is missing is told.
      const { findings, accepted } = analyseFiles({ 'spec.amps': after });
      expect(findings.some((one) => like(one, finding as Finding))).toBe(true);
      expect(findings.filter(({ figures }) => figures.missing === 'reason')).toHaveLength(1);
      expect(accepted).toEqual([]);
    }
  });
});
