/** Panel strings in parallel that the others can drive backwards by more than the maker's series fuse, with no fuse of their own. */
import type { Part } from '../model/model.ts';
import { stringFuseAmps, stringFuseFactors } from '../tables/sizes.ts';
import { exceeds } from './exceeds.ts';
import { example } from './language.ts';
import { type PanelString, parallelStrings } from './panel-strings.ts';
import type { Reported, Rule } from './rule.ts';
import { amps, names } from './words.ts';

const panel = 'panel P1 60 W, voc 22.0 V, isc 3.6 A, vmp 18.2 V, imp 3.3 A';

/** Three strings of one panel each, joined at two splices before the controller; what the first says, and the way of its plus. */
export function array(seriesFuse: string, ...third: string[]) {
  return example(
    'system "Shed" 12 V',
    `${panel}, most series fuse ${seriesFuse}`,
    `${panel.replace('P1', 'P2 and P3')}, most series fuse 15 A`,
    'splice JP and JN',
    'controller U1 mppt, pv 100 V 20 A, output 15 A, common negative',
    'fuse F1 20 A, blade, 32 V',
    'battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ',
    ...third,
    'run W2 6 mm² red, 2 m, P2:+ to JP',
    'run W3 6 mm² red, 2 m, P3:+ to JP',
    'run W4 6 mm² black, 2 m, P1:- to JN',
    'run W5 6 mm² black, 2 m, P2:- to JN',
    'run W6 6 mm² black, 2 m, P3:- to JN',
    'isolator QP 1 pole, 25 A dc, 60 V, category DC-PV2',
    'run W7 6 mm² red, 3 m, JP to QP:1',
    'run W13 6 mm² red, 1 m, QP:2 to U1:pv+',
    'run W8 6 mm² black, 3 m, JN to U1:pv-',
    'run W9 6 mm² red, 0.4 m, U1:bat+ to F1:out',
    'run W10 6 mm² red, 0.2 m, F1:in to B1:+',
    'run W11 6 mm² black, 0.4 m, U1:bat- to B1:-',
  );
}

const straight = 'run W1 6 mm² red, 2 m, P1:+ to JP';
const weak = '6 A # finds: string-fuse-needed "P1"';

export const rule: Rule = {
  slug: 'string-fuse-needed',
  severity: 'error',
  group: 'protection',
  reads: ['panel.isc', 'panel.most-series-fuse', 'fuse.rating', 'breaker.rating', 'run.ends'],
  page: {
    title: 'A panel string that the others can drive backwards',
    why: 'When one string fails or lies in the shade, those in parallel push their current backwards through it. Above what its maker allows, its cells and connectors burn, on the roof and out of sight.',
    limit:
      'The short-circuit currents of all other strings in parallel together must not be above the largest series fuse that the panel’s maker allows, else each string has a fuse of its own, rated above 1.5 and below 2.4 times the short-circuit current of its panels and no more than their maker allows (IEC 62548, string overcurrent protection, confirmed). Where the maker’s figure is not stated, two strings pass and three or more are told of (common practice, no source).',
    mend: 'Fit a d.c. fuse for panel circuits into each such string, at least 1.5 times its short-circuit current so that sun alone never blows it, and no larger than the maker allows, or put the panels in series where the controller’s voltage allows it.',
    wrong: [array(weak, straight)],
    right: [
      array('10 A', straight),
      array(
        '6 A',
        'fuse F2 6 A, cartridge, 125 V',
        'run W1 6 mm² red, 2 m, P1:+ to F2:in',
        'run W12 6 mm² red, 1 m, F2:out to JP',
      ),
    ],
    see: ['string-fuse-too-large', 'switch-below-load', 'cable-too-small'],
  },
  *check(context) {
    for (const strings of parallelStrings(context)) {
      const bare = strings.filter(({ fused }) => !fused);
      for (const one of bare) yield* judge(one, strings);
      const unsaid = bare.filter(({ mostSeriesFuseAmps }) => mostSeriesFuseAmps === undefined);
      if (unsaid.length > 0 && strings.length >= 3) yield judgeUnsaid(unsaid, strings);
    }
  },
};

