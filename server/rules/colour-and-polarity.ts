/** Colours that tell the wrong pole, change along a conductor, or are the same out and back. */
import { keptWith } from '../model/lazily.ts';
import type { Core, Part, Run, Terminal } from '../model/model.ts';
import type { Island, Layout, Network } from '../model/network.ts';
import { lampSpec } from './language.ts';
import { onlyEmptyOn } from './meant-terminal.ts';
import { type Pole, polesOf } from './poles.ts';
import { crossedParts } from './poles-crossed.ts';
import type { Fix, Reported, Rule, RuleContext } from './rule.ts';

export const rule: Rule = {
  slug: 'colour-and-polarity',
  severity: 'warning',
  group: 'cable',
  restsOnAllNames: true,
  reads: ['run.colour', 'run.ends', 'cable.colour', 'system.limits'],
  page: {
    title: 'Colours that tell the wrong pole',
    why: 'Whoever mends the van in five years goes by the colours: a red wire on the negative gets a fuse and a switch of its own, or is joined to the battery’s plus.',
    limit:
      'Red is plus, and nothing else; black is minus; green/yellow is for bonds alone (IEC 60445 and ISO 10133, from memory). With `nec-310` black may be a plus, as vehicles wired by it have it. A colour stays the same from end to end, and out and back differ (common practice, no source). Other colours are free.',
    mend: 'Take cable of the right colour, or mark both its ends with sleeves and say the colour of the sleeves.',
    see: ['polarity-reversed', 'mains-colours-on-dc'],
    wrong: [
      lampSpec({ back: 'run W3 1.5 mm² red, 1.3 m, LAMP:- to B1:- # finds: colour-and-polarity "red"' }),
      lampSpec({ out: 'run W2 1.5 mm² black, 1.2 m, F1:out to LAMP:+ # finds: colour-and-polarity "black"' }),
      lampSpec(
        { out: 'run W2 1.5 mm² red, 1.2 m, F1:out to J' },
        'splice J',
        'run W4 1.5 mm² violet, 1 m, J to LAMP:+ # finds: colour-and-polarity "violet"',
      ),
      lampSpec({
        out: 'run W2 1.5 mm² blue, 1.2 m, F1:out to LAMP:+',
        back: 'run W3 1.5 mm² blue, 1.3 m, LAMP:- to B1:- # finds: colour-and-polarity "blue"',
      }),
      lampSpec(
        {},
        'load FAN 3 A',
        'run W4 1.5 mm² black, 1 m, FAN:- to F1:out # finds: colour-and-polarity "F1:out"',
        'run W5 1.5 mm² red, 1 m, FAN:+ to F1:out',
      ),
    ],
    right: [
      lampSpec(),
      lampSpec({
        out: 'run W2 1.5 mm² orange, 1.2 m, F1:out to LAMP:+',
        back: 'run W3 1.5 mm² blue, 1.3 m, LAMP:- to B1:-',
      }),
    ],
  },
  *check(context) {
    const poleOf = polesOf(context);
    const isSound = soundness(context);
    // A part that is the wrong way round is told of as that.
    const reversed = new Set(context.answers.miswirings.reversed.map(({ port }) => port.part));
    const isAt = ({ from, to }: Core) => [from, to].some((end) => end !== undefined && reversed.has(end.part));
    const told = new Set<Core>();
    const { limits, network } = context.answers;
    const set = limits.base ?? limits.id;
    const right = rightIn(network.layout);
    for (const run of context.model.runs.values()) {
      if (right.get(run) === set) continue;
      const seemsWrong = run.cores.filter((core) => isWrong(core, poleOf(core), set));
      if (seemsWrong.length === 0) right.set(run, set);
      const wrong = seemsWrong.filter((core) => isSound(core) && !isAt(core));
      const [first] = wrong;
      if (first === undefined) continue;
      for (const core of wrong) told.add(core);
      yield wrongPole(first, wrong, poleOf(first), context);
    }
    for (const one of [...sameOutAndBack(context, poleOf, told), ...changing(context, poleOf, told)])
      if (isSound(one.core)) yield one.reported;
  },
};

/**
 * Where a source is the wrong way round, shorted or a switch crossed over, that is told of, and nothing can be said of colours.
 * Looked into only once a colour seems wrong.
 */
