/** A reading of a meter that does not fit what is worked out for what was on then. */
import { plainNumber } from '../../grammar/units.ts';
import type { CaseAnswer } from '../answers/answers.ts';
import { noInner, pathsFrom } from '../answers/paths.ts';
import type { Case, Part, Reading, Terminal } from '../model/model.ts';
import type { Edge } from '../model/network.ts';
import { lampSpec, notationsOwn } from './language.ts';
import type { Reported, Rule, RuleContext } from './rule.ts';
import { amps, volts } from './words.ts';

/** What probes, a meter and what is not known of a battery may make of a reading (common practice, no source). */
const allowed = {
  ohms: 0.5,
  ohmsRatio: 0.1,
  dropVolts: 0.1,
  dropRatio: 0.3,
  voltsOfNominal: 0.03,
  amps: 0.2,
  ampsRatio: 0.2,
};

/** From here on a voltage has a sign that is meant, and half of it is lost by no state of charge; and below `dead` none is left (common practice, no source). */
const plain = { volts: 5, share: 0.5, dead: 1 };

export const rule: Rule = {
  slug: 'reading-outside-expectation',
  severity: 'warning',
  group: 'spec',
  reads: [
    'reading.taken',
    'reading.with-sun',
    'reading.with-charge',
    'reading.with-charge-of',
    'reading.with-volts-of',
    'reading.with-all',
    'reading.with-state',
    'reading.with-ambient',
    'reading.with-conductors',
  ],
  page: {
    title: 'A reading that does not fit the wiring',
    why: 'The meter and the spec tell two stories: a joint is loose, a core broken or chafed, or the van is not wired as it is written.',
    limit: `${notationsOwn} Allowed are 0.5 Ω and a tenth more than worked out, 0.1 V and a third more along a conductor, 3 % of the nominal voltage where the batteries’ voltage or charge is said with the reading, and 0.2 A and a fifth of a current (common practice, no source). A voltage that rests on a battery whose charge is not said is found only where it is less than half of what is worked out, or written with a minus and the wrong way round, from 5 V on, or where 5 V and more stand where nothing is worked out, of which panels and other sources that the reading says nothing of are not the cause. Continuity is found where nothing joins the two, not even a load or a battery.`,
    mend: 'Look for a loose or corroded joint, a broken or chafed core and a blown fuse between the two; measure again; or correct the spec.',
    see: ['expect-not-met', 'drop-over-limit'],
    wrong: [
      lampSpec({}, 'reading 2026-04-18 F1:out to LAMP:+ 2.4 Ω # finds: reading-outside-expectation "2.4 Ω"'),
      lampSpec(
        {},
        'reading 2026-04-18 LAMP:+ 11.2 V with LAMP on, B1 at 12.5 V # finds: reading-outside-expectation "11.2 V"',
      ),
      lampSpec({}, 'reading 2026-04-18 B1:+ to LAMP:+ open # finds: reading-outside-expectation "open"'),
      lampSpec({}, 'reading 2026-04-18 LAMP:+ 0.1 V # finds: reading-outside-expectation "0.1 V"'),
      lampSpec({}, 'reading 2026-04-18 LAMP:- 12.4 V # finds: reading-outside-expectation "12.4 V"'),
      lampSpec({}, 'reading 2026-04-18 LAMP:+ to LAMP:- -12.4 V # finds: reading-outside-expectation "-12.4 V"'),
    ],
    right: [
      lampSpec(
        {},
        'reading 2026-04-18 F1:out to LAMP:+ 0.2 Ω',
        'reading 2026-04-18 LAMP:+ 12.4 V with LAMP on, B1 at 12.5 V',
      ),
      lampSpec({}, 'reading 2026-04-18 B1:+ to LAMP:+ continuity', 'reading 2026-04-18 LAMP:+ 11.2 V with LAMP on'),
      // Through the lamp and the battery.
      lampSpec({}, 'reading 2026-04-18 LAMP:+ to LAMP:- continuity'),
    ],
  },
  *check(context) {
    for (const reading of context.model.readings) {
      const found = judge(reading, context);
      if (found !== undefined) yield found;
    }
  },
};

