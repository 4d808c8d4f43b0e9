/** Every clause of every kind and statement counts for something, or is listed with the work that will use it. */
import { describe, expect, it } from 'vitest';
import type { ClauseSpec, StatementSpec } from '../../grammar/vocabulary.ts';
import { commonClauses, commonClausesWithContacts } from '../../server/kinds/common.ts';
import { vocabulary } from '../../server/kinds/vocabulary.ts';
import { allRules } from '../../server/rules/all.ts';
import { analyseText } from '../analysed.ts';
import { changed, hoverText, type Scene, see, specOf, type Use } from './effect.ts';
import { later } from './later.ts';
import { scenes } from './uses/all.ts';
import { commonUses } from './uses/common.ts';

const all = [...vocabulary.statements.values()];
const usesOf = (scene: Scene): Use[] => [...scene.uses, ...commonUses(scene)];
const clausesOf = all.flatMap((spec) =>
  spec.clauses.map((clause) => [`${spec.word}.${clause.id}`, spec, clause] as const),
);

function isCommon({ clauses }: StatementSpec, clause: ClauseSpec): boolean {
  return commonClauses.every((one) => clauses.includes(one)) && commonClausesWithContacts.includes(clause);
}

/** Its entry in the list; what any part may say is listed once. */
function listed(spec: StatementSpec, clause: ClauseSpec): string | undefined {
  return later[`${isCommon(spec, clause) ? 'part' : spec.word}.${clause.id}`];
}

function usesOfClause(word: string, id: string): Use[] {
  return scenes
    .filter((scene) => scene.word === word)
    .flatMap(usesOf)
    .filter(({ clause }) => clause === id);
}

/** Being asked for is no use yet, nor is being said again in one's own hover; changing what another tells is. */
const decides = ({ shows, hoverOf }: Use) =>
  hoverOf !== undefined || shows.some((one) => one !== 'hover' && one !== 'missing-required-clause');

const saysHover = ({ readBy }: ClauseSpec) => readBy.some((one) => one.startsWith('hover:'));

describe.each(scenes.map((scene) => [scene.word, scene] as const))('%s', (_, scene) => {
  it.each(usesOf(scene).map((use) => [use.clause, use.first || 'nothing', use.instead || 'nothing', use] as const))(
    '%s: “%s” is not “%s”',
    (clause, _first, _instead, use) => {
      const name = use.hoverOf ?? scene.name;
      const texts = [specOf(scene, use, 'first'), specOf(scene, use, 'instead')] as const;
      const [first, instead] = [see(texts[0], name, use.files), see(texts[1], name, use.files)];
      // At least one of the two is read as that clause; else the test would show something about another.
      const read = [first, instead].some(({ analysis }) =>
        analysis.tree.statements.some(
          ({ shaped }) => shaped.spec?.word === scene.word && shaped.clauses.some(({ spec }) => spec.id === clause),
        ),
      );
      expect([texts, read]).toEqual([texts, true]);
      const different = changed(first, instead);
      expect([...different]).toEqual(expect.arrayContaining([...use.shows]));
      expect(use.shows.length).toBeGreaterThan(0);
      // The words of the clause are all that differs, and they are sound notation.
      const unread = [first, instead].map(({ analysis }) =>
        analysis.tree.statements.flatMap(({ shaped }) => shaped.problems.map(({ message }) => message)),
      );
      expect(unread).toEqual([[], []]);
    },
  );
});

describe('every clause', () => {
  it.each(clausesOf)(
    '%s changes a finding or an answer, or is listed with the work that will use it',
    (_, spec, clause) => {
      const used = usesOfClause(spec.word, clause.id).some(decides);
      const waits = listed(spec, clause) !== undefined;
      expect({ used, waits }).toEqual(used ? { used: true, waits: false } : { used: false, waits: true });
    },
  );

  it.each(clausesOf)('%s is read by what it says reads it', (_, spec, clause) => {
    // What any part may say is told of all kinds together.
    const words = isCommon(spec, clause) ? all.map(({ word }) => word) : [spec.word];
    const shown = new Set(words.flatMap((word) => usesOfClause(word, clause.id).flatMap(({ shows }) => shows)));
    const claimed = clause.readBy.filter((one) => !/^(hover|later):/.test(one));
    for (const one of claimed)
      if (one !== 'answers' && one !== 'card') expect(allRules.map(({ slug }) => slug)).toContain(one);
    expect(claimed.filter((one) => !shown.has(one))).toEqual([]);
    if (saysHover(clause)) expect(shown.has('hover') || listed(spec, clause) !== undefined).toBe(true);
    expect(clause.readBy.some((one) => one.startsWith('later:'))).toBe(listed(spec, clause) !== undefined);
  });

  it.each(clausesOf.filter(([, spec, clause]) => listed(spec, clause) !== undefined && saysHover(clause)))(
    '%s waits, and is shown in the hover of what says it',
    (_, spec, clause) => {
      const scene = scenes.find(({ word }) => word === spec.word) as Scene;
      const shown = see(
        `${specOf(scene, { clause: clause.id, first: clause.example, instead: '', shows: [] }, 'first')}`,
        scene.name,
      );
      expect(hoverText(shown.analysis, scene.name)).toContain(clause.example);
    },
  );
});

it('the list names only clauses that there are', () => {
  const known = new Set<string>(clausesOf.map(([name]) => name));
  for (const { id } of commonClausesWithContacts) known.add(`part.${id}`);
  expect(Object.keys(later).filter((name) => !known.has(name))).toEqual([]);
});

it('every scene is a sound spec before its clause is tried', () => {
  for (const scene of scenes) {
    const base = { clause: '', first: '', instead: '', shows: [] };
    if (Object.keys(scene.base).length === 0) continue;
    const { findings } = analyseText(specOf(scene, base, 'first'));
    expect([scene.word, findings.filter(({ severity }) => severity === 'error').map(({ message }) => message)]).toEqual(
      [scene.word, []],
    );
  }
});
