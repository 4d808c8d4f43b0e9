/** Poles linked on one side only, where the other side shows that they were meant to be in parallel. */
import { poleLinks } from '../answers/contacts.ts';
import { endOf } from '../model/place.ts';
import { lampSpec, throughS1 } from './language.ts';
import type { Rule } from './rule.ts';

const { out, on } = throughS1;

const s1 = 'switch S1 2 poles, 10 A dc, 24 V, 2 in parallel 14 A';

export const rule: Rule = {
  slug: 'bar-on-one-side',
  severity: 'warning',
  group: 'switching',
  restsOnAllNames: true,
  reads: ['link.bar', 'isolator.parallel', 'isolator.pairs'],
  page: {
    title: 'A link on one side of a switch only',
    why: 'Two poles share the current only when both of their sides are linked. A link on one side alone leaves all of it on one pole, which then is rated for half of what one thinks.',
    limit: 'How a pole is made; common practice, no source. What poles in parallel may carry is the maker’s figure.',
    mend: 'Fit the second link on the other side, or take the first one out.',
    see: ['switch-below-fuse', 'poles-crossed', 'linked-rating-unstated'],
    wrong: [lampSpec({ out }, s1, 'link S1 1-3 # finds: bar-on-one-side "1-3"', on)],
    right: [lampSpec({ out }, s1, 'link S1 1-3, 2-4', on)],
  },
  *check({ model, answers }) {
    for (const part of new Set(model.bars.map((bar) => bar.part))) {
      const wired = (terminal: string) =>
        (answers.network.at.get(`${part.name}:${terminal}`) ?? []).some(({ is }) => is === 'core');
      const links = poleLinks(part, model);
      const done = new Set<number>();
      for (const contact of part.contacts) {
        const others = links.get(contact.pole)?.oneSided ?? [];
        if (others.length === 0 || done.has(contact.pole)) continue;
        const group = part.contacts.filter(({ pole }) => pole === contact.pole || others.includes(pole));
        for (const { pole } of group) done.add(pole);
        const bars = model.bars.filter(
          (bar) =>
            bar.part === part &&
            group.some(({ from, to }) => [from, to].includes(bar.from.spec.name)) &&
            group.some(({ from, to }) => [from, to].includes(bar.to.spec.name)),
        );
        const [bar] = bars;
        if (bar === undefined) continue;
        const onFrom = group.some(({ from }) => from === bar.from.spec.name || from === bar.to.spec.name);
        const free = group.map(({ from, to }) => (onFrom ? to : from));
        // A bar that shares one feed out over poles that each go their own way is no mistake.
        if (free.filter(wired).length > 1) continue;
        const poles = group.map(({ pole }) => pole);
        const opposite = free.join('-');
        yield {
          message: `The link ${bar.from.spec.name}-${bar.to.spec.name} joins poles ${poles.join(' and ')} of ${part.name} on one side only, so one pole still carries everything: link ${opposite} as well, or take this one out.`,
          place: bar.place,
          subject: part.name,
          figures: { poles: poles.join(' ') },
          fixes:
            free.length === 2
              ? [
                  {
                    title: `Link ${opposite} as well`,
                    safe: false,
                    edits: [{ place: endOf(bar.place), newText: `, ${opposite}` }],
                  },
                ]
              : [],
        };
      }
    }
  },
};
