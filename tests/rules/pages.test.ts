/** The page of each finding, as its reader has it. */
import { describe, expect, it } from 'vitest';
import { allRules } from '../../server/rules/all.ts';
import { pageOf } from '../../server/rules/pages.ts';

const section = (page: string, title: string) =>
  page
    .split(/^## /m)
    .find((piece) => piece.startsWith(`${title}\n`))
    ?.slice(title.length)
    .trim() ?? '';

/** The reader's words; specs and code stand apart. */
const prose = (text: string) =>
  text
    .replaceAll(/```[\s\S]*?```/g, '')
    .replaceAll(/`[^`]*`/g, 'this')
    .replaceAll(/\]\([^)]*\)/g, ']');

/** These tell what the tool could not do, and hold nothing to a limit. */
const notWorkedOut: ReadonlySet<string> = new Set(['answers-failed', 'case-unanswered', 'rule-failed']);
const electrical = allRules.filter(({ group }) => group !== 'language' && group !== 'spec');
const slugs = new Set(allRules.map(({ slug }) => slug));

/** Bodies that publish, and words of the trade that are written in capitals. */
const known = new Set([
  'IEC',
  'BS',
  'ISO',
  'NEC',
  'EN',
  'CFR',
  'DIN',
  'IP',
  'AWG',
  'AC',
  'DC',
  'V',
  'A',
  'Ib',
  'In',
  'Iz',
  'D',
  'E',
  'B',
  'C',
  'CR',
  'LF',
]);

describe.each(allRules.map((rule) => [rule.slug, rule] as const))('the page of %s', (slug, rule) => {
  const page = pageOf(rule);

  it('says what is wrong, why it matters and what to do', () => {
    const [title] = page.split('\n');
    expect(title).toMatch(/^# \S+(?: \S+){2,}$/);
    expect(page).toContain(`\`${slug}\``);
    for (const name of ['Why it matters', 'How to mend it']) {
      const text = section(page, name);
      expect(text.length).toBeGreaterThan(25);
      expect(text).toMatch(/\.$/);
    }
    expect(page).toMatch({ error: /^An error: /m, warning: /^A warning: /m, advice: /^Advice: /m }[rule.severity]);
  });

  it('says where its limit comes from', () => {
    const text = section(page, 'The limit, and where it comes from');
    if (electrical.includes(rule)) {
      expect(text).toMatch(/confirmed|not checked against the printed standard|common practice, no source/);
      // Whatever a publication is named for says whether it was seen.
      if (/\b(?:IEC|ISO|BS|CFR|EN) \d/.test(text))
        expect(text).toMatch(/confirmed|not checked against the printed standard/);
    } else
      expect(text).toMatch(
        notWorkedOut.has(rule.slug) ? /^There is no limit behind it/ : /^A rule of the notation itself/,
      );
  });

  it('has the cautions of the work it asks for', () => {
    const text = section(page, 'Take care');
    if (!electrical.includes(rule)) {
      expect(text).toBe('');
      return;
    }
    expect(text).toContain('prove dead');
    expect(text).toContain('Panels are live in daylight');
    expect(text).toContain('Mains voltage belongs to licensed people');
    expect(text).toContain('Local codes and the makers’ instructions come first');
    if (rule.group === 'switching' || rule.group === 'protection') expect(text).toContain('keeps an arc burning');
    if (rule.group !== 'entries') {
      expect(text).toContain('gas that explodes');
      expect(text).toContain('start a fire');
    } else expect(text).toContain('before you drill');
  });

  it('says how it is accepted only where that makes sense', () => {
    expect(page.includes(`allow ${slug} on NAME "why"`)).toBe(electrical.includes(rule));
  });

  it('links to pages that there are, other than itself', () => {
    const links = [...page.matchAll(/\]\(([^)]*)\)/g)].map(([, target = '']) => target);
    expect(links.length).toBeGreaterThan(0);
    for (const target of links) {
      expect(target).toMatch(/^[a-z-]+\.md$/);
      expect(slugs.has(target.slice(0, -3))).toBe(true);
      expect(target).not.toBe(`${slug}.md`);
    }
    expect(new Set(links).size).toBe(links.length);
  });

  it('names nobody’s goods, and nothing half done', () => {
    const text = prose(page);
    expect(page).not.toMatch(/[®™]|https?:|# finds/);
    // Names of goods are written in odd capitals, or in the middle of a sentence.
    const capitals = [...text.matchAll(/\b(?:[A-Z]{2,}|[A-Za-z]*[a-z][A-Z]\w*)\b/g)].map(([word]) => word);
    expect(capitals.filter((word) => !known.has(word) && word !== 'NAME')).toEqual([]);
    const inside = [...text.matchAll(/(?<=[a-z,;] )[A-Z][a-z]+/g)].map(([word]) => word);
    expect(inside.filter((word) => !known.has(word))).toEqual([]);
  });

  it('has symbols, not stand-ins for them', () => {
    expect(prose(page)).not.toMatch(/mm2|sqmm|\bdegC\b|\bohms?\b|\bamps\b| {2,}\S/);
  });
});

describe('the pages', () => {
  it('have titles of their own', () => {
    const titles = allRules.map(({ page }) => page.title);
    expect(new Set(titles).size).toBe(titles.length);
  });

  it('can all be come to from another', () => {
    const linked = new Set(allRules.flatMap(({ page }) => page.see ?? []));
    expect(allRules.map(({ slug }) => slug).filter((slug) => !linked.has(slug))).toEqual([]);
  });
});
