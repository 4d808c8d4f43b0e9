/** What a run must say of itself and does not: size, ends, as many cores as the cable has. */
import type { Builder } from './builder.ts';
import { coreLines, coreNumbers } from './cores.ts';
import { slotNumber } from './facts.ts';
import type { PlacedProblem, Run } from './model.ts';
import { endOf, fix, isBroken, placeIn, problem } from './place.ts';
import { requireClauses, wantingEnds, wantingSize } from './required.ts';

/** `sure` is false where the stock of the run could not be read: then what may come from it is not asked for. */
export function checkRun(builder: Builder, run: Run, sure: boolean): void {
  const { origin, facts } = run;
  const { spec } = origin.statement.shaped;
  if (spec === undefined || isBroken(origin)) return;
  const sizeless = sure && run.size === undefined && !run.sizeBlank;
  const ends = endProblems(run);
  // A line that says neither is one that is being written.
  const endless = run.cores.length <= 1 && ends.length > 0;
  const isWanting = requireClauses(
    builder,
    origin,
    spec,
    facts.facts,
    sizeless ? [wantingSize] : [],
    endless ? [wantingEnds] : [],
  );
  if (!isWanting || !endless) builder.problems.push(...ends);
  // Without a size nobody knows how many cores there are.
  if (ends.length === 0 && sure && !sizeless) builder.problems.push(...countProblems(run));
}

function endProblems(run: Run): PlacedProblem[] {
  const { name, cores } = run;
  if (cores.length === 0)
    return [
      problem(
        'end-missing',
        run.namePlace,
        `Run ${name} does not say where it goes: give its two ends, such as “F1:out to LAMP:+”.`,
        { subject: name },
      ),
    ];
  const lines = coreLines(run.origin.statement.shaped.clauses);
  return cores.flatMap(({ spare, fromPlace, colour, colourPlace, place, label }, index) => {
    if (spare || fromPlace !== undefined) return [];
    if (cores.length > 1 && lines[index]?.first.line === 0 && colourPlace !== undefined)
      return [
        problem(
          'cores-miscounted',
          colourPlace,
          `Each core of ${name} says its colour on a line of its own: take ${colour} out here, or give this core its ends.`,
          { subject: name, figures: { core: label }, fixes: [fix(`Take ${colour} out`, colourPlace, '')] },
        ),
      ];
    return [
      problem(
        'end-missing',
        place,
        `${capitalised(label, cores.length)} of ${name} does not say where it goes: give its two ends, or say spare.`,
        {
          subject: name,
          figures: { core: label },
          fixes: cores.length > 1 ? [fix('Say that it is spare', endOf(place), ' spare')] : [],
        },
      ),
    ];
  });
}

function capitalised(label: string, count: number): string {
  if (count === 1) return 'The core';
  return label.startsWith('core ') ? `Core ${label.slice(5)}` : `The ${label} core`;
}

function countProblems(run: Run): PlacedProblem[] {
  const { name, facts, cores } = run;
  const times = facts.slot('size', 'cores');
  const said = times === undefined ? 1 : (slotNumber(times) ?? 1);
  const plural = (count: number, one: string) => `${count} ${one}${count === 1 ? '' : 's'}`;
  if (said !== cores.length) {
    const own = facts.fact('size')?.fromStock === undefined;
    const place = own ? (times === undefined ? run.sizePlace : facts.place('size', 'cores')) : facts.place('size');
    const size = facts.written('size', 'size') ?? '? mm²';
    const right = cores.length === 1 ? size : `${cores.length} x ${size}`;
    const whole = facts.place('size');
    return [
      problem(
        'cores-miscounted',
        place,
        `Run ${name} has ${plural(said, 'core')} by its size but says where ${cores.length === 1 ? 'one goes' : `${cores.length} go`}: write a line for each core, ${said > cores.length ? 'those not used as spare, ' : ''}or correct the size to ${right}.`,
        {
          subject: name,
          figures: { coresSaid: said, coresWritten: cores.length },
          fixes: own ? [fix(`Write ${right}`, whole, right)] : [],
        },
      ),
    ];
  }
  const lines = coreLines(run.origin.statement.shaped.clauses);
  const numbers = coreNumbers(lines);
  const seen = new Set<number>();
  const wrong = lines.findIndex(({ number }, index) => {
    const own = numbers[index] ?? 0;
    const amiss = own > said || own < 1 || !Number.isInteger(own) || seen.has(own);
    seen.add(own);
    return number !== undefined && amiss;
  });
  const line = lines[wrong];
  if (line?.number === undefined) return [];
  const own = numbers[wrong] ?? 0;
  const twice = numbers.indexOf(own) < wrong;
  return [
    problem(
      'cores-miscounted',
      placeIn(run.origin, line.number.span),
      twice
        ? `Core ${own} of ${name} is told of twice: number the cores from 1 to ${said}, each once.`
        : `Run ${name} has ${plural(said, 'core')}, so none is core ${own}: number them from 1 to ${said}.`,
      { subject: name, figures: { coresSaid: said, core: own } },
    ),
  ];
}
