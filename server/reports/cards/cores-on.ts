/** The cores on a terminal, as a fitter tells them apart: by colour, size and where they go to. */
import type { Analysis } from '../../analysis.ts';
import { colours } from '../../kinds/colours.ts';
import type { Core, Terminal } from '../../model/model.ts';
import type { CardCore } from './card.ts';

export function coresOn(analysis: Analysis, terminal: Terminal): CardCore[] {
  const edges = analysis.answers.network.at.get(terminal.id) ?? [];
  return edges.flatMap((edge) =>
    edge.is === 'core' ? [cardCore(analysis, edge.core, edge.from === terminal ? edge.to : edge.from)] : [],
  );
}

function cardCore({ answers }: Analysis, core: Core, other: Terminal): CardCore {
  const { run, colour } = core;
  const alike = run.cores.filter((one) => one.colour === colour).length;
  return {
    run: run.name,
    core: run.cores.length > 1 && (colour === undefined || alike > 1) ? `core ${core.index + 1}` : '',
    colour,
    shades: colour === undefined ? [] : colour.split('/').flatMap((word) => colours.get(word)?.css ?? []),
    size: run.size?.written ?? (run.sizeBlank ? 'size still open' : 'size not said'),
    sign: answers.polarities.ofCore(core),
    other: other.id,
    otherTitle: other.part.title,
  };
}