function soundness(context: RuleContext): (core: Core) => boolean {
  const { network, miswirings } = context.answers;
  let upset: ReadonlySet<Terminal> | undefined;
  const find = () => {
    const crossed = crossedParts(context.model, network);
    const isUpset = ({ parts, terminals }: Island) =>
      parts.some(({ name }) => crossed.has(name)) || terminals.some((terminal) => miswirings.isUpset(terminal));
    return new Set(network.layout.islands.filter(isUpset).flatMap(({ terminals }) => terminals));
  };
  return ({ from, to }) => {
    upset ??= find();
    const end = from ?? to;
    return end !== undefined && !upset.has(end);
  };
}

/** Runs whose colours are right where they are joined, with the set of limits that they are right by. */
const rightIn = keptWith((_: Layout) => new WeakMap<Run, string>());

function isWrong({ colour, spare }: Core, pole: Pole | undefined, set: string): boolean {
  if (spare || pole === undefined) return false;
  if (pole === 'minus') return colour === 'red';
  return colour === 'green/yellow' || (colour === 'black' && set !== 'nec-310');
}

function wrongPole(core: Core, wrong: readonly Core[], pole: Pole | undefined, context: RuleContext): Reported {
  const { model } = context;
  const { run, colour = '' } = core;
  // Its colour is right for the part that it ends on, so it is the other end that is wrong.
  const own = [core.from, core.to].find((end) => end?.spec.polarity === (pole === 'plus' ? '-' : '+'));
  const other = core.from === own ? core.to : core.from;
  if (wrong.length === 1 && own !== undefined && other !== undefined) {
    const [is, belongs] = pole === 'plus' ? ['positive', 'negative'] : ['negative', 'positive'];
    const place = core.from === own ? core.toPlace : core.fromPlace;
    const meant = onlyEmptyOn(pole === 'plus' ? 'minus' : 'plus', context)?.id;
    return {
      message: `The ${colour} core of ${run.name} joins ${own.id} to ${other.id}, which is on the ${is}: move that end to ${meant === undefined ? `the ${belongs}` : `${meant}, which nothing reaches`}.`,
      place: place ?? run.namePlace,
      subject: run.name,
      figures: { colour, pole: is ?? '', part: own.part.name, ...(meant === undefined ? {} : { meant }) },
      fixes:
        meant === undefined || place === undefined
          ? []
          : [{ title: `Move it to ${meant}`, safe: false, edits: [{ place, newText: meant }] }],
    };
  }
  const swapped = wrong.length > 1 && new Set(wrong.map((one) => one.colour)).size > 1;
  const use = pole === 'plus' ? 'red' : 'black';
  const named = model.runs.get(run.name)?.cores.length === 1 ? run.name : `A core of ${run.name}`;
  const message = swapped
    ? `The colours of ${run.name} are swapped: black is on the positive and red on the negative; change them over, or mark their ends.`
    : `${named} is ${colour} and belongs to the ${pole === 'plus' ? 'positive' : 'negative'}, where ${meaning(colour)}: use ${use}, or mark both its ends.`;
  return {
    message,
    place: core.colourPlace ?? run.namePlace,
    subject: run.name,
    figures: { colour, pole: pole === 'plus' ? 'positive' : 'negative' },
    fixes: swapped || wrong.length > 1 ? [] : fixesFor(core, use),
  };
}

function meaning(colour: string): string {
  if (colour === 'red') return 'everybody takes red for the positive';
  return colour === 'black' ? 'everybody takes black for the negative' : 'green/yellow is for bonds alone';
}

/** What is told of a core, if its wiring is sound. */
interface Told {
  readonly core: Core;
  readonly reported: Reported;
}

/** Only a colour that stands in the run itself: one of a stock is that of other runs too. */
function fixesFor({ colour, colourPlace, run }: Core, use: string): Fix[] {
  const written = run.facts.fact('colour');
  if (colourPlace === undefined || written === undefined || written.fromStock !== undefined || colour === use)
    return [];
  return [{ title: `Use ${use}`, safe: false, edits: [{ place: colourPlace, newText: use }] }];
}

function coloured({ colour, spare }: Core): boolean {
  return colour !== undefined && !spare;
}

/** Cores by their joint: those at both ends of loads, and pairs that go on as one another at a splice or plug. */
interface Meeting {
  readonly loads: readonly { readonly part: Part; readonly out: readonly number[]; readonly back: readonly number[] }[];
  readonly pairs: readonly { readonly id: string; readonly cores: readonly [number, number] }[];
}

