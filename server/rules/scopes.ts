/** The rules by what they are asked of where a spec is worked out section by section. */
import { allRules } from './all.ts';
import type { Rule } from './rule.ts';

const isOfWhole = ({ scope }: Rule): boolean => scope === 'whole';

/** Those that decide by what hangs together. */
export const sectionRules: readonly Rule[] = allRules.filter((rule) => !isOfWhole(rule));

/** Those that are asked for the spec as a whole. */
export const wholeRules: readonly Rule[] = allRules.filter(isOfWhole);
