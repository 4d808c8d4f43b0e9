/** How what was measured is told: a line a figure, with what is wanted beside it. */
import type { Measures, Times } from './yardstick.ts';

const width = 40;
const digits = (value: number | undefined) => (value === undefined ? '–' : value.toFixed(value < 10 ? 1 : 0));
const yesOrNo = (holds: boolean) => (holds ? 'yes' : 'NO');

export function heading(name: string, { edit, othersCpuPercent }: Measures): string {
  const others =
    othersCpuPercent === undefined ? '' : `; other programs took ${digits(othersCpuPercent)} % of the machine`;
  return `${name}: ${edit.n} edits, each answered truly${others}`;
}

export function editTold(name: string, times: Times | undefined, wanted?: readonly [number, number]): string {
  const told = `  ${name.padEnd(width)}${digits(times?.p50).padStart(6)} / ${digits(times?.p95)} ms`;
  if (wanted === undefined || times?.p50 === undefined || times.p95 === undefined) return told;
  const [p50, p95] = wanted;
  return `${told.padEnd(width + 24)}wanted ${p50} / ${p95}: ${yesOrNo(times.p50 <= p50)} / ${yesOrNo(times.p95 <= p95)}`;
}

export function figureTold(name: string, value: number | undefined, wanted?: number, unit = 'ms'): string {
  const told = `  ${name.padEnd(width)}${digits(value).padStart(6)} ${unit}`;
  if (wanted === undefined || value === undefined) return told;
  return `${told.padEnd(width + 24)}wanted ${wanted}: ${yesOrNo(value <= wanted)}`;
}

/** A peer's figures, and how many times as long as it we take from edit to findings: at most 1 is wanted. */
export function besidePeers(name: string, peer: Measures, { edit }: Measures): string {
  const told = editTold(`beside ${name}`, peer.edit).padEnd(width + 24);
  const ratio = (ours: number | undefined, theirs: number | undefined) =>
    ours === undefined || theirs === undefined ? '–' : (ours / theirs).toFixed(2);
  const more = `start ${digits(peer.spawnToFirstDiagMs)} ms, ${digits(peer.rssPeakMB)} MB`;
  return `${told}ours to its ${ratio(edit.p50, peer.edit.p50)} / ${ratio(edit.p95, peer.edit.p95)}; ${more}`;
}
