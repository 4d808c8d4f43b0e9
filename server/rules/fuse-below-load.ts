/** A device, or a controller's load output, rated below the design current of what it feeds. */
import type { ContactFigures, ShortCurrent } from '../answers/answers.ts';
import { usualCrankingSeconds } from '../answers/duty.ts';
import { type Held, type Holding, held } from '../answers/holding.ts';
import { cite } from '../tables/table.ts';
import { exceeds } from './exceeds.ts';
import { lampSpec } from './language.ts';
import { largerDevice, lessLoad } from './larger-device.ts';
import { excessOf, overloadedOutputs } from './overloaded-outputs.ts';
import { ratingPlace } from './rating-place.ts';
import type { Reported, Rule, RuleContext } from './rule.ts';
import { amps, deviceName, forTime, names, seconds, takes } from './words.ts';

export const rule: Rule = {
  slug: 'fuse-below-load',
  severity: 'warning',
  group: 'protection',
  reads: [
    'fuse.rating',
    'breaker.rating',
    'fusebox.way',
    'fuse.operates',
    'fuse.style',
    'load.power',
    'load.lowest',
    'load.surge',
    'load.for',
    'load.cranking',
    'load.most-fuse',
    'inverter.surge',
    'inverter.efficiency',
    'system.limits',
  ],
  page: {
    title: 'A fuse that its own load will blow',
    why: 'It blows in ordinary use, on the night it is needed, and the next one put in is a larger one.',
    limit:
      'Ib ≤ In: the design current must not be above the device’s rating (IEC 60364-4-43 clause 433.1, confirmed). A load in watts takes more current the lower its voltage: it is reckoned at its lowest stated voltage, else at 0.875 of nominal (common practice, no source). What flows for a time only (`surge`, `for`) may be above the rating as long as the device holds it by its time-current curve: as its maker states it with `operates`, else by the gates of its body style, which are from memory (ISO 8820-3, ISO 8820-5). Between the soonest and the latest time of a gate it may open, which is advice. Where the maker of what it feeds allows no larger one (`most fuse`), that it may open is not told: its maker knows what it takes. A fuse that is warm already opens sooner than its curve says. The load output of a controller gives what its maker states and no more, whatever fuse is before it.',
    mend: 'Fit the next larger fuse that the cable allows; if the cable does not allow it, the cable is too small for the load, and both must be larger.',
    see: [
      'cable-too-small',
      'switch-below-load',
      'fuse-breaking-capacity',
      'fuse-hot',
      'fuse-odd-rating',
      'fusebox-total',
    ],
    wrong: [
      lampSpec({
        fuse: 'fuse F1 5 A, blade, 32 V # finds: fuse-below-load "5 A"',
        load: 'load LAMP 60 W, lowest 10.5 V',
        out: 'run W2 2.5 mm² red, 1.2 m, F1:out to LAMP:+',
      }),
      lampSpec({
        fuse: 'fuse F1 5 A, blade, 32 V # finds: fuse-below-load "5 A"',
        load: 'load LAMP 4 A, surge 25 A for 1 s',
        out: 'run W2 2.5 mm² red, 1.2 m, F1:out to LAMP:+',
      }),
      lampSpec(
        {
          load: 'load LAMP 60 W, lowest 10.5 V',
          out: 'run W2 1.5 mm² red, 1 m, F1:out to U1:bat+',
          back: 'run W3 1.5 mm² black, 1 m, LAMP:- to U1:load-',
        },
        'panel P1 20 W, voc 22 V, isc 1.2 A, vmp 18 V, imp 1.1 A',
        'controller U1 pwm, pv 50 V 5 A, output 3 A, load output 3 A # finds: fuse-below-load "load output 3 A"',
        'isolator QP 2 poles, 25 A dc, 60 V, category DC-PV2',
        'run W4 1.5 mm² red, 3 m, P1:+ to QP:1',
        'run W5 1.5 mm² black, 3 m, P1:- to QP:3',
        'run W20 1.5 mm² red, 1 m, QP:2 to U1:pv+',
        'run W21 1.5 mm² black, 1 m, QP:4 to U1:pv-',
        'run W6 1.5 mm² black, 1 m, U1:bat- to B1:-',
        'run W7 1.5 mm² red, 1 m, U1:load+ to LAMP:+',
      ),
    ],
    right: [
      lampSpec({
        fuse: 'fuse F1 10 A, maxi-blade, 32 V',
        load: 'load LAMP 5 A, surge 25 A for 1 s',
        out: 'run W2 2.5 mm² red, 1.2 m, F1:out to LAMP:+',
      }),
      lampSpec({
        fuse: 'fuse F1 20 A, bolt-in, 58 V',
        load: 'load LAMP 24 A, for 30 s',
        out: 'run W2 4 mm² red, 1.2 m, F1:out to LAMP:+',
        back: 'run W3 4 mm² black, 1.3 m, LAMP:- to B1:-',
      }),
      lampSpec({
        fuse: 'fuse F1 7.5 A, blade, 32 V',
        load: 'load LAMP 60 W, lowest 10.5 V',
        out: 'run W2 2.5 mm² red, 1.2 m, F1:out to LAMP:+',
      }),
    ],
  },
  *check(context): Iterable<Reported> {
    const { model, answers } = context;
    const outputs = overloadedOutputs(model, answers);
    for (const { part, rating, amps: taken, loads, largest, place } of outputs) {
      const who = loads.length <= 3 ? names(loads) : `${loads.length} loads`;
      yield {
        message: `The load output of ${part.name} is rated ${amps(rating)}, but ${who} on it can take ${amps(taken)}, so it will switch off or burn: feed ${largest?.name ?? 'the largest of them'} from the battery with a fuse of its own.`,
        place,
        subject: part.name,
        figures: { outputAmps: rating, designAmps: taken },
        related: loads.slice(0, 4).map((load) => ({ message: `${load.name} is fed from it`, place: load.namePlace })),
      };
    }
    for (const contacts of answers.contacts.values()) {
      for (const contact of contacts) {
        const { part, pole, device, onPanelSide } = contact;
        if (device?.amps === undefined || device.blank || onPanelSide) continue;
        const { directions } = answers;
        if (
          !exceeds(directions.mostOfContact(part, pole, device.amps), device.amps) &&
          directions.cranking.length === 0
        )
          continue;
        const { feeds } = contact;
        const { lastingAmps: designAmps } = directions.ofContact(part, pole);
        // A larger fuse is no help to an output that is overloaded: with that mended, does this one bear the rest?
        if (!exceeds(designAmps - excessOf(contact, outputs), device.amps)) {
          if (!exceeds(designAmps, device.amps)) yield* goesInShort(contact, device.amps, context);
          continue;
        }
        const rating = device.amps;
        const larger = largerDevice(contact, context);
        const mend =
          larger === undefined
            ? isLoneOfStyle(contact)
              ? 'fit a larger one of another style'
              : 'share the load over several circuits'
            : `${larger.words}${lessLoad(contact, larger.hindrances)}`;
        yield {
          message: `${deviceName(part, pole)} is ${amps(rating)}, but ${takes(contact, designAmps)}, so it will blow in ordinary use: ${mend}.`,
          place: ratingPlace(contact),
          subject: part.name,
          figures: { deviceAmps: rating, designAmps, pole },
          related: feeds.slice(0, 4).map((load) => ({ message: `${load.name} is fed from it`, place: load.namePlace })),
          fixes: larger?.fixes ?? [],
        };
      }
    }
  },
};

