/** Figures of a panel that cannot all be true of one panel. */
import { pointsOf } from '../answers/panels.ts';
import { keptWith } from '../model/lazily.ts';
import type { Part } from '../model/model.ts';
import type { Layout } from '../model/network.ts';
import { isCurve } from '../physics/panel-curve.ts';
import type { Reported, Rule } from './rule.ts';
import { sunSpec } from './sun-examples.ts';
import { amps, names, volts } from './words.ts';

/** Part by which rated power and that of the figures may differ: makers round, and sort by power (common practice, no source). */
const mostApart = 0.1;

const panel = 'voc 22.5 V, isc 5.9 A, vmp 18.6 V, imp 5.4 A, voc drift -0.30 %/°C';

export const rule: Rule = {
  slug: 'panel-figures-disagree',
  severity: 'warning',
  group: 'panels',
  reads: ['panel.power', 'panel.voc', 'panel.isc', 'panel.vmp', 'panel.imp'],
  page: {
    title: 'Figures of a panel that do not go together',
    why: 'All currents and voltages of the panel side are worked out from them; a figure from another line of the data sheet makes every answer wrong.',
    limit:
      'Voltage and current at greatest power must be below those of the open and of the shorted panel, and be no less than 60 % of them, as of every diode in the sun; and make the rated power within 10 % (common practice, no source).',
    mend: 'Take all five figures from the same column of the data sheet, that of standard test conditions.',
    see: ['panels-mismatched', 'impossible-value'],
    wrong: [sunSpec({ panels: `panel P1 150 W, ${panel} # finds: panel-figures-disagree "150 W"` })],
    right: [sunSpec({ panels: `panel P1 100 W, ${panel}` })],
  },
  check: ({ answers }) => disagreeing(answers.network.layout),
};

const disagreeing = keptWith(({ parts }: Layout): readonly Reported[] => {
  const told = new Map<string, { readonly parts: Part[]; readonly found: Found }>();
  for (const part of parts) {
    const found = part.kind.behaviour.is === 'panel' ? amiss(part) : undefined;
    if (found === undefined) continue;
    const { uri, span } = part.facts.place(found.clause);
    const key = `${uri} ${span.start} ${found.why}`;
    const known = told.get(key);
    if (known === undefined) told.set(key, { parts: [part], found });
    else known.parts.push(part);
  }
  return [...told.values()].flatMap(({ parts: alike, found }) => {
    const [first] = alike;
    return first === undefined
      ? []
      : [
          {
            message: `${names(alike)}: ${found.why}; take all figures from the same column of the data sheet.`,
            place: first.facts.place(found.clause),
            subject: first.name,
            figures: found.figures,
          },
        ];
  });
});

interface Found {
  readonly clause: string;
  readonly why: string;
  readonly figures: Readonly<Record<string, number>>;
}

function amiss(part: Part): Found | undefined {
  const points = pointsOf(part);
  const { voc, isc, vmp, imp } = points;
  // A blank or missing figure is another finding's.
  if (![voc, isc, vmp, imp].every((value) => value > 0)) return undefined;
  const figures = { voc, isc, vmp, imp };
  if (vmp >= voc)
    return { clause: 'vmp', figures, why: `vmp ${volts(vmp)} is not below its open-circuit voltage, ${volts(voc)}` };
  if (imp >= isc)
    return { clause: 'imp', figures, why: `imp ${amps(imp)} is not below its short-circuit current, ${amps(isc)}` };
  if (!isCurve(points)) {
    const clause = vmp / voc < imp / isc ? 'vmp' : 'imp';
    return {
      clause,
      figures,
      why: `no panel has its greatest power at ${volts(vmp)} and ${amps(imp)} when it has ${volts(voc)} open and ${amps(isc)} shorted`,
    };
  }
  const rated = part.facts.number('power');
  const watts = vmp * imp;
  if (rated === undefined || !(rated > 0) || Math.abs(rated - watts) <= mostApart * rated) return undefined;
  return {
    clause: 'power',
    figures: { ...figures, rated, watts },
    why: `it says ${Math.round(rated)} W, but ${volts(vmp)} times ${amps(imp)} is ${Math.round(watts)} W`,
  };
}
