/** What of the drawing before stands for what is drawn now: parts, cores, their ends and the walls round them. */
import { type Directions, directionsOf } from './directions.ts';
import { drawnGroup } from './elements.ts';
import { ownersOf } from './engine-graph.ts';
import { type PartEnd, wingBefore } from './keep-parts.ts';
import { type Matching, matchingOf } from './matching.ts';
import type { Wing } from './plan.ts';
import { same } from './same.ts';
import type { Drawing, DrawnCore, DrawnGroup, DrawnPart, PictureCore, PictureGraph, PicturePart } from './scene.ts';

/** Why the drawing before is no use. */
export class Why extends Error {}

export class Before {
  readonly matching: Matching;
  readonly owners: ReadonlyMap<string, PicturePart>;
  private readonly directions: Directions;
  private readonly pictured: ReadonlyMap<string, PicturePart>;
  /** Ids of boxes and regions before by ids now. */
  private readonly boxes: ReadonlyMap<string, string>;
  private readonly attached = new Map<string, number>();

  constructor(
    readonly graph: PictureGraph,
    readonly drawing: Drawing,
  ) {
    this.pictured = new Map(drawing.graph.parts.map((part) => [part.name, part]));
    const { parts, runs } = matchingOf(drawing.graph, graph);
    this.boxes = boxesBefore(drawing.graph, graph, parts);
    const stayed = graph.parts.flatMap((part) => {
      const before = parts.get(part.name);
      return before === undefined || !this.isInItsBox(part, before) ? [] : [[part.name, before] as const];
    });
    this.matching = { parts: new Map(stayed), runs };
    this.directions = directionsOf(graph);
    this.owners = ownersOf(graph);
    const owners = ownersOf(drawing.graph);
    for (const { from, to } of drawing.graph.cores)
      for (const end of [from, to]) {
        const part = owners.get(end)?.name ?? '';
        this.attached.set(part, (this.attached.get(part) ?? 0) + 1);
      }
  }

  part(name: string): DrawnPart | undefined {
    const before = this.matching.parts.get(name);
    const old = before === undefined ? undefined : this.drawing.elements.get(`part:${before}`);
    return old?.is === 'part' ? old : undefined;
  }

  core({ run, index }: PictureCore): DrawnCore | undefined {
    const before = this.matching.runs.get(run);
    const old = before === undefined ? undefined : this.drawing.elements.get(`core:${before}/${index}`);
    return old?.is === 'core' ? old : undefined;
  }

  partAt(terminal: string): PicturePart | undefined {
    return this.owners.get(terminal);
  }

  /** The core as it was, if that end of it is still at the same terminal, whatever its part is called. */
  endOf(core: PictureCore, which: 'from' | 'to'): DrawnCore | undefined {
    const name = this.partAt(core[which])?.name ?? '';
    const terminal = (this.matching.parts.get(name) ?? '') + core[which].slice(name.length);
    const old = this.core(core);
    return old?.[which] === terminal ? old : undefined;
  }

  endsAt(part: PicturePart): PartEnd[] {
    const own = new Map(part.terminals.map(({ id, name }) => [id, name]));
    return this.graph.cores.flatMap((core) =>
      (['from', 'to'] as const).flatMap((which): PartEnd[] => {
        const terminal = own.get(core[which]);
        if (terminal === undefined) return [];
        const old = this.endOf(core, which);
        const other = this.part(this.partAt(core[which === 'from' ? 'to' : 'from'])?.name ?? '');
        return [
          {
            key: `${core.id}#${which}`,
            core: core.id,
            terminal,
            wants: old === undefined ? this.wants(core, which) : wingBefore(old, which),
            before: which === 'from' ? old?.points[0] : old?.points.at(-1),
            other: other === undefined ? undefined : other.body.y + other.body.height / 2,
          },
        ];
      }),
    );
  }

  private wants(core: PictureCore, which: 'from' | 'to'): Wing {
    const at = (terminal: string) => this.directions.of(this.partAt(terminal)?.name ?? '');
    return at(core.from) <= at(core.to) === (which === 'from') ? 'right' : 'left';
  }

  /** Whether a part says and holds what it said and held. */
  isSame(part: PicturePart, ends: readonly PartEnd[]): boolean {
    const name = this.matching.parts.get(part.name) ?? '';
    const before = this.pictured.get(name);
    return (
      before !== undefined &&
      same({ ...before, ordinal: 0 }, { ...part, ordinal: 0 }) &&
      ends.length === (this.attached.get(name) ?? 0) &&
      ends.every((end) => end.before !== undefined)
    );
  }

  /** Walls that stand as they were. */
  groups(): DrawnGroup[] {
    const { graph, drawing, boxes } = this;
    const before = new Map(drawing.graph.groups.map((group) => [group.id, group]));
    return graph.groups.flatMap((group): DrawnGroup[] => {
      const old = boxes.get(group.id);
      const drawn = old === undefined ? undefined : drawing.elements.get(old);
      if (old === undefined || drawn === undefined || (drawn.is !== 'enclosure' && drawn.is !== 'place')) return [];
      const parent = group.parent === undefined ? undefined : (boxes.get(group.parent) ?? group.parent);
      if (parent !== before.get(old)?.parent) throw new Why(`${group.name} stands in another box`);
      const next = drawnGroup(group, drawn.box);
      return [same(next, drawn) ? drawn : next];
    });
  }

  /** Whether it stands in the box it stood in: else it is placed as if it were new. */
  private isInItsBox({ group }: PicturePart, before: string): boolean {
    const old = this.pictured.get(before);
    return old !== undefined && old.group === (group === undefined ? undefined : this.boxes.get(group));
  }
}

/** A box by its own name, else, when that is new, by the parts that stood in one whose name has gone. */
function boxesBefore(
  before: PictureGraph,
  now: PictureGraph,
  parts: ReadonlyMap<string, string>,
): ReadonlyMap<string, string> {
  const names = new Set(now.groups.map(({ id }) => id));
  const gone = new Set(before.groups.map(({ id }) => id).filter((id) => !names.has(id)));
  const groupBefore = new Map(before.parts.map(({ name, group }) => [name, group]));
  const found = new Map(before.groups.filter(({ id }) => names.has(id)).map(({ id }) => [id, id]));
  for (const { name, group } of now.parts) {
    const old = groupBefore.get(parts.get(name) ?? '');
    if (group === undefined || found.has(group) || old === undefined || !gone.delete(old)) continue;
    found.set(group, old);
  }
  return found;
}
