/** Names mean nothing in themselves, and statements may stand in any order: the model and the network stay the same. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseDocument } from '../../grammar/parse.ts';
import { vocabulary } from '../../server/kinds/vocabulary.ts';
import type { Facts, Model, NameUse } from '../../server/model/model.ts';
import type { Edge, Network } from '../../server/model/network.ts';
import { built } from './built.ts';
import { spokewagon } from './example.ts';

type Back = (name: string) => string;

const id = (terminal: string, back: Back) => {
  const colon = terminal.indexOf(':');
  return colon === -1 ? back(terminal) : `${back(terminal.slice(0, colon))}${terminal.slice(colon)}`;
};

function factsOf(facts: Facts, back: Back): string[] {
  return facts.facts
    .map(({ clause, fromStock }) => {
      const values = clause.values.map(
        ({ slot, atom, type }) =>
          `${slot}=${type.startsWith('name<') || type === 'end' ? id(atom.text, back) : atom.text}`,
      );
      return `${clause.spec.id} ${values.join(' ')} ${fromStock === undefined ? '' : back(fromStock)}`;
    })
    .sort();
}

function edgeOf(edge: Edge, back: Back): string {
  const what =
    edge.is === 'core' ? `${back(edge.core.run.name)} ${edge.core.label}` : edge.is === 'bar' ? '' : String(edge.ohms);
  return `${edge.is} ${id(edge.from.id, back)} ${id(edge.to.id, back)} ${what}`;
}

/** All of a model that its readers go by, with names turned back and order taken out. */
function canonical(model: Model, network: Network, back: Back) {
  const sorted = <T>(list: Iterable<T>) => [...list].map((one) => JSON.stringify(one)).sort();
  return {
    problems: sorted(model.problems.map(({ slug }) => slug)),
    system: [model.system.nominalVolts, model.system.ambientCelsius, model.system.limits, model.system.title],
    parts: sorted(
      [...model.parts.values()].map((part) => [
        back(part.name),
        part.kind.word,
        part.terminals.map((terminal) => id(terminal.id, back)),
        part.contacts,
        part.enclosure === undefined ? '' : back(part.enclosure.name),
        part.location === undefined ? '' : back(part.location.name),
        factsOf(part.facts, back),
      ]),
    ),
    runs: sorted(
      [...model.runs.values()].map((run) => [
        back(run.name),
        run.size,
        run.lengthMetres,
        run.cores.map(({ label, spare, from, to }) => [label, spare, id(from?.id ?? '', back), id(to?.id ?? '', back)]),
        run.passages.map(({ how, size, enclosure }) => [how, size, back(enclosure?.name ?? '')]),
        run.along.map(({ location, lengthMetres }) => [back(location?.name ?? ''), lengthMetres]),
      ]),
    ),
    cases: sorted(
      model.cases.map(({ name, sun, charge, allLoads, on }) => [
        back(name),
        sun,
        charge,
        allLoads,
        [...on].map(([part, state]) => [back(part), state]),
      ]),
    ),
    uses: sorted(
      model.uses.map(({ name, target, declaration }) => [
        target === 'terminal' ? id(name, back) : back(name),
        target,
        declaration,
      ]),
    ),
    edges: sorted(network.edges.map((edge) => edgeOf(edge, back))),
    islands: sorted(
      network.layout.islands.map(({ joints }) =>
        joints.map(({ index }) => edgeOf(network.edges[index] as Edge, back)).sort(),
      ),
    ),
  };
}

function renamed(text: string, uses: readonly NameUse[], to: ReadonlyMap<string, string>): string {
  return uses
    .filter(({ target }) => target !== 'terminal' && target !== 'file')
    .sort((a, b) => b.place.span.start - a.place.span.start)
    .reduce(
      (before, { place, name }) =>
        before.slice(0, place.span.start) + (to.get(name) ?? name) + before.slice(place.span.end),
      text,
    );
}

const specs: Readonly<Record<string, string>> = {
  example: spokewagon,
  small: `place LOFT 50 °C
enclosure BOX plastic, at LOFT
entry E1 in BOX, gland M25
stock lamp load 5 W, at LOFT
stock drum cable 6 mm²
battery B1 agm, 12 V, 80 Ah
load L1 and L2 = lamp, terminal dim
isolator Q1 2 poles, 20 A dc, in BOX
link Q1 1-3, 2-4
busbar NEG 50 A, 3 studs
run W1 = drum red, 1 m, along LOFT, B1:+ to Q1:1
    enters BOX by E1
run W2 2 x 2.5 mm², 1 m
    red  Q1:2 to L1:+
    core 2 NEG:3 to L1:-
run W3 = drum, 1 m, NEG to B1:-
case night L1 and L2 on, B1 at 12.5 V
expect L1 voltage at least 11 V in night
reading 2026-04-18 Q1:1 to Q1:2 0.2 Ω with Q1 on
allow drop-over-limit on W1 "short"
`,
};

describe.each(Object.entries(specs))('%s', (_, text) => {
  const { model, network } = built(text);
  const own = canonical(model, network, (name) => name);
  const names = [
    ...new Set(model.uses.filter(({ target }) => target !== 'terminal' && target !== 'file').map(({ name }) => name)),
  ];
  const statements = parseDocument(text, vocabulary).statements.map(({ node }) =>
    node.text.endsWith('\n') ? node.text : `${node.text}\n`,
  );

  it('is the same under other names and in another order', () => {
    const stems = fc.constantFrom('K', 'Größe', 'Дом', 'z_', 'n-');
    fc.assert(
      fc.property(
        fc.array(stems, { minLength: names.length, maxLength: names.length }),
        fc.shuffledSubarray(statements, { minLength: statements.length, maxLength: statements.length }),
        (heads, order) => {
          const to = new Map(names.map((name, index) => [name, `${heads[index]}${index}`]));
          const from = new Map([...to].map(([before, after]) => [after, before]));
          const shuffled = order.join('');
          const again = renamed(shuffled, built(shuffled).model.uses, to);
          const other = built(again);
          expect(canonical(other.model, other.network, (name) => from.get(name) ?? name)).toEqual(own);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('is another under a name changed in one place only', () => {
    const use = model.uses.find(({ declaration, target }) => declaration && target === 'part') as NameUse;
    const { start, end } = use.place.span;
    const other = built(`${text.slice(0, start)}OTHER${text.slice(end)}`);
    expect(other.model.problems.length).toBeGreaterThan(model.problems.length);
    expect(canonical(other.model, other.network, (name) => name)).not.toEqual(own);
  });
});
