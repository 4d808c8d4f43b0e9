/**
 * The fuses that a finding asks for, each put into its conductor close to what drives a fault there: declared with what it must
 * be, wired on both sides, with a lead whose length is taken from the cable. The long piece keeps the name, so that what others
 * say of it still holds.
 */
import { CodeActionKind } from 'vscode-languageserver';
import type { QuantityAtom } from '../../../grammar/tree.ts';
import type { Analysis } from '../../analysis.ts';
import { kind as fuse } from '../../kinds/fuse.ts';
import type { Location, Part, Run } from '../../model/model.ts';
import { listed } from '../../reports/figures.ts';
import { exceeds } from '../../rules/exceeds.ts';
import { ventedIn } from '../../rules/ignition-near-vented-battery.ts';
import { type NewFuse, newFuse } from '../../rules/new-fuse.ts';
import type { Finding } from '../../rules/rule.ts';
import { exampleName } from '../completion/new-names.ts';
import { boxesAround, type Cuttable, endedRun, halves } from './cut-run.ts';
import type { Again } from './fix-all.ts';
import { FreshNames } from './fresh-names.ts';
import { leadTexts } from './lead.ts';
import { limitsTold } from './limits-after.ts';
import type { Asked, Offered } from './offered.ts';
import { type Change, Patched, tidied } from './patched.ts';
import { above, runOf } from './statements.ts';
import { type FusePlace, fusesFor } from './where-fuses-go.ts';

/** More at once is a matter of design, not of a mend. */
const mostFuses = 6;

interface Plan {
  readonly place: FusePlace;
  readonly whole: Cuttable;
  readonly fuse: NewFuse;
  readonly name: string;
  readonly lead: string;
  readonly length: Lead;
  readonly stands: Stands;
}

interface Lead {
  readonly written: string;
  readonly share: number;
}

interface Stands {
  readonly words: string;
  readonly box: Part | undefined;
  readonly location: Location | undefined;
}

export function addFuse(asked: Asked, finding: Finding, again: Again | undefined): Offered[] {
  const { analysis } = asked;
  const places = fusesFor(analysis, finding);
  if (places.length === 0 || places.length > mostFuses) return [];
  const fresh = new FreshNames(asked);
  const plans = places.flatMap((place) => planFor(analysis, place, fresh) ?? []);
  const runs = new Set(plans.map(({ whole }) => whole.run));
  // A run that is cut twice is read again in between.
  if (plans.length < places.length || (runs.size < plans.length && again === undefined)) return [];
  return [
    {
      title: titleOf(plans, analysis),
      kind: CodeActionKind.QuickFix,
      finding,
      edits: () => {
        if (runs.size === plans.length)
          return tidied(
            analysis,
            plans.flatMap((plan) => changesOf(analysis, plan)),
          );
        const patched = new Patched(String(analysis.text));
        for (const plan of plans) {
          const now = plan === plans[0] ? analysis : again?.(patched.text);
          const same = now === undefined ? undefined : replanned(now, plan);
          if (now === undefined || same === undefined) return [];
          patched.apply(changesOf(now, same));
        }
        return tidied(analysis, patched.changes());
      },
    },
  ];
}

function planFor(analysis: Analysis, place: FusePlace, fresh: FreshNames): Plan | undefined {
  const { core, near, metresBefore } = place;
  const { run } = core;
  const whole = wholeOf(analysis, run);
  if (whole === undefined || !whole.cores.some((one) => one.core === core)) return undefined;
  const limit = analysis.answers.limits.unfusedLength(run.facts.says('sheathed')).metres;
  const length = leadOf(run, place.ofString === true ? Number.POSITIVE_INFINITY : limit - metresBefore);
  const stands = standsAt(analysis, near.part);
  const chosen = newFuse(place, stands.location?.celsius, analysis.answers);
  if (length === undefined || chosen === undefined) return undefined;
  const name = fresh.ofKind(fuse.word, exampleName(fuse.word, fuse.example) ?? 'F1', run);
  return { place, whole, fuse: chosen, name, lead: fresh.after(run.name), length, stands };
}

function wholeOf(analysis: Analysis, run: Run): Cuttable | undefined {
  const { file, statement } = run.origin;
  if (file.uri !== analysis.uri || runOf(analysis, statement) !== run || run.bunchedRuns.length > 0) return undefined;
  return endedRun(analysis, run, statement);
}