interface Ends {
  readonly from: Terminal;
  readonly to: Terminal | undefined;
}

function judge(reading: Reading, context: RuleContext): Reported | undefined {
  const { facts, conditions } = reading;
  const end = (slot: string) => context.model.terminals.get(facts.word('taken', slot) ?? '');
  const from = end('from');
  if (from === undefined || (facts.word('taken', 'to') !== undefined && end('to') === undefined)) return undefined;
  const ends: Ends = { from, to: end('to') };
  const state = facts.word('taken', 'state');
  const way = ends.to === undefined ? undefined : wayBetween(from, ends.to, conditions, context);
  if (state !== undefined) return judgeState(state, ends, way, reading, context);
  const value = facts.number('taken', 'value');
  const atom = facts.slot('taken', 'value')?.atom;
  if (value === undefined || atom?.kind !== 'quantity') return undefined;
  switch (atom.dimension) {
    case 'resistance':
      return judgeOhms(value, ends, way, reading);
    case 'voltage':
      return judgeVolts(value, ends, way, reading, context);
    case 'current':
      return judgeAmps(Math.abs(value), ends, reading, context);
    default:
      return undefined;
  }
}

interface Way {
  /** Ohms along the conductors, where all of them are known. */
  readonly ohms: number | undefined;
}

/** The way between two terminals over what is closed; undefined where there is none. */
function wayBetween(from: Terminal, to: Terminal, one: Case, { answers }: RuleContext): Way | undefined {
  let known = true;
  const cost = (edge: Edge): number | undefined => {
    if (edge.is === 'bar') return 0;
    if (edge.is === 'body') return edge.ohms;
    if (edge.is === 'contact') return isClosed(edge, one) ? edge.ohms : undefined;
    const ohms = answers.cores.get(edge.core)?.ohms;
    if (ohms === undefined) known = false;
    return ohms ?? 0;
  };
  const ohms = pathsFrom(from, answers.network, noInner, cost, (terminal) => terminal === to).cost(to);
  return ohms === undefined ? undefined : { ohms: known ? ohms : undefined };
}

function isClosed({ part, contact }: Extract<Edge, { is: 'contact' }>, { on }: Case): boolean {
  switch (contact.operated) {
    case 'fixed':
      return true;
    case 'hand':
      return on.get(part.name) ?? true;
    case 'coil':
      return on.get(part.name) === true;
    case 'coil-rest':
      return on.get(part.name) !== true;
    default:
      return false;
  }
}

/** Whether current of a tester might go from one to the other, through whatever part: a load, a coil, a battery. */
function mayConduct(from: Terminal, to: Terminal, one: Case, { answers }: RuleContext): boolean {
  const cost = (edge: Edge) => (edge.is === 'contact' && !isClosed(edge, one) && !isLeaky(edge) ? undefined : 0);
  const across = (here: Terminal) => {
    const isContact = (name: string) =>
      here.part.contacts.some((contact) => contact.from === name || contact.to === name);
    if (isContact(here.spec.name)) return [];
    return here.part.terminals
      .filter((other) => !isContact(other.spec.name))
      .map((other) => ({ from: here, to: other }));
  };
  return pathsFrom(from, answers.network, across, cost, (terminal) => terminal === to).cost(to) !== undefined;
}

/** How a selector or a relay stood is not always said, and a diode passes one way. */
const isLeaky = ({ contact }: Extract<Edge, { is: 'contact' }>): boolean =>
  contact.operated !== 'hand' && contact.operated !== 'fixed';

function between({ from, to }: Ends): string {
  return to === undefined ? from.id : `${from.id} to ${to.id}`;
}

function reported({ facts }: Reading, ends: Ends, slot: string, says: string, figures: Reported['figures']): Reported {
  const date = facts.word('taken', 'date') ?? '';
  return {
    message: `${between(ends)} read ${facts.written('taken', slot) ?? ''} on ${date}, ${says}.`,
    place: facts.place('taken', slot),
    subject: ends.from.part.name,
    figures: figures ?? {},
  };
}

