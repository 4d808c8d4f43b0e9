/** Panels that reach a battery with no charge controller between. */
import type { StringFigures } from '../answers/strings.ts';
import { keptWhile } from '../model/lazily.ts';
import type { Part } from '../model/model.ts';
import type { Layout, Network } from '../model/network.ts';
import { exceeds } from './exceeds.ts';
import { lampSpec } from './language.ts';
import { reach } from './reach.ts';
import type { Rule } from './rule.ts';
import { amps, names } from './words.ts';

const charged = (battery: string, panel: string, amount: string, found = '') =>
  lampSpec(
    { battery, fuse: 'fuse F1 5 A, blade, 32 V, breaks 5 kA' },
    `panel P1 ${panel}, voc 22 V, isc ${amount}, vmp 18 V, imp ${amount.replace('.9', '.7')}${found}`,
    'fuse F2 15 A, bolt-in, 58 V, breaks 5 kA',
    'run W4 6 mm² red, 2 m, P1:+ to F2:out',
    'run W5 6 mm² red, 0.1 m, F2:in to B1:+',
    'run W6 6 mm² black, 2 m, P1:- to B1:-',
  );

/** Of a lead-acid battery's capacity, per hour: what little a panel may give for ever (common practice, no source). */
const harmlessShare = 1 / 100;

export const rule: Rule = {
  slug: 'panel-without-controller',
  severity: 'error',
  group: 'panels',
  reads: ['panel.isc', 'battery.capacity', 'battery.chemistry', 'run.ends'],
  page: {
    title: 'A panel straight on a battery',
    why: 'A panel gives current as long as the sun shines, and drives a battery far above the voltage it may have. Lead-acid gases and dries out; lithium is cut off by its own protection at best, and burns at worst.',
    limit: `Between panels and a battery stands a controller, whatever fuses, switches and diodes there are. Of lead-acid batteries alone, panels that give no more in short circuit than a hundredth of the capacity per hour, ${harmlessShare * 100} A for 100 Ah, may do without (common practice, no source).`,
    mend: 'Put a controller between: panels on its pv terminals, the battery on its bat terminals. Panels are live in daylight: cover them or open their isolator before you work on them.',
    see: ['pv-below-charging-voltage', 'charge-current-over-battery', 'no-isolation'],
    wrong: [
      charged(
        'battery B1 lithium-iron-phosphate, 12.8 V, 100 Ah, internal 15 mΩ',
        '103 W',
        '5.9 A',
        ' # finds: panel-without-controller "P1"',
      ),
      charged(
        'battery B1 agm, 12 V, 80 Ah, internal 15 mΩ',
        '13 W',
        '0.9 A',
        ' # finds: panel-without-controller "P1"',
      ),
    ],
    right: [charged('battery B1 agm, 12 V, 100 Ah, internal 15 mΩ', '13 W', '0.9 A')],
  },
  *check({ answers: { strings, network } }) {
    for (const { panels, batteries } of straightOn(strings.strings, network)) {
      const given = panels.reduce((sum, one) => sum + Math.max(one.shortCircuitAmps, 0), 0);
      const isLead = batteries.every(({ facts }) => !(facts.word('chemistry') ?? '').startsWith('lithium'));
      const hours = batteries.reduce((sum, { facts }) => sum + (facts.number('capacity') ?? 0) / 3600, 0);
      if (isLead && !exceeds(given, hours * harmlessShare)) continue;
      const all = panels.flatMap((one) => one.panels);
      const [first] = all;
      if (first === undefined) continue;
      const them = all.length > 1 ? 'them' : 'it';
      yield {
        message: `${names(all)} ${all.length > 1 ? 'give' : 'gives'} up to ${amps(given)} to ${names(batteries)} with no controller between, so nothing ends the charge when ${names(batteries)} ${batteries.length > 1 ? 'are' : 'is'} full: put a controller between ${them} and ${names(batteries)}.`,
        place: first.namePlace,
        subject: first.name,
        figures: { amps: given },
        related: batteries.map((battery) => ({ message: `${battery.name} stands here`, place: battery.namePlace })),
      };
    }
  },
};

interface Straight {
  readonly panels: readonly StringFigures[];
  readonly batteries: readonly Part[];
}

const kept = keptWhile<Layout, readonly Straight[]>();

/** Strings that feed no controller, by the batteries at the end of their plus. */
function straightOn(strings: readonly StringFigures[], network: Network): readonly Straight[] {
  return kept(network.layout, [strings], () => {
    const found = new Map<string, { panels: StringFigures[]; batteries: Part[] }>();
    for (const string of strings) {
      const plus = string.panels.at(-1)?.terminals.find(({ spec }) => spec.polarity === '+');
      if (plus === undefined || string.controller !== undefined) continue;
      const batteries = [...reach(plus, network, () => true)]
        .filter(({ part, spec }) => part.kind.word === 'battery' && spec.polarity === '+')
        .map(({ part }) => part);
      if (batteries.length === 0) continue;
      const key = batteries
        .map(({ name }) => name)
        .sort()
        .join(' ');
      const same = found.get(key);
      if (same === undefined) found.set(key, { panels: [string], batteries });
      else same.panels.push(string);
    }
    return [...found.values()];
  });
}