/** Whether it feeds one load alone, and another style may be made for more. */
function isLoneOfStyle({ part, feeds }: ContactFigures): boolean {
  return feeds.length === 1 && part.facts.word('style') !== undefined;
}

interface Short {
  readonly current: ShortCurrent;
  readonly held: Held;
}

/** Worst first: what surely opens it, what may, what nobody can tell. */
const fromWorst: readonly Holding[] = ['opens', 'may open', 'not known', 'holds'];

/** A current that flows for a time, longer than the device holds it by its curve. */
function* goesInShort(contact: ContactFigures, rating: number, context: RuleContext): Iterable<Reported> {
  const { part, pole } = contact;
  const { runs, timedStarts, cranks } = context.answers.directions.ofContact(part, pole);
  const all = [...runs, ...timedStarts, ...cranks].map(
    (current): Short => ({ current, held: held(part, rating, current) }),
  );
  const [worst] = all
    // What a load takes for a moment is no matter to a device of which no curve is known.
    .filter(
      ({ current: { is }, held: { holding } }) => holding !== 'holds' && (holding !== 'not known' || is === 'runs'),
    )
    .sort((one, other) => fromWorst.indexOf(one.held.holding) - fromWorst.indexOf(other.held.holding));
  if (worst === undefined) return;
  const { current } = worst;
  const { holding, time, from, seconds: lasts, assumed } = worst.held;
  const taken = Math.abs(current.amps);
  const larger = largerDevice(contact, context);
  const appliance = larger?.hindrances.find(({ is }) => is === 'appliance');
  // The maker of what it feeds chose that rating, and knows what it takes when it starts.
  if (holding !== 'opens' && appliance !== undefined && rating >= appliance.amps) return;
  const name = deviceName(part, pole);
  const flows = `${name} is ${amps(rating)}, but ${amps(taken)} flow through it ${forTime({ ...current, seconds: lasts })}`;
  const by = from === undefined || from === 'stated' ? 'its curve' : cite(from);
  const goes =
    holding === 'opens'
      ? `, and it opens within ${seconds(time?.most ?? 0)} at that by ${by}`
      : holding === 'may open'
        ? `, and it may open after ${seconds(time?.least ?? 0)} at that by ${by}`
        : ', and nothing tells how long it holds that';
  const fit =
    larger?.words ??
    (isLoneOfStyle(contact) ? 'fit one of another style that holds it' : 'give it a circuit of its own');
  const stated = part.kind.word === 'fuse' && from !== 'stated' ? ', or say with operates what its maker states' : '';
  const guess = assumed
    ? ` How long it cranks is not said, so ${usualCrankingSeconds} s is assumed (common practice, no source): say it with for.`
    : '';
  yield {
    // What it only may do, or what rests on a time that nobody stated, is worth knowing and no more.
    ...(holding === 'may open' || assumed ? { severity: 'advice' as const } : {}),
    message: `${flows}${goes}: ${fit}${holding === 'opens' ? '' : stated}.${guess}`,
    place: ratingPlace(contact),
    subject: part.name,
    figures: {
      deviceAmps: rating,
      takenAmps: taken,
      ...(lasts === undefined ? {} : { takenSeconds: lasts }),
      ...(time === undefined || !Number.isFinite(time.least) ? {} : { opensAfterSeconds: time.least }),
      ...(time === undefined || !Number.isFinite(time.most) ? {} : { opensWithinSeconds: time.most }),
      pole,
    },
    related: current.loads
      .slice(0, 4)
      .map((load) => ({ message: `${load.name} is what takes it`, place: load.namePlace })),
    fixes: larger?.fixes ?? [],
  };
}
