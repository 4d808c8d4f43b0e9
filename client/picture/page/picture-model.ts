/** The picture as the page has it: elements by id, changed by patches, so that what did not change is the same object. */
import type { DrawnElement } from '../../../server/reports/picture/scene.ts';
import type { PictureChange, PictureFacts, SentMark, WholePicture } from '../../../server/session/picture-protocol.ts';

/** What has to be drawn again. */
export interface Changed {
  readonly put: ReadonlySet<string>;
  readonly removed: ReadonlySet<string>;
  readonly marks: boolean;
  readonly size: boolean;
}

export class PictureModel {
  readonly elements = new Map<string, DrawnElement>();
  marks: readonly SentMark[] = [];
  size = { width: 1, height: 1 };
  facts: PictureFacts | undefined;
  private number = Number.NaN;

  /** What differs from before: what is the same by its content stays the same object. */
  begin({ number, elements, marks, size, facts }: WholePicture): Changed {
    const put = new Set<string>();
    const ids = new Set(elements.map(({ id }) => id));
    const removed = new Set([...this.elements.keys()].filter((id) => !ids.has(id)));
    for (const id of removed) this.elements.delete(id);
    for (const element of elements) {
      const before = this.elements.get(element.id);
      if (before !== undefined && JSON.stringify(before) === JSON.stringify(element)) continue;
      this.elements.set(element.id, element);
      put.add(element.id);
    }
    this.marks = marks;
    this.size = size;
    this.facts = facts;
    this.number = number;
    return { put, removed, marks: true, size: true };
  }

  /** Undefined when the change is not from the picture that is here: then the whole is wanted. */
  apply({ from, to, patches, facts }: PictureChange): Changed | undefined {
    if (from !== this.number) return undefined;
    this.number = to;
    this.facts = facts;
    const put = new Set<string>();
    const removed = new Set<string>();
    let [marks, size] = [false, false];
    for (const patch of patches)
      switch (patch.does) {
        case 'remove':
          this.elements.delete(patch.id);
          put.delete(patch.id);
          removed.add(patch.id);
          break;
        case 'put':
          this.elements.set(patch.id, patch.element);
          removed.delete(patch.id);
          put.add(patch.id);
          break;
        case 'marks':
          this.marks = patch.marks;
          marks = true;
          break;
        case 'size':
          this.size = patch.size;
          size = true;
          break;
      }
    return { put, removed, marks, size };
  }
}
