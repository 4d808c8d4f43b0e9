/** What protects a core or contact, in words, and what a device protects. */
import type { Answers, CoreFigures, Protection } from '../../answers/answers.ts';
import type { Part } from '../../model/model.ts';
import { amps, listed, percent } from '../../reports/figures.ts';
import { deviceName } from '../../rules/words.ts';

/** `Protected by F1 (80 A).` */
export function protectedBy(protection: Protection): string {
  const { devices, limitedSources, unprotectedFrom, blank } = protection;
  if (unprotectedFrom.length > 0) return `Nothing protects it from ${listed(unprotectedFrom.map(({ name }) => name))}.`;
  const ways = [
    ...devices.map(
      ({ part, pole, amps: rating }) => `${deviceName(part, pole)} (${rating > 0 ? amps(rating) : '? A'})`,
    ),
    ...limitedSources.map(({ part, amps: limit }) => `the ${amps(limit)} that ${part.name} can give`),
  ];
  if (ways.length === 0) return 'No source reaches it.';
  const together = ways.length > 1 && Number.isFinite(protection.amps) ? `, ${amps(protection.amps)} together` : '';
  const open = blank ? ' A rating among them is still open.' : '';
  return devices.length === 0
    ? `It carries at most ${listed(ways)}${together}; no device limits that.`
    : `Protected by ${listed(ways)}${together}.${open}`;
}

/** How much of a capacity or rating is used: `83 %`. */
export function share(used: number, of: number | undefined): string {
  return of === undefined || !(of > 0) || !Number.isFinite(used) ? '' : percent((100 * used) / of);
}

const protects = new WeakMap<Answers, Map<string, CoreFigures[]>>();

/** Cores that a device protects, the weakest first; those of unknown capacity last. */
export function coresProtectedBy(answers: Answers, part: Part, pole: number): readonly CoreFigures[] {
  let index = protects.get(answers);
  if (index === undefined) {
    index = new Map();
    for (const figures of answers.cores.values())
      for (const device of figures.protection.devices) {
        const key = `${device.part.name}\n${device.pole}`;
        const list = index.get(key) ?? [];
        if (!list.includes(figures)) list.push(figures);
        index.set(key, list);
      }
    for (const list of index.values()) list.sort((a, b) => capacityOf(a) - capacityOf(b));
    protects.set(answers, index);
  }
  return index.get(`${part.name}\n${pole}`) ?? [];
}

function capacityOf({ capacity }: CoreFigures): number {
  return capacity?.amps ?? Number.POSITIVE_INFINITY;
}
