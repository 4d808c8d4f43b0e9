/** A part of any kind: what is said of it, then what its family is asked about. */
import type { Analysis } from '../../analysis.ts';
import type { Part } from '../../model/model.ts';
import { amps, dropVolts, listed, percent, volts } from '../../reports/figures.ts';
import { type Block, line } from '../markup.ts';
import { takenBy } from '../taken.ts';
import { accepted, heading, said } from './about.ts';
import { enduranceHover } from './battery.ts';
import { cardPicture } from './card.ts';
import { caseTable, troubles } from './cases.ts';
import { chosenFor } from './chosen.ts';
import { deviceHover } from './devices.ts';
import { enclosureHover, entryHover } from './enclosure.ts';
import { protectedBy } from './protection.ts';
import { sunHover } from './sun.ts';
import { switchingHover } from './switching.ts';
import { terminalTable } from './terminal.ts';

export function partHover(analysis: Analysis, part: Part): Block[] {
  const electric = part.terminals.length > 0;
  return [
    ...heading(part, part.kind.word === part.kind.title ? part.kind.word : `${part.kind.word} (${part.kind.title})`),
    ...cardPicture(analysis, part),
    ...said(part.facts),
    ...chosenFor(analysis, part.name),
    ...inside(analysis, part),
    ...(electric ? [...caseTable(analysis.answers, part), ...troubles(analysis.answers)] : []),
    ...accepted(analysis, part.name),
  ];
}

function inside(analysis: Analysis, part: Part): Block[] {
  switch (part.kind.family) {
    case 'protection':
      return deviceHover(analysis, part);
    case 'switching':
      return switchingHover(analysis, part);
    case 'enclosure':
      return part.kind.word === 'entry' ? entryHover(analysis, part) : enclosureHover(analysis, part);
    case 'load':
      return [...fed(analysis, part), ...terminalTable(analysis, part)];
    default:
      if (part.kind.word === 'battery') return [...enduranceHover(analysis, part), ...terminalTable(analysis, part)];
      return [
        ...(analysis.answers.loads.has(part.name) ? fed(analysis, part) : []),
        ...sunHover(analysis, part),
        ...terminalTable(analysis, part),
      ];
  }
}

/** A load: what feeds it, what protects its feed, and its worst voltage. */
function fed(analysis: Analysis, part: Part): Block[] {
  const figures = analysis.answers.loads.get(part.name);
  if (figures === undefined) return [];
  if (figures.source === undefined) return [line('No source feeds it.')];
  const lowest = part.facts.number('lowest');
  const highest = part.facts.number('highest');
  const floor = lowest === undefined ? '' : `, and it works down to ${volts(lowest)}`;
  const roof = highest === undefined ? '' : `${floor === '' ? ', and it' : ' and'} bears up to ${volts(highest)}`;
  const taken = takenBy(part, analysis.answers);
  const inFull = taken?.inFull === undefined ? '' : `, ${amps(taken.inFull)} when it gives all it can`;
  const feed = analysis.answers.network.at.get(part.terminals[0]?.id ?? '')?.find((edge) => edge.is === 'core');
  const protection = feed?.is === 'core' ? analysis.answers.cores.get(feed.core)?.protection : undefined;
  return [
    line(
      `Fed from ${figures.source.name} over ${figures.cores.length === 0 ? 'no cable' : listed([...new Set(figures.cores.map(({ run }) => run.name))])}. Design current ${amps(taken?.amps)}${inFull}.`,
    ),
    ...(protection === undefined ? [] : [line(protectedBy(protection))]),
    ...(figures.worstCase === ''
      ? []
      : [
          line(
            `Worst in ${figures.worstCase}: ${dropVolts(figures.dropVolts)} lost on the way, ${percent(figures.dropPercent)} of ${volts(figures.supplyVolts)}; at least ${volts(figures.lowestVolts)} at its terminals in every case${floor}${roof}.`,
          ),
        ]),
  ];
}
