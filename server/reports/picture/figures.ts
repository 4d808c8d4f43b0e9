/** What a case makes flow, by the ids of the drawing; geometry knows nothing of it. */
import type { Terminal } from '../../model/model.ts';
import { coreId, isDrawn } from './picture-of.ts';
import type { CoreFigure, FiguresOf, PartFigure } from './scene.ts';

export const figuresOf: FiguresOf = ({ answers, model }, caseName) => {
  const found = answers.cases.find(({ name }) => name === caseName);
  if (found === undefined) return undefined;
  const { network, systemVolts: nominal } = answers;
  const cores = new Map<string, CoreFigure>();
  for (const { core, amps, assumed, dropVolts, celsius, capacityAmps } of found.cores)
    cores.set(coreId(core), {
      amps,
      assumed,
      dropVolts,
      dropPercent: nominal > 0 ? (100 * Math.abs(dropVolts)) / nominal : 0,
      celsius,
      capacityAmps,
      share: capacityAmps === undefined || capacityAmps <= 0 ? undefined : Math.abs(amps) / capacityAmps,
    });
  const parts = new Map<string, PartFigure>();
  for (const { part, volts, amps, watts, dropVolts, dropPercent, energised } of found.parts.values())
    parts.set(`part:${part.name}`, { volts, amps, watts, dropVolts, dropPercent, energised });
  const closed = new Map(found.contacts.map((one) => [`${one.part.name}/${one.pole}`, one.closed] as const));
  /** A way that is open, with no core on its end: a meter shows whatever it likes there. */
  const hangsFree = ({ id, part, spec }: Terminal) => {
    const ways = part.contacts.filter(({ from, to }) => from === spec.name || to === spec.name);
    const isOpen = ({ pole }: { readonly pole: number }) => closed.get(`${part.name}/${pole}`) === false;
    return ways.length > 0 && ways.every(isOpen) && (network.at.get(id) ?? []).every(({ is }) => is === 'contact');
  };
  const terminals = new Map<string, number>();
  for (const part of model.parts.values())
    for (const terminal of isDrawn(part) ? part.terminals : []) {
      const volts = found.volts.get(terminal.id);
      if (volts !== undefined && !hangsFree(terminal)) terminals.set(`terminal:${terminal.id}`, volts);
    }
  return {
    caseName,
    trouble: found.converged ? undefined : (found.trouble ?? 'This case has no answer.'),
    cores,
    terminals,
    parts,
    contacts: new Map(
      found.contacts.map(({ part, pole, closed, amps }) => [`${part.name}/${pole}`, { closed, amps }] as const),
    ),
  };
};
