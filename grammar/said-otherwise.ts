/**
 * Whole phrases that people say otherwise: `2 wires 1.5 mm²`, `M8 studs`, `100/20` of a controller, `because it is short`.
 * Each is put as the notation says it before the clauses are read, so that it makes one problem and what it says is kept.
 */
import type { CompiledSpec, CompiledVocabulary } from './compiled.ts';
import { chargeOrWarmth, ofOneBattery } from './otherwise/case-figures.ts';
import { labelOfBattery } from './otherwise/chemistry.ts';
import { contactStands, contactsCarry, selectorStands } from './otherwise/contacts.ts';
import { notIsolated, panelsAndOutput } from './otherwise/controllers.ts';
import { voltsToVolts } from './otherwise/conversions.ts';
import { coresOfSize } from './otherwise/cores.ts';
import { ofDataSheet } from './otherwise/data-sheets.ts';
import { betweenEnds, goesTo } from './otherwise/ends.ts';
import {
  anotherBound,
  caseFirst,
  inCase,
  inCaseCalled,
  inEveryCase,
  twoBounds,
  whatBeforeSubject,
} from './otherwise/expected-of.ts';
import { commaInNumber, fractions, minusApart, thousandsParted, withTolerance } from './otherwise/figures.ts';
import { knockoutsInOrder } from './otherwise/knockouts.ts';
import { wordsBehindLength } from './otherwise/lengths.ts';
import { limitsCalled } from './otherwise/limits.ts';
import { anotherOfItsKind, fedFrom, fuseOfPart, nameBehindClause, pluggedIn } from './otherwise/names.ts';
import { inOtherUnit } from './otherwise/other-units.ts';
import { forSubject, reasonWithoutQuotes } from './otherwise/reasons.ts';
import type { Rewriter, Rewriting } from './otherwise/rewriting.ts';
import { allButSome, everything, everythingButSome, namesAlone, namesInRow } from './otherwise/states.ts';
import { studInInches, studsAndThread } from './otherwise/studs.ts';
import { irradiance } from './otherwise/sun.ts';
import { surgeFirst } from './otherwise/surges.ts';
import { faceListed, pairsListed, polesLinked, positionsListed } from './otherwise/switching.ts';
import { atVoltage } from './otherwise/voltages.ts';
import { entersBox, intoNothing, passageAlone } from './otherwise/walls.ts';
import { fusesInRow, wayNamed, waysFromTo, wayWithFuse } from './otherwise/ways.ts';
import type { Atom, Problem } from './tree.ts';

/** By statement or kind. */
const rewriters: Readonly<Record<string, readonly Rewriter[]>> = {
  allow: [forSubject, reasonWithoutQuotes],
  battery: [labelOfBattery],
  cable: [coresOfSize],
  case: [
    everythingButSome,
    everything,
    allButSome,
    contactStands,
    selectorStands,
    ofOneBattery,
    chargeOrWarmth,
    namesInRow,
    namesAlone,
    irradiance,
  ],
  charger: [notIsolated],
  controller: [panelsAndOutput, notIsolated],
  converter: [notIsolated],
  enclosure: [knockoutsInOrder],
  expect: [caseFirst, inEveryCase, inCaseCalled, anotherBound, twoBounds, whatBeforeSubject, inCase],
  fusebox: [fusesInRow, waysFromTo, wayWithFuse, wayNamed],
  inverter: [voltsToVolts],
  isolator: [polesLinked, pairsListed, faceListed],
  panel: [ofDataSheet],
  relay: [contactsCarry],
  run: [coresOfSize, goesTo, betweenEnds, entersBox, intoNothing, passageAlone, wordsBehindLength],
  selector: [positionsListed],
  socket: [pluggedIn],
  switch: [polesLinked, pairsListed, faceListed],
  system: [limitsCalled],
};

const ofParts: readonly Rewriter[] = [
  nameBehindClause,
  anotherOfItsKind,
  fuseOfPart,
  fedFrom,
  studInInches,
  studsAndThread,
  surgeFirst,
  atVoltage,
];
/** Of any statement. */
const ofFigures: readonly Rewriter[] = [
  minusApart,
  thousandsParted,
  fractions,
  commaInNumber,
  withTolerance,
  inOtherUnit,
];

export interface SaidOtherwise {
  readonly body: readonly Atom[];
  readonly problems: readonly Problem[];
  /** One of them at least can mean nothing else. */
  readonly sure: boolean;
}

export function saidOtherwise(
  body: readonly Atom[],
  spec: CompiledSpec,
  compiled: CompiledVocabulary,
  /** Its clauses are read as they stand, and only a figure in them is written badly. */
  figuresAlone: boolean,
): SaidOtherwise {
  const own = rewriters[spec.spec.word] ?? [];
  const all = figuresAlone ? ofFigures : [...own, ...(spec.spec.category === 'kind' ? ofParts : []), ...ofFigures];
  let right: Atom[] | undefined;
  const problems: Problem[] = [];
  let sure = false;
  const habits = new Map<string, number>();
  for (let i = 0; i < body.length; i++) {
    const found = firstOf(all, body, i, spec, compiled);
    if (found === undefined) {
      right?.push(body[i] as Atom);
      continue;
    }
    right ??= body.slice(0, i);
    right.push(...found.put);
    tell(problems, found, habits);
    sure ||= found.sure === true;
    i += found.count - 1;
  }
  return { body: right ?? body, problems, sure };
}

function firstOf(
  all: readonly Rewriter[],
  body: readonly Atom[],
  at: number,
  spec: CompiledSpec,
  compiled: CompiledVocabulary,
): Rewriting | undefined {
  for (const rewriter of all) {
    const found = rewriter(body, at, spec, compiled);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** What is said otherwise in one way is one habit: `charge B1 20 %, charge B2 90 %`. */
function tell(problems: Problem[], { problem, habit }: Rewriting, habits: Map<string, number>): void {
  const index = habit === undefined ? undefined : habits.get(habit);
  const first = index === undefined ? undefined : problems[index];
  const [fix] = first?.fixes ?? [];
  if (index === undefined || first === undefined || fix === undefined) {
    if (habit !== undefined) habits.set(habit, problems.length);
    problems.push(problem);
    return;
  }
  const message = first.message.replace(/ here\.$/, ' here, and the others likewise.');
  const edits = [...fix.edits, ...(problem.fixes ?? []).flatMap((one) => one.edits)];
  problems[index] = { ...first, message, fixes: [{ ...fix, title: 'Write them so', edits }] };
}
