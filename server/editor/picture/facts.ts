/** What stands beside the picture: cases to choose, loads to trace, cores that cannot be drawn. */
import type { Analysis } from '../../analysis.ts';
import type { PictureGraph } from '../../reports/picture/scene.ts';

export interface FactsOfPicture {
  readonly title: string;
  readonly cases: readonly Entry[];
  readonly loads: readonly Entry[];
  readonly undrawn: readonly string[];
}

interface Entry {
  readonly name: string;
  readonly title: string | undefined;
}

export function factsOf({ model, answers }: Analysis, { title, cables }: PictureGraph): FactsOfPicture {
  return {
    title,
    cases: model.cases.map(({ name, title: told }) => ({ name, title: told })),
    loads: [...answers.loads.values()].map(({ load }) => ({
      name: load.name,
      title: model.parts.get(load.name)?.title,
    })),
    undrawn: cables.flatMap(({ name, undrawn }) => undrawn.map((why) => `${name} ${why}`)),
  };
}
