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
  private readonly attached = new Map<string, number>();

  constructor(
    readonly graph: PictureGraph,
    readonly drawing: Drawing,
  ) {
    this.matching = matchingOf(drawing.graph, graph);
    this.directions = directionsOf(graph);
    this.owners = ownersOf(graph);
    this.pictured = new Map(drawing.graph.parts.map((part) => [part.name, part]));
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

  /** Walls as they were; when a part stands in another box than before, the whole is laid out. */
  groups(): DrawnGroup[] {
    const { graph, drawing } = this;
    const before = new Map(drawing.graph.groups.map((group) => [group.id, group]));
    const oldIds = new Map(graph.groups.map(({ id }) => [id, this.groupBefore(id)]));
    const oldId = (id: string | undefined) => (id === undefined ? undefined : oldIds.get(id));
    for (const { name, group } of graph.parts) {
      const old = this.pictured.get(this.matching.parts.get(name) ?? '');
      if (old !== undefined && old.group !== oldId(group)) throw new Why(`${name} stands in another box`);
    }
    return graph.groups.map((group): DrawnGroup => {
      const old = oldIds.get(group.id);
      const drawn = old === undefined ? undefined : drawing.elements.get(old);
      if (old === undefined || drawn === undefined || (drawn.is !== 'enclosure' && drawn.is !== 'place'))
        throw new Why(`${group.name} is new`);
      if (oldId(group.parent) !== before.get(old)?.parent) throw new Why(`${group.name} stands in another box`);
      const next = drawnGroup(group, drawn.box);
      return same(next, drawn) ? drawn : next;
    });
  }

  /** Its own name, else that of the box its parts stood in. */
  private groupBefore(id: string): string | undefined {
    if (this.drawing.elements.has(id)) return id;
    for (const { name, group } of this.graph.parts) {
      const old = this.pictured.get(this.matching.parts.get(name) ?? '');
      if (group === id && old !== undefined) return old.group;
    }
    return undefined;
  }
}