/**
 * Whether a load, a coil or a source conducts as well is not known: `open` is judged where the two are joined for certain, and
 * continuity where nothing of all that is between them.
 */
function judgeState(
  state: string,
  ends: Ends,
  way: Way | undefined,
  reading: Reading,
  context: RuleContext,
): Reported | undefined {
  if (state === 'continuity') {
    if (ends.to === undefined || way !== undefined || mayConduct(ends.from, ends.to, reading.conditions, context))
      return undefined;
    const says =
      'and by the spec nothing joins them as it stood: look for a contact that does not open, a wrong core or a chafed one; until it is found take both as live';
    return reported(reading, ends, 'state', says, {});
  }
  if (state !== 'open' || way === undefined) return undefined;
  const says =
    'and by the spec they are joined: look for a broken core, a blown fuse, or a contact that does not close, between them';
  return reported(reading, ends, 'state', says, {});
}

function judgeOhms(value: number, ends: Ends, way: Way | undefined, reading: Reading): Reported | undefined {
  if (way?.ohms === undefined || value <= way.ohms * (1 + allowed.ohmsRatio) + allowed.ohms) return undefined;
  const says = `and by the cables between them it is ${plainNumber(way.ohms, 3)} Ω: look for a loose or corroded joint there`;
  return reported(reading, ends, 'value', says, { ohms: value, expectedOhms: way.ohms });
}

function judgeVolts(
  written: number,
  ends: Ends,
  way: Way | undefined,
  reading: Reading,
  context: RuleContext,
): Reported | undefined {
  const { answers } = context;
  const along = way !== undefined;
  const answer = answers.inCase(reading.conditions);
  const [top, bottom] = [answer.volts.get(ends.from.id), ends.to === undefined ? 0 : answer.volts.get(ends.to.id)];
  if (!answer.converged || top === undefined || bottom === undefined) return undefined;
  const [value, expected] = [Math.abs(written), Math.abs(top - bottom)];
  const tell = (says: string) =>
    reported(reading, ends, 'value', says, { volts: written, expectedVolts: top - bottom });
  const isPlain = !along && expected >= plain.volts;
  // Nobody minds the order of the probes, but who writes a minus has seen it.
  if (isPlain && written <= -plain.volts && top > bottom)
    return tell(
      `and ${volts(expected)} is worked out the other way round: if the probes were right, two leads are swapped; switch nothing on behind them before that is mended`,
    );
  if (isPlain && value < plain.share * expected)
    return tell(
      `and ${volts(expected)} is worked out for what was on: look for a blown fuse or a broken core, measuring on from the source, or say what was off`,
    );
  // Taken for dead and not so: whoever trusts it gets hurt, whatever the charge is.
  if (!along && expected < plain.dead && value >= plain.volts && !isMoreLikely(ends, reading, context))
    return tell(
      isOnReturn(ends, reading, context)
        ? `and ${volts(expected)} is worked out for what was on: look for a broken core or a loose joint in its return, and take it as live until it is mended`
        : `and ${volts(expected)} is worked out for what was on: it is live, so look for a contact that does not open or what else feeds it, or say what was on`,
    );
  if (!along && !isSourceSaid(ends, answer, reading, context)) return undefined;
  const more = along ? allowed.dropVolts + allowed.dropRatio * expected : allowed.voltsOfNominal * answers.systemVolts;
  if (Math.abs(value - expected) <= more * (1 + 1e-9)) return undefined;
  // Less lost than worked out hurts nobody.
  if (along && value < expected) return undefined;
  const look = along
    ? value - expected >= plain.volts
      ? 'look for a broken core, an open fuse or contact, or a loose joint between them, and take both as live until it is mended'
      : 'look for a loose or corroded joint between them'
    : value < expected
      ? 'look for a loose joint on the way to it or from it, or for what draws besides'
      : 'look for what charges besides, or measure again';
  return tell(`and ${volts(expected)} is worked out for what was on: ${look}`);
}

