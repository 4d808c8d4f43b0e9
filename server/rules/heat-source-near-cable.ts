/** A cable along something hot, of which it is not said how hot it gets. */
import { lampSpec } from './language.ts';
import type { Rule } from './rule.ts';
import { inDegrees } from './words.ts';

const out = (insulation: string) => `run W2 1.5 mm² red, ${insulation}1.2 m, along STOVE, F1:out to LAMP:+`;

/** Insulation that bears what is usual beside a heater’s duct (common practice, no source). */
const enoughCelsius = 90;

export const rule: Rule = {
  slug: 'heat-source-near-cable',
  severity: 'warning',
  group: 'cable',
  reads: ['place.heat-source', 'place.temperature', 'run.along', 'run.insulation'],
  page: {
    title: 'A cable along something hot',
    why: 'Beside a heater, its duct or an exhaust a cable gets warmer than the air of the place. Ordinary insulation softens there and turns brittle.',
    limit: `Where a place has a heat source and its temperature is stated, that decides what the cable carries. Where it is not, the insulation should bear ${enoughCelsius} °C at least (common practice, no source).`,
    mend: 'Lay the cable away from it, take insulation of a higher temperature and state it, or measure how warm the place gets and say so: `place STOVE heat source, 60 °C`.',
    see: ['cable-too-small'],
    wrong: [
      lampSpec({ out: `${out('')} # finds: heat-source-near-cable "STOVE"` }, 'place STOVE heat source'),
      lampSpec({ out: `${out('89 °C, ')} # finds: heat-source-near-cable "STOVE"` }, 'place STOVE heat source'),
    ],
    right: [
      lampSpec({ out: out('90 °C, ') }, 'place STOVE heat source'),
      lampSpec({ out: out('') }, 'place STOVE heat source, 45 °C'),
    ],
  },
  ofRun(run, { degrees }) {
    const hot = run.along.find(
      ({ location }) => location?.facts.says('heat-source') === true && location.celsius === undefined,
    );
    if (hot?.location === undefined) return undefined;
    const { location } = hot;
    const stated = run.insulationCelsius;
    if (stated !== undefined && stated >= enoughCelsius) return undefined;
    const insulation =
      stated === undefined ? 'its insulation is not stated' : `its insulation bears only ${inDegrees(stated, degrees)}`;
    return {
      message: `${run.name} lies along ${location.name}, beside something hot, and ${insulation}: take a cable for ${inDegrees(enoughCelsius, degrees)} or more, lay it elsewhere, or say how warm ${location.name} gets.`,
      place: hot.place,
      subject: run.name,
      figures: {
        place: location.name,
        leastCelsius: enoughCelsius,
        ...(stated === undefined ? {} : { insulationCelsius: stated }),
      },
      related: [{ message: `${location.name} has a heat source`, place: location.facts.place('heat-source') }],
    };
  },
};