/** The same cut in what an earlier one has left of its run. */
function replanned(analysis: Analysis, plan: Plan): Plan | undefined {
  const { core, near } = plan.place;
  const run = analysis.model.runs.get(core.run.name);
  const whole = run === undefined ? undefined : wholeOf(analysis, run);
  const now = whole?.cores.find((one) => one.core.index === core.index)?.core;
  const ends = [now?.from, now?.to];
  const end = ends.find((one) => one?.id === near.id);
  const far = ends.find((one) => one !== end);
  if (whole === undefined || now === undefined || end === undefined || far === undefined) return undefined;
  const length = leadOf(whole.run, Number.POSITIVE_INFINITY);
  return length && { ...plan, whole, length, place: { ...plan.place, core: now, near: end, far } };
}

/** As short as a fitter would leave it, in the unit of the run: common practice, no source. */
const leads: Readonly<Record<string, number>> = { mm: 100, cm: 10, m: 0.1, ft: 0.3, inch: 4 };

/** Half the run where it is short; undefined where a fuse so far from the battery is too far. */
function leadOf(run: Run, mostMetres: number): Lead | undefined {
  const atom = run.facts.slot('length')?.atom;
  const { lengthMetres } = run;
  if (atom?.kind !== 'quantity' || lengthMetres === undefined) return undefined;
  const { value, unit } = atom as QuantityAtom;
  const usual = leads[unit];
  if (value === undefined || usual === undefined || exceeds(usual * (lengthMetres / value), mostMetres))
    return undefined;
  const own = Math.min(usual, Number((value / 2).toPrecision(3)));
  return { written: `${own} ${unit}`, share: own / value };
}

/** Beside what the lead comes from: in its box, unless gas collects there. */
function standsAt({ model }: Analysis, beside: Part): Stands {
  const { enclosure: box, location } = beside;
  if (box !== undefined && !ventedIn(model).has(box)) return { words: `, in ${box.name}`, box, location: box.location };
  return { words: location === undefined ? '' : `, at ${location.name}`, box: undefined, location };
}

const said = ({ amps: rated, style, volts, breaksAmps }: NewFuse) =>
  `${rated} A, ${style}, ${volts} V, breaks ${breaksAmps / 1000} kA`;

function titleOf(plans: readonly Plan[], analysis: Analysis): string {
  const [first] = plans as [Plan, ...Plan[]];
  const fuses = `${plans.length === 1 ? 'fuse' : 'fuses'} ${listed(plans.map(({ name }) => name))}`;
  const runs = [...new Set(plans.map(({ whole }) => whole.run.name))];
  const from = [...new Set(plans.map(({ place }) => place.near.part.name))];
  const what = [...new Set(plans.map((one) => said(one.fuse)))];
  const each = plans.length > 1 && what.length === 1 ? ' each' : '';
  const figures = what.length === 1 ? `${said(first.fuse)}${each}` : plans.map((one) => said(one.fuse)).join('; ');
  const longer = plans.some(({ whole }) => whole.cores.length > 1) ? `, which adds ${first.length.written}` : '';
  const leads = listed(plans.map(({ lead }) => lead));
  const carries = `${leads} ${plans.length === 1 ? 'leads' : 'lead'} there${longer}`;
  return `Put ${fuses} into ${listed(runs)}, ${first.length.written} from ${listed(from)}: ${figures}; ${carries}${limitsTold(analysis, first.whole.run)}`;
}

function changesOf(analysis: Analysis, plan: Plan): Change[] {
  const { place, whole, name, lead, stands, length } = plan;
  const { core, near } = place;
  const { statement, cores } = whole;
  const line = `fuse ${name}  ${said(plan.fuse)}${stands.words}`;
  if (cores.length > 1) {
    // In a sheath only the one conductor is opened, at the end of the cable.
    const end = near === core.from ? core.fromPlace : core.toPlace;
    if (end === undefined) return [];
    const from = analysis.text.slice(end.span.start, end.span.end);
    const texts = [...leadTexts(core), length.written, `${from} to ${name}:in`];
    return [
      above(analysis, statement, [line, `run ${lead}  ${texts.join(', ')}`]),
      { span: end.span, newText: `${name}:out` },
    ];
  }
  const atFirst = cores[0]?.near === near;
  const [before, after] = [`${name}:in`, `${name}:out`];
  const { kept, other } = halves(analysis, whole, {
    name: lead,
    keeps: atFirst ? 'far' : 'near',
    share: atFirst ? length.share : 1 - length.share,
    jointOf: () => (atFirst ? { near: before, far: after } : { near: after, far: before }),
    at: stands.location,
    within: new Set(stands.box === undefined ? [] : [stands.box, ...boxesAround(stands.box)]),
  });
  return [above(analysis, statement, [line, ...other]), ...kept];
}