const meetingIn = keptWith(({ parts, joints }: Layout): Meeting => {
  const at = new Map<Terminal | undefined, number[]>();
  for (const { is, from, to, index } of joints) {
    if (is !== 'core') continue;
    for (const end of from === to ? [from] : [from, to]) {
      const here = at.get(end);
      if (here === undefined) at.set(end, [index]);
      else here.push(index);
    }
  }
  const on = ({ terminals }: Part, sign: '+' | '-') =>
    at.get(terminals.find(({ spec }) => spec.polarity === sign)) ?? [];
  return {
    loads: parts
      .filter(({ kind }) => kind.behaviour.is === 'load')
      .map((part) => ({ part, out: on(part, '+'), back: on(part, '-') })),
    pairs: parts
      .filter(({ kind }) => kind.word === 'splice' || kind.word === 'connector')
      .flatMap(({ terminals }) => terminals)
      .flatMap((terminal) => {
        const [one, other, ...more] = at.get(terminal) ?? [];
        if (one === undefined || other === undefined || more.length > 0) return [];
        return [{ id: terminal.id, cores: [one, other] as const }];
      }),
  };
});

function coreAt({ edges }: Network, joint: number): Core | undefined {
  const edge = edges[joint];
  return edge?.is === 'core' ? edge.core : undefined;
}

/** A core out and one back that have one colour; none where all differ. */
function sameColours(out: readonly number[], back: readonly number[], network: Network): readonly [Core?, Core?] {
  for (const joint of back) {
    const minus = coreAt(network, joint);
    if (minus === undefined || !coloured(minus)) continue;
    for (const other of out) {
      const plus = coreAt(network, other);
      if (plus?.colour === minus.colour && !plus?.spare) return [plus, minus];
    }
  }
  return [];
}

function* sameOutAndBack(
  { answers: { network } }: RuleContext,
  poleOf: (core: Core) => Pole | undefined,
  told: ReadonlySet<Core>,
): Generator<Told> {
  for (const { part, out, back } of meetingIn(network.layout).loads) {
    const [plus, minus] = sameColours(out, back, network);
    if (plus === undefined || minus === undefined || told.has(plus) || told.has(minus)) continue;
    if (poleOf(plus) !== 'plus' || poleOf(minus) !== 'minus') continue;
    const reported: Reported = {
      message: `${part.name} is fed by a ${plus.colour} core of ${plus.run.name} and has a ${minus.colour} one of ${minus.run.name} back, so nobody can tell which is which: use black for the negative, or mark its ends.`,
      place: minus.colourPlace ?? minus.run.namePlace,
      subject: minus.run.name,
      figures: { colour: minus.colour ?? '' },
      related: [{ message: `${plus.run.name} feeds it`, place: plus.colourPlace ?? plus.run.namePlace }],
      fixes: fixesFor(minus, 'black'),
    };
    yield { core: minus, reported };
  }
}

/** At a splice or a plug where one core goes on as another, with nothing else there. */
function* changing(
  { answers: { network } }: RuleContext,
  poleOf: (core: Core) => Pole | undefined,
  told: ReadonlySet<Core>,
): Generator<Told> {
  for (const { id, cores } of meetingIn(network.layout).pairs) {
    const [first, second] = cores.map((joint) => coreAt(network, joint));
    if (first === undefined || second === undefined || first.colour === second.colour) continue;
    if (!coloured(first) || !coloured(second)) continue;
    const [one, other] = (first.colour ?? '') < (second.colour ?? '') ? [first, second] : [second, first];
    if (told.has(one) || told.has(other) || poleOf(one) === undefined) continue;
    const reported: Reported = {
      severity: 'advice',
      message: `${one.run.name} goes on as ${other.run.name} at ${id}, and is ${one.colour} on one side and ${other.colour} on the other: use one colour all the way, or mark it there.`,
      place: other.colourPlace ?? other.run.namePlace,
      subject: other.run.name,
      figures: { colour: other.colour ?? '', before: one.colour ?? '' },
      related: [{ message: `${one.run.name} comes from here`, place: one.colourPlace ?? one.run.namePlace }],
    };
    yield { core: other, reported };
  }
}