/** What is joined to the minus of a battery floats up to the plus of its load where the joint is broken. */
function isOnReturn({ from, to }: Ends, { conditions }: Reading, { answers }: RuleContext): boolean {
  const cost = (edge: Edge) => (edge.is === 'contact' && !isClosed(edge, conditions) ? undefined : 0);
  const isMinus = ({ part, spec }: Terminal) => isBattery(part) && spec.name === '-';
  return [from, to].every(
    (end) => end === undefined || pathsFrom(end, answers.network, noInner, cost).reached.some(isMinus),
  );
}

/** Whether panels, an alternator or a charger that the reading says nothing of may be what feeds it. */
function isMoreLikely({ from, to }: Ends, { conditions }: Reading, { answers, model }: RuleContext): boolean {
  const unsaid = [...model.parts.values()].filter(({ name, kind, facts }) =>
    kind.behaviour.is === 'panel'
      ? conditions.sun === undefined
      : (kind.word === 'alternator' || facts.says('from-mains')) &&
        conditions.allSources === undefined &&
        !conditions.on.has(name),
  );
  if (unsaid.length === 0) return false;
  const cost = (edge: Edge) => (edge.is === 'contact' && !isClosed(edge, conditions) && !isLeaky(edge) ? undefined : 0);
  return [from, to].some(
    (end) =>
      end !== undefined &&
      pathsFrom(end, answers.network, noInner, cost).reached.some(({ part }) => unsaid.includes(part)),
  );
}

/** Whether the reading says how full every battery is, or at least those that drive its ends. */
function isSourceSaid(ends: Ends, answer: CaseAnswer, { conditions }: Reading, context: RuleContext): boolean {
  if (conditions.charge !== undefined) return true;
  const isSaid = ({ name }: Part) => conditions.voltsOf.has(name) || conditions.chargeOf.has(name);
  if ([...context.model.parts.values()].every((part) => !isBattery(part) || isSaid(part))) return true;
  const behind = [ends.from, ends.to].flatMap((end) =>
    end === undefined ? [] : batteriesBehind(end, answer, context),
  );
  return behind.length > 0 && behind.every(isSaid);
}

const isBattery = ({ kind }: Part): boolean => kind.word === 'battery';

/** Whose plus is joined to a terminal by what is closed, and those in series with them. */
function batteriesBehind(terminal: Terminal, { contacts }: CaseAnswer, { model, answers }: RuleContext): Part[] {
  const open = new Set(contacts.flatMap(({ part, pole, closed }) => (closed ? [] : `${part.name}/${pole}`)));
  const cost = (edge: Edge) =>
    edge.is === 'contact' && open.has(`${edge.part.name}/${edge.contact.pole}`) ? undefined : 0;
  const isPlus = ({ part, spec }: Terminal) => isBattery(part) && spec.name === '+';
  const toItsMinus = (from: Terminal) => {
    const to = isPlus(from) ? model.terminals.get(`${from.part.name}:-`) : undefined;
    return to === undefined ? [] : [{ from, to }];
  };
  return pathsFrom(terminal, answers.network, toItsMinus, cost)
    .reached.filter(isPlus)
    .map(({ part }) => part);
}

function judgeAmps(value: number, ends: Ends, reading: Reading, { answers }: RuleContext): Reported | undefined {
  const answer = answers.inCase(reading.conditions);
  const here = answer.cores.filter(({ core }) => core.from === ends.from || core.to === ends.from);
  if (!answer.converged || here.length === 0) return undefined;
  const expected = Math.abs(here.reduce((sum, one) => sum + (one.core.from === ends.from ? one.amps : -one.amps), 0));
  if (Math.abs(value - expected) <= allowed.amps + allowed.ampsRatio * expected) return undefined;
  const look = value > expected ? 'look for what draws besides' : 'look for what does not draw, or for a loose joint';
  return reported(reading, ends, 'value', `and ${amps(expected)} is worked out for what was on: ${look}`, {
    amps: value,
    expectedAmps: expected,
  });
}
