/** Which gland takes a cable: typical clamping ranges, since no standard fixes them. */

/**
 * Thread, and the outside diameters it typically clamps, mm. EN 62444 does not fix these; typical figures, from memory: the
 * maker's range counts.
 */
const typical: readonly (readonly [string, number, number])[] = [
  ['M12', 3, 6],
  ['M16', 4.5, 10],
  ['M20', 6, 12],
  ['M25', 11, 17],
  ['M32', 15, 21],
  ['M40', 19, 28],
  ['M50', 27, 35],
  ['M63', 34, 45],
];

/** The smallest usual thread for a diameter in mm; M20 where it is not known. */
export function glandFor(diameterMm: number | undefined): string {
  if (diameterMm === undefined) return 'M20';
  return (
    typical.find(([, least, most]) => diameterMm >= least && diameterMm <= most)?.[0] ??
    (diameterMm < 3 ? 'M12' : 'M63')
  );
}
