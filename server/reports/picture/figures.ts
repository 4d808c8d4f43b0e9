/** What a case makes flow, by the ids of the drawing; geometry knows nothing of it. */
import { coreId, isDrawn } from './picture-of.ts';
import type { CoreFigure, FiguresOf, PartFigure } from './scene.ts';

export const figuresOf: FiguresOf = ({ answers, model }, caseName) => {
  const found = answers.cases.find(({ name }) => name === caseName);
  if (found === undefined) return undefined;
  const nominal = answers.systemVolts;
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
  const terminals = new Map<string, number>();
  for (const part of model.parts.values())
    for (const { id } of isDrawn(part) ? part.terminals : []) {
      const volts = found.volts.get(id);
      if (volts !== undefined) terminals.set(`terminal:${id}`, volts);
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
