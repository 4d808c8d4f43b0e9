/** Sizes that cables have. A test holds them to the tables that sizes are chosen from. */

/** Cross-sections, mm² (those of IEC 60228). */
export const usualAreas: ReadonlySet<number> = new Set([
  ...[0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150, 185, 240],
]);

/** Gauges as they are written before AWG. */
export const usualGauges: ReadonlySet<string> = new Set([
  ...['18', '16', '14', '12', '10', '8', '6', '4', '2', '1', '1/0', '2/0', '3/0', '4/0'],
]);

/** The units that a bare number may have: of those for a size only such as there is a cable of. */
export function unitsOfSizes(number: string, symbols: readonly string[]): string[] {
  return symbols.filter((symbol) => {
    if (symbol === 'AWG') return usualGauges.has(number);
    return !number.includes('/') && (symbol !== 'mm²' || usualAreas.has(Number(number)));
  });
}
