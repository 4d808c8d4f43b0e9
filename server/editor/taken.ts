/** What a load is reckoned to take at most, the same in every feature that tells it. */
import type { Answers } from '../answers/answers.ts';
import type { Part } from '../model/model.ts';

export interface Taken {
  readonly amps: number;
  /** Of a charger or converter that no case asks for all it has: what it would take for that. */
  readonly inFull: number | undefined;
}

/** From this share on it gives all it can, but for what its output lacks of its rated voltage. */
const nearlyFull = 0.95;

/** A charger or converter takes what is asked of it, as the cable to its input tells; undefined for what takes nothing. */
export function takenBy({ name, kind, terminals }: Part, { loads, cores, network }: Answers): Taken | undefined {
  const full = loads.get(name)?.designAmps;
  if (full === undefined || kind.behaviour.is !== 'converter') return full === undefined ? full : only(full);
  const inputs = terminals.filter(
    ({ spec: { side, polarity } }) => side?.startsWith('in') === true && polarity === '+',
  );
  const flowing: number[] = [];
  for (const { id } of inputs) {
    const [edge, more] = network.at.get(id) ?? [];
    if (edge === undefined) continue;
    const figures = edge.is === 'core' && more === undefined ? cores.get(edge.core) : undefined;
    if (figures === undefined) return only(full);
    flowing.push(figures.designAmps);
  }
  const most = Math.max(0, ...flowing);
  if (most === 0) return only(full);
  return { amps: most, inFull: most < full * nearlyFull ? full : undefined };
}

function only(amps: number): Taken {
  return { amps, inFull: undefined };
}
