/** Where two answers differ. */
import type { AnswersJson } from '../../server/answers/answers-json.ts';

/** Every number of two answers, by its path, as far as they are not equal within a milliardth. */
export function differences(one: unknown, other: unknown, path = ''): string[] {
  if (typeof one === 'number' && typeof other === 'number')
    return Math.abs(one - other) <= 1e-9 * Math.max(1, Math.abs(one)) ? [] : [`${path}: ${one} ${other}`];
  if (typeof one === 'object' && one !== null && typeof other === 'object' && other !== null) {
    const keys = new Set([...Object.keys(one), ...Object.keys(other)]);
    return [...keys].flatMap((key) =>
      differences((one as Record<string, unknown>)[key], (other as Record<string, unknown>)[key], `${path}/${key}`),
    );
  }
  return Object.is(one, other) ? [] : [`${path}: ${String(one)} ${String(other)}`];
}

/** Cases and cores by name, so that order does not count. */
export function byName({ cases }: AnswersJson) {
  return Object.fromEntries(
    cases.map((one) => [
      one.name,
      { ...one, cores: Object.fromEntries(one.cores.map((core) => [`${core.run} ${core.from} ${core.to}`, core])) },
    ]),
  );
}
