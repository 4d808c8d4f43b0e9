/** A run split in a box that it passes: a splice there for each core, and a gland for each half. Its currents and drops stay. */
import type { Analysis } from '../../analysis.ts';
import { kind as splice } from '../../kinds/splice.ts';
import type { Part, Run } from '../../model/model.ts';
import { listed } from '../../reports/figures.ts';
import { glandInto } from '../../rules/glands.ts';
import { knockoutsOf, threadsIn, wallsOf } from '../../rules/walls.ts';
import { exampleName } from '../completion/new-names.ts';
import { boxesAround, type Cuttable, cuttable, halves, newWay } from './cut-run.ts';
import { wayTold } from './found-after.ts';
import { FreshNames } from './fresh-names.ts';
import { limitsTold } from './limits-after.ts';
import { type Asked, type Offered, splitRunKind } from './offered.ts';
import { tidied } from './patched.ts';
import { above, behind, runOf, statementAt } from './statements.ts';

/** A spec may have many boxes; those it passes come first, then those that stand where it lies. */
const mostBoxes = 3;

export function splitAtBox(asked: Asked): Offered[] {
  const { analysis } = asked;
  const statement = statementAt(asked);
  const run = runOf(analysis, statement);
  const whole = run === undefined || statement === undefined ? undefined : cuttable(asked, run, statement);
  if (whole === undefined) return [];
  return boxesFor(analysis, whole)
    .slice(0, mostBoxes)
    .map((box) => offer(asked, whole, box));
}

function boxesFor({ model }: Analysis, { run, nearBoxes, farBoxes }: Cuttable): Part[] {
  const boxes = [...model.parts.values()].filter(
    (part) => part.kind.word === 'enclosure' && !nearBoxes.has(part) && !farBoxes.has(part),
  );
  const passed = (box: Part) => run.passages.some(({ enclosure }) => enclosure === box);
  const places = placesOf(run);
  const isNear = ({ location }: Part) => location === undefined || places.has(location.name);
  // A run that never leaves a box would have to pass its wall twice to be joined in another.
  const around = [...nearBoxes].filter((box) => farBoxes.has(box));
  const isWithin = (box: Part) => around.every((one) => boxesAround(box).includes(one));
  return [...boxes.filter(passed), ...boxes.filter((box) => !passed(box) && isNear(box) && isWithin(box))];
}

/** Where a run lies, as it says or as its ends do. */
function placesOf({ along, cores }: Run): ReadonlySet<string> {
  const said = along.flatMap(({ location }) => location?.name ?? []);
  const ends = cores.flatMap(({ from, to }) => [from?.part.location?.name ?? [], to?.part.location?.name ?? []].flat());
  return new Set(said.length > 0 ? said : ends);
}

/** What there is to say of the ready holes of a box, where they are too few for what comes to pass its wall. */
function holesLeft({ analysis: { model } }: Asked, run: Run, box: Part, by: string): string {
  const holes = knockoutsOf(box);
  const [, thread] = /^by gland (\S+)$/u.exec(by) ?? [];
  if (holes.size === 0 || thread === undefined) return '';
  const more = 2 - run.passages.filter(({ enclosure }) => enclosure === box).length;
  const used = threadsIn(box, wallsOf(model)).filter((one) => one === thread).length;
  const left = Math.max(0, (holes.get(thread) ?? 0) - used);
  if (left >= more) return '';
  return `; ${box.name} has ${left === 0 ? 'no' : 'one'} hole ${thread} left for ${more === 1 ? 'that' : 'them'}`;
}

function offer(asked: Asked, whole: Cuttable, box: Part): Offered {
  const { analysis } = asked;
  const { run, statement, cores } = whole;
  const fresh = new FreshNames(asked);
  const name = fresh.after(run.name);
  const splices = new Map(
    cores.map(({ core }) => [core, fresh.ofKind(splice.word, exampleName(splice.word, splice.example) ?? 'J1', run)]),
  );
  const by = glandInto(run, box, analysis.model).by;
  const joints = [...splices.values()];
  const glands = `a gland for each half (${by.replace('by gland ', '')})${holesLeft(asked, run, box, by)}`;
  return {
    title: `Split ${run.name} in ${box.name}: ${name} carries on from ${joints.length === 1 ? 'splice' : 'splices'} ${listed(joints)}, half the length each, ${glands}${wayTold(analysis, run, newWay(whole, box.location))}${limitsTold(analysis, run)}`,
    kind: splitRunKind,
    edits: () => {
      const { kept, other } = halves(analysis, whole, {
        name,
        jointOf: (core) => ({ near: splices.get(core) ?? '', far: splices.get(core) ?? '' }),
        at: box.location,
        box: { part: box, by },
      });
      return tidied(analysis, [
        above(
          analysis,
          statement,
          joints.map((joint) => `splice ${joint}  in ${box.name}`),
        ),
        ...kept,
        behind(analysis, statement, other),
      ]);
    },
  };
}
