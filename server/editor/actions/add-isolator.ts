/**
 * An isolator in the middle of a run, a pole for each of its cores, wired on both sides and rated for the circuit: for what
 * protects it, or lets through behind it, and what it carries, and for the voltage it has to part.
 */
import type { Analysis } from '../../analysis.ts';
import { kind as isolator } from '../../kinds/isolator.ts';
import { isolatorVolts, switchAmps } from '../../tables/sizes.ts';
import { exampleName } from '../completion/new-names.ts';
import { type Cuttable, cuttable, halves, newWay, warmestEnd } from './cut-run.ts';
import { onePoleTold, openedTold, type Standing, sparkTold, wayTold } from './found-after.ts';
import { FreshNames } from './fresh-names.ts';
import { limitsTold } from './limits-after.ts';
import { type Asked, addIsolatorKind, type Offered } from './offered.ts';
import { tidied } from './patched.ts';
import { above, behind, runOf, statementAt } from './statements.ts';

export function addIsolator(asked: Asked): Offered[] {
  const { analysis } = asked;
  const statement = statementAt(asked);
  const run = runOf(analysis, statement);
  const whole = run === undefined || statement === undefined ? undefined : cuttable(asked, run, statement);
  // A conductor that protects is never opened, and of three or more it is not known which belong together.
  if (whole === undefined || whole.cores.length > 2 || whole.cores.some((one) => isBond(analysis, one))) return [];
  const { cores } = whole;
  const fresh = new FreshNames(asked);
  const name = fresh.ofKind(isolator.word, exampleName(isolator.word, isolator.example) ?? 'Q1', whole.run);
  const behindIt = fresh.after(whole.run.name);
  const said = ratings(analysis, whole).join(', ');
  const where = standsAt(whole);
  const told = [
    onePoleTold(analysis, cores, name),
    sparkTold(analysis, where, name),
    openedTold(analysis, whole.run, name),
    wayTold(analysis, whole.run, newWay(whole, where.location)),
    limitsTold(analysis, whole.run),
  ];
  return [
    {
      title: `Add isolator ${name} in the middle of ${whole.run.name}: ${said}; ${behindIt} carries on from it${told.join('')}`,
      kind: addIsolatorKind,
      edits: () => {
        const { kept, other } = halves(analysis, whole, {
          name: behindIt,
          at: where.location,
          jointOf: (core) => {
            const pole = cores.findIndex((one) => one.core === core);
            return { near: `${name}:${2 * pole + 1}`, far: `${name}:${2 * pole + 2}` };
          },
        });
        return tidied(analysis, [
          above(analysis, whole.statement, [`isolator ${name}  ${said}${where.words}`]),
          ...kept,
          behind(analysis, whole.statement, other),
        ]);
      },
    },
  ];
}

/** What joins the negative to the body bonds it, unless the body is a return. */
function isBond({ answers }: Analysis, { core, near, far }: Cuttable['cores'][number]): boolean {
  const ends = [near, far];
  return (
    core.colour === 'green/yellow' ||
    ends.some(({ spec }) => spec.name === 'case') ||
    (ends.some(({ part }) => part.kind.word === 'chassis') && !((answers.cores.get(core)?.designAmps ?? 0) > 0))
  );
}

/** `2 poles, 25 A dc, 60 V`: as much as `switch-below-fuse` asks for and no more; what is not known is left open. */
function ratings({ answers }: Analysis, { cores }: Cuttable): string[] {
  const figures = cores.flatMap(({ core }) => answers.cores.get(core) ?? []);
  const onPanels = figures.some(({ onPanelSide }) => onPanelSide);
  const needed = Math.max(
    0,
    ...figures.map(({ designAmps, neededAmps, circuitAmps, onPanelSide }) => {
      const device = onPanelSide || !Number.isFinite(circuitAmps) ? 0 : circuitAmps;
      return Math.max(neededAmps ?? designAmps, device);
    }),
  );
  const amps = needed > 0 ? switchAmps.find((one) => one >= needed * (1 - 1e-9)) : undefined;
  const volts = isolatorVolts.find((one) => one >= greatestVolts(answers, cores, onPanels));
  return [
    cores.length === 1 ? '1 pole' : `${cores.length} poles`,
    `${amps ?? '?'} A dc`,
    `${volts ?? '?'} V`,
    ...(onPanels ? ['category DC-PV2'] : []),
  ];
}

/** On the side of panels the open voltage of the highest string in the cold, else the highest there is in any case. */
function greatestVolts(
  { strings, cases, systemVolts }: Analysis['answers'],
  cores: Cuttable['cores'],
  onPanels: boolean,
): number {
  if (onPanels) return Math.max(0, ...strings.strings.map(({ coldVolts, openVolts }) => coldVolts ?? openVolts));
  const ends = cores.flatMap(({ near, far }) => [near.id, far.id]);
  return Math.max(systemVolts, ...cases.flatMap(({ volts }) => ends.map((id) => Math.abs(volts.get(id) ?? 0))));
}

/**
 * In the box that both ends stand in, else at the first place the run lies in, else at the end that counts for how warm the
 * run gets, so that neither half gets warmer or cooler.
 */
function standsAt(whole: Cuttable): Standing & { readonly words: string } {
  const { run, nearBoxes, farBoxes } = whole;
  const box = [...nearBoxes].find((one) => farBoxes.has(one));
  if (box !== undefined) return { words: `, in ${box.name}`, box, location: box.location };
  const location = run.along[0]?.location ?? warmestEnd(whole);
  return { words: location === undefined ? '' : `, at ${location.name}`, box, location };
}
