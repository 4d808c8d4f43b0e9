/**
 * The drawing room: lays pictures out and keeps each, so that only what changed is told. It stands in a thread or worker of its
 * own, since a large layout takes longer than a key press; what goes to it and comes back is plain JSON.
 */
import { layOut } from '../reports/picture/lay-out.ts';
import { patchesBetween } from '../reports/picture/patches.ts';
import type {
  Drawing,
  DrawnElement,
  LayoutEngine,
  PictureGraph,
  PictureMark,
  SourceRange,
} from '../reports/picture/scene.ts';
import { type Exported, exported, type PaperTools, type WantedExport } from './exporting.ts';
import type { SentMark, SentPatch } from './picture-protocol.ts';

/** A graph without the places in the text: those change with every line and nothing is drawn from them. */
export type SentGraph = Omit<PictureGraph, 'sources' | 'marks'> & { readonly marks: readonly SentPictureMark[] };
type SentPictureMark = Omit<PictureMark, 'source'>;

export type DraftTask =
  /** Draws it anew from the one before under the same key, or whole where `afresh` or where there is none. */
  | { readonly does: 'draw'; readonly key: string; readonly graph: SentGraph; readonly afresh?: boolean }
  /** The newest as a file. */
  | { readonly does: 'export'; readonly key: string; readonly wanted: WantedExport }
  /** All of the newest. */
  | { readonly does: 'whole'; readonly key: string }
  | { readonly does: 'forget'; readonly key: string };

export interface Draft {
  readonly made: Drawing['made'];
  /** There was no drawing before: everything is put. */
  readonly isFirst: boolean;
  readonly patches: readonly SentPatch[];
}

export interface WholeDraft {
  readonly size: Drawing['size'];
  readonly elements: readonly DrawnElement[];
  readonly marks: readonly SentMark[];
}

export interface DraftAnswer {
  readonly draft?: Draft;
  readonly whole?: WholeDraft;
  readonly exported?: Exported;
}

/** Where drafts are made: in this process, a thread, or a worker of the client. Rejects when it cannot. */
export interface DrawingRoom {
  run(task: DraftTask): Promise<DraftAnswer>;
}

export class Drafting implements DrawingRoom {
  private readonly drawings = new Map<string, Drawing>();

  constructor(
    private readonly engine: LayoutEngine,
    /** Undefined where this process cannot make PNG and PDF. */
    private readonly paper?: PaperTools,
  ) {}

  async run(task: DraftTask): Promise<DraftAnswer> {
    const before = this.drawings.get(task.key);
    switch (task.does) {
      case 'forget':
        this.drawings.delete(task.key);
        return {};
      case 'export':
        return before === undefined ? {} : { exported: await exported(before, task.wanted, this.paper) };
      case 'whole':
        if (before === undefined) return {};
        return {
          whole: {
            size: before.size,
            elements: [...before.elements.values()],
            marks: before.marks.map(withoutSource),
          },
        };
      case 'draw': {
        const from = task.afresh === true ? undefined : before;
        const after = await layOut(withSources(task.graph), this.engine, from);
        this.drawings.set(task.key, after);
        const patches = patchesBetween(before ?? nothing(after), after);
        return { draft: { made: after.made, isFirst: before === undefined, patches: patches.map(sentPatch) } };
      }
    }
  }
}

const nowhere: SourceRange = { uri: '', start: 0, end: 0, nameStart: 0, nameEnd: 0 };

export function sentGraph({ sources: _, marks, ...graph }: PictureGraph): SentGraph {
  return { ...graph, marks: marks.map(withoutSource) };
}

function withSources(graph: SentGraph): PictureGraph {
  return { ...graph, sources: new Map(), marks: graph.marks.map((mark) => ({ ...mark, source: nowhere })) };
}

function withoutSource<Mark extends { readonly source: SourceRange }>({ source: _, ...mark }: Mark) {
  return mark;
}

function sentPatch(patch: ReturnType<typeof patchesBetween>[number]): SentPatch {
  return patch.does === 'marks' ? { does: 'marks', marks: patch.marks.map(withoutSource) } : patch;
}

function nothing(like: Drawing): Drawing {
  return { ...like, size: { width: 0, height: 0 }, elements: new Map(), marks: [] };
}
