/** Which way current can flow, and what flows for a time: told only where it adds to what the cases say. */
import type { Analysis } from '../../analysis.ts';
import type { ContactFigures, CoreFigures, ShortCurrent } from '../../answers/answers.ts';
import { held } from '../../answers/holding.ts';
import type { Part, Run } from '../../model/model.ts';
import { secondsBorne } from '../../physics/short-time.ts';
import { amps, listed, percent } from '../../reports/figures.ts';
import { forTime, seconds } from '../../rules/words.ts';
import { cite } from '../../tables/table.ts';
import { type Block, list } from '../markup.ts';

export function flowLines({ answers }: Analysis, run: Run): Block[] {
  const cores = (answers.runs.get(run) ?? []).filter(({ core }) => !core.spare);
  const lines = new Map<string, string[]>();
  for (const figures of cores)
    for (const text of [...bothWays(figures, answers), ...forATime(figures, answers)])
      lines.set(text, [...(lines.get(text) ?? []), figures.core.label]);
  return list(
    [...lines].map(([text, labels]) => (labels.length === cores.length ? text : `${listed(labels)}: ${text}`)),
  );
}

/** A return goes the way of its feed: only that is told. */
function bothWays({ core, isReturn }: CoreFigures, { directions }: Analysis['answers']): string[] {
  const { forward, backward } = directions.ofCore(core);
  if (isReturn || forward.sources.length === 0 || backward.sources.length === 0) return [];
  const by = (sources: readonly Part[]) => listed(sources.slice(0, 6).map(({ name }) => name));
  return [
    `Can be driven both ways: from ${core.from?.id ?? '?'} by ${by(forward.sources)} (lasting ${amps(forward.lastingAmps)}), from ${core.to?.id ?? '?'} by ${by(backward.sources)} (lasting ${amps(backward.lastingAmps)}).`,
  ];
}

function forATime({ core, onPanelSide }: CoreFigures, { directions }: Analysis['answers']): string[] {
  const { runs, starts, cranks, lastingAmps } = directions.ofCore(core);
  const all = [...runs, ...starts, ...cranks];
  const warming = directions.warmingOf(core);
  const borne = ({ is, amps: most }: ShortCurrent) => {
    const time =
      warming === undefined || is === 'cranks'
        ? Number.POSITIVE_INFINITY
        : secondsBorne(Math.abs(most), lastingAmps, warming);
    return Number.isFinite(time) ? `; it bears that for ${seconds(time)}` : '';
  };
  if (onPanelSide || all.length === 0) return [];
  const timed = [...runs, ...starts].some((one) => one.seconds !== undefined);
  return [
    ...all.map((one) => `${carried(one)}${borne(one)}.`),
    ...(timed ? [`Over time that warms it like ${amps(directions.heatingAmps(core))} without end.`] : []),
  ];
}

/** `Carries 100 A for 30 s while WINCH runs, 0.1 % of the day`. */
function carried(one: ShortCurrent): string {
  const share = one.duty === undefined ? '' : `, ${percent(100 * one.duty)} of the day`;
  const unsaid = one.seconds === undefined ? '; for how long is not said' : '';
  return `Carries ${amps(Math.abs(one.amps))} ${forTime(one)}${share}${unsaid}`;
}

/** What flows through a device for a time above its rating, and how long it holds that. */
export function heldLines({ answers }: Analysis, { part, pole, device }: ContactFigures): Block[] {
  const { runs, starts, cranks } = answers.directions.ofContact(part, pole);
  const rating = device?.amps;
  if (rating === undefined) return [];
  return list(
    [...runs, ...starts, ...cranks].flatMap((one) => {
      const { time, from } = held(part, rating, one);
      if (Math.abs(one.amps) <= rating) return [];
      const by = from === undefined || from === 'stated' ? '' : ` by ${cite(from)}`;
      const opens =
        time === undefined
          ? 'how long it holds that nothing tells'
          : Number.isFinite(time.most)
            ? `at that it opens after ${seconds(time.least)} to ${seconds(time.most)}${by}`
            : Number.isFinite(time.least)
              ? `at that it need not open, and does not before ${seconds(time.least)}${by}`
              : `it holds that${by}`;
      return [`${carried(one)}; ${opens}.`];
    }),
  );
}