/** A string of which the maker's figure is stated. */
function* judge(one: PanelString, strings: readonly PanelString[]): Generator<Reported> {
  const others = strings.filter((other) => other !== one);
  const reverseAmps = sum(others);
  const { panels, mostSeriesFuseAmps: most } = one;
  const [first] = panels;
  if (first === undefined || most === undefined || !exceeds(reverseAmps, most)) return;
  const parallel = others.flatMap((other) => other.panels);
  const who = parallel.length <= 4 ? names(parallel) : `${others.length} other strings`;
  const own = fuseFor(one);
  yield {
    message: `${who[0]?.toUpperCase()}${who.slice(1)} in parallel can drive ${amps(reverseAmps)} backwards through ${names(panels)}, whose maker allows a series fuse of ${amps(most)} at most: ${own === undefined ? noFuse(one, most) : `fuse this string with ${own} (IEC 62548)`}.`,
    place: first.namePlace,
    subject: first.name,
    figures: { reverseAmps, strings: strings.length, mostSeriesFuseAmps: most },
    related: parallel
      .slice(0, 4)
      .map((part) => ({ message: `${part.name} is in parallel with it`, place: part.namePlace })),
  };
}

/** All strings of which no figure is stated: what lacks is the same for each, and is told at the first. */
function judgeUnsaid(unsaid: readonly PanelString[], strings: readonly PanelString[]): Reported {
  const [first, ...more] = unsaid.flatMap(({ panels }) => panels) as [Part, ...Part[]];
  const reverseAmps = Math.max(...unsaid.map((one) => sum(strings.filter((other) => other !== one))));
  const fuses = [...new Set(unsaid.map(fuseFor))];
  const own =
    fuses.length === 1 && fuses[0] !== undefined
      ? fuses[0]
      : `${stringFuseFactors.least} to ${stringFuseFactors.most} times its short-circuit current`;
  const who =
    unsaid.length === 1
      ? `${names([first, ...more])} has`
      : `${countOf(unsaid, strings)} panel strings in parallel have`;
  const driven = unsaid.length === 1 ? 'it' : 'one that fails';
  return {
    severity: 'warning',
    message: `${who} no fuse, so the others drive ${amps(reverseAmps)} backwards through ${driven}: state what its maker allows, such as most series fuse 15 A, or fit one in each string, ${own} (IEC 62548).`,
    place: first.namePlace,
    subject: first.name,
    figures: { reverseAmps, strings: strings.length },
    related: [
      ...more.slice(0, 4).map((part) => ({ message: `${part.name} is one of their panels`, place: part.namePlace })),
      {
        message: 'That it is told of from three strings on is common practice, no source',
        place: first.namePlace,
      },
    ],
  };
}

const countOf = (some: readonly unknown[], all: readonly unknown[]): string =>
  some.length === all.length ? `${all.length}` : `${some.length} of ${all.length}`;

const sum = (strings: readonly PanelString[]): number =>
  strings.reduce((total, { shortCircuitAmps }) => total + shortCircuitAmps, 0);

/** `6 A or 8 A, which is 1.5 to 2.4 times its 3.6 A`; undefined where the maker allows none of that range. */
export function fuseFor({ shortCircuitAmps, mostSeriesFuseAmps: most = Infinity }: PanelString): string | undefined {
  const least = stringFuseFactors.least * shortCircuitAmps;
  const greatest = stringFuseFactors.most * shortCircuitAmps;
  if (!(least < most)) return undefined;
  const sizes = stringFuseAmps.filter((size) => size > least && size < greatest && size <= most);
  const range = `${stringFuseFactors.least} to ${stringFuseFactors.most} times its ${amps(shortCircuitAmps)}${most < greatest ? ` and at most ${amps(most)}` : ''}`;
  return sizes.length === 0
    ? `of ${range}`
    : `${sizes
        .map(amps)
        .join(', ')
        .replace(/, (?=[^,]*$)/, ' or ')}, which is ${range}`;
}

function noFuse({ shortCircuitAmps }: PanelString, most: number): string {
  const least = stringFuseFactors.least * shortCircuitAmps;
  return `no fuse is above ${amps(least)} (${stringFuseFactors.least} times its ${amps(shortCircuitAmps)}, IEC 62548) and at most ${amps(most)}, so check the maker’s figure, or put the panels in series where the controller allows it`;
}
