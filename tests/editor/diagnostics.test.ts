import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type Diagnostic, DiagnosticSeverity, DiagnosticTag } from 'vscode-languageserver';
import { type Analysis, analyse } from '../../server/analysis.ts';
import { diskSource, uriOf } from '../../server/cli/files.ts';
import { type DiagnosticData, type DiagnosticOptions, diagnostics } from '../../server/editor/diagnostics.ts';
import { allRules } from '../../server/rules/all.ts';
import { withoutMarkers } from '../../server/rules/pages.ts';
import { analyseText, specUri } from '../analysed.ts';
import { marksIn } from '../rules/markers.ts';

const options: DiagnosticOptions = {
  pageUri: (slug) => `page:/${slug}.md`,
  relatedInformation: true,
  tags: true,
};

const wordsOf = (analysis: Analysis, { range }: Pick<Diagnostic, 'range'>) =>
  analysis.text.slice(analysis.lines.offset(range.start), analysis.lines.offset(range.end));

/** Every wrong example of every rule, as it stands on its page. */
const examples = allRules.flatMap((rule) =>
  rule.page.wrong.map((example, n) => ({ slug: rule.slug, n: n + 1, example, rule })),
);

describe('a finding as a diagnostic', () => {
  it.each(examples)('of wrong example $n of $slug says where, what, how bad and why', ({ example }) => {
    const spec = withoutMarkers(example.spec);
    const analysis = analyseText(spec, example.files);
    const shown = diagnostics(analysis, options);
    expect(shown).toHaveLength(analysis.findings.length);
    const severities = {
      error: DiagnosticSeverity.Error,
      warning: DiagnosticSeverity.Warning,
      advice: DiagnosticSeverity.Information,
    };
    analysis.findings.forEach((finding, n) => {
      const one = shown[n] as Diagnostic;
      expect(one.source).toBe('ampscribe');
      expect(one.code).toBe(finding.slug);
      expect(one.codeDescription).toEqual({ href: `page:/${finding.slug}.md` });
      expect(one.message).toBe(finding.message);
      expect(one.severity).toBe(severities[finding.severity]);
      expect(analysis.lines.offset(one.range.start)).toBe(finding.place.span.start);
      expect(analysis.lines.offset(one.range.end)).toBe(finding.place.span.end);
      const data = one.data as DiagnosticData;
      expect(data.figures).toEqual(finding.figures);
      expect(data.subject).toBe(finding.subject);
      expect(data.fixes.map(({ title, safe }) => [title, safe])).toEqual(
        finding.fixes.map(({ title, safe }) => [title, safe]),
      );
      // It goes over a pipe: what is no JSON would be lost there.
      expect(JSON.parse(JSON.stringify(one))).toEqual(one);
      for (const [name, value] of Object.entries(data.figures))
        if (typeof value === 'number') expect([name, Number.isFinite(value)]).toEqual([name, true]);
    });
  });

  it('speaks to a fitter: one sentence or two, with no trace of the machine', () => {
    for (const { example } of examples)
      for (const { message } of diagnostics(analyseText(withoutMarkers(example.spec), example.files), options)) {
        expect(message).toMatch(/^[\p{L}\p{N}“?-].*[.?]$/u);
        expect(message).not.toMatch(/undefined|NaN|Infinity|null|\[object|\n|memory:/);
        expect(message).not.toMatch(/ {2}|,,|\.\.(?!\/)|\( | \)/);
        expect(String(message).length).toBeLessThan(420);
      }
  });

  it('has the other places, in whichever file they are', () => {
    const used = 'battery B1  lead-acid, 12 V, 80 Ah\nfuse F1  10 A\n';
    const analysis = analyseText('use "parts.amps"\nfuse F1  20 A\n', { 'parts.amps': used });
    const [twice] = diagnostics(analysis, options).filter(({ code }) => code === 'name-twice');
    const [related] = twice?.relatedInformation ?? [];
    const place = { line: 1, character: 5 };
    expect(related?.location).toEqual({
      uri: 'memory:///parts.amps',
      range: { start: place, end: { line: 1, character: 7 } },
    });
    expect(related?.message).toMatch(/^\S.*[^.]$/);
  });

  it('leaves out what the client does not know', () => {
    const battery = 'battery B1  lead-acid, 12 V, 80 Ah\n';
    const told = [`${battery}battery B1  agm, 12 V, 80 Ah\n`, `${battery}allow drop-over-limit on B1 "none"\n`].map(
      (text) => {
        const analysis = analyseText(text);
        const full = diagnostics(analysis, options);
        const bare = diagnostics(analysis, { pageUri: () => undefined, relatedInformation: false, tags: false });
        expect(bare.map(({ code }) => code)).toEqual(full.map(({ code }) => code));
        return { full, bare };
      },
    );
    const [twice, unused] = told.map(({ full }) => full);
    expect(twice?.find(({ code }) => code === 'name-twice')?.relatedInformation).toHaveLength(1);
    expect(unused?.find(({ code }) => code === 'allow-unused')?.tags).toEqual([DiagnosticTag.Unnecessary]);
    for (const one of told.flatMap(({ bare }) => bare)) {
      expect(one).not.toHaveProperty('relatedInformation');
      expect(one).not.toHaveProperty('tags');
      expect(one).not.toHaveProperty('codeDescription');
    }
  });

  it('counts characters as the protocol does: by UTF-16, behind tabs, and with any line end', () => {
    for (const newline of ['\n', '\r\n']) {
      const text = ['# 🔌🔌 é', 'load L1 "💡 lamp"\t12 watts', ''].join(newline);
      const analysis = analyseText(text);
      const [unit] = diagnostics(analysis, options).filter(({ code }) => code === 'unit-spelling');
      expect(unit?.range.start).toEqual({ line: 1, character: 'load L1 "💡 lamp"\t'.length + 3 });
      expect(wordsOf(analysis, unit as Diagnostic)).toBe('watts');
    }
  });

  it('of a van as it was found stands at the words marked there, with the figures that decided', () => {
    const analysis = analyse(uriOf(resolve('samples/spokewagon-as-found.amps')), diskSource());
    const shown = diagnostics(analysis, options);
    const places = shown.map((one) => `${one.code} ${one.range.start.line + 1} ${wordsOf(analysis, one)}`).sort();
    expect(places).toEqual(
      marksIn(String(analysis.text))
        .map(({ slug, line, words }) => `${slug} ${line} ${words}`)
        .sort(),
    );
    const figures = (slug: string) =>
      (shown.find(({ code }) => code === slug)?.data as DiagnosticData | undefined)?.figures ?? {};
    // The figures are those of the words and of the message.
    expect(figures('switch-below-fuse')).toMatchObject({ ratedAmps: 40, deviceAmps: 60 });
    expect(figures('cable-too-small')).toMatchObject({ deviceAmps: 50 });
    expect(figures('cable-too-small').capacityAmps).toBeCloseTo(40.7, 1);
    expect(figures('protection-too-far')).toMatchObject({ metres: 3.4 });
  });

  it('of the file itself stands in the file itself', () => {
    for (const { example } of examples) {
      const analysis = analyseText(withoutMarkers(example.spec), example.files);
      for (const { place } of analysis.findings) expect(place.uri).toBe(specUri);
    }
  });
});
