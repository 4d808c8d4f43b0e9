/** What rules find once an action is done and did not before: its title says so, since no one asked for that. */
import type { Analysis } from '../../analysis.ts';
import type { Core, Location, Part, Run } from '../../model/model.ts';
import { controllerWithout } from '../../rules/battery-opened-before-panels.ts';
import { essentialAmong } from '../../rules/essential-load-isolated.ts';
import { ventedIn } from '../../rules/ignition-near-vented-battery.ts';
import { unfitFor } from '../../rules/insulation-for-place.ts';
import { temperature } from '../../rules/words.ts';

/** Of halves that say where they lie, as the whole did not. */
export function wayTold(analysis: Analysis, run: Run, way: readonly Location[]): string {
  for (const location of way) {
    const unfit = unfitFor(run, location, analysis);
    if (unfit === 'weather')
      return `; both then lie in ${location.name}, out of doors, and are not said to be made for that`;
    if (unfit === 'warmth')
      return `; both then lie in ${location.name} at ${temperature(location.celsius ?? 0, analysis.model)}, which their insulation does not stand`;
  }
  return '';
}

/** Of an isolator in the way of all cores of a run. */
export function openedTold(analysis: Analysis, run: Run, isolator: string): string {
  const controller = controllerWithout(run, analysis);
  const fed = run.cores.flatMap((core) => {
    const figures = analysis.answers.cores.get(core);
    return figures === undefined || figures.isReturn ? [] : figures.loads;
  });
  const essential = essentialAmong([...new Set(fed)], analysis.answers);
  return [
    controller === undefined
      ? ''
      : `; opened first, ${isolator} leaves ${controller.name} with its panels and no battery`,
    essential === undefined
      ? ''
      : `; ${isolator} turns off ${essential.essential.name}, which is essential, with others`,
  ].join('');
}

/** Where an isolator is put. */
export interface Standing {
  readonly box: Part | undefined;
  readonly location: Location | undefined;
}

/** Of one that is put where gas collects: every switch sparks. */
export function sparkTold({ model }: Analysis, { box, location }: Standing, isolator: string): string {
  if (location?.facts.says('gas-locker') === true)
    return `; ${isolator} may spark, and gas bottles are kept in ${location.name}: move it out`;
  const battery = box === undefined ? undefined : ventedIn(model).get(box);
  return battery === undefined
    ? ''
    : `; ${isolator} may spark in ${box?.name}, where ${battery.name} gives off gas: move it out`;
}

/** Of one for a single conductor where the system asks for both. */
export function onePoleTold({ model, answers }: Analysis, cores: readonly { readonly core: Core }[], isolator: string) {
  if (model.system.facts?.says('both-poles') !== true) return '';
  const returns = cores.filter(({ core }) => answers.cores.get(core)?.isReturn === true).length;
  if (returns > 0 && returns < cores.length) return '';
  return `; ${isolator} opens only the ${returns === 0 ? 'positive' : 'negative'}, and the system asks for both poles`;
}
