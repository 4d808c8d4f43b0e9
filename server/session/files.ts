/**
 * Texts of files by address: what is open in the editor before what is on the disk. Every change of a file counts up its
 * revision, by which analyses know whether they are still true.
 */
import { type TextInBlocks, withLineFeeds } from '../../grammar/text-in-blocks.ts';
import type { FileText } from './protocol.ts';
import { whyMissing } from './protocol.ts';

export class Files {
  private readonly revisions = new Map<string, number>();
  private readonly disk = new Map<string, FileText>();
  private readonly reading = new Map<string, Promise<void>>();

  /** `open` gives the text of an open document, `fetch` that of any other file. */
  constructor(
    private readonly open: (uri: string) => TextInBlocks | undefined,
    private readonly fetch: (uri: string) => Promise<FileText>,
  ) {}

  revision(uri: string): number {
    return this.revisions.get(uri) ?? 0;
  }

  /** The file is not what it was: an edit, or a change on the disk. */
  changed(uri: string): void {
    this.revisions.set(uri, this.revision(uri) + 1);
    this.disk.delete(uri);
  }

  /** Files that were read from the disk. */
  read(): string[] {
    return [...this.disk.keys()];
  }

  /** Of the files that were looked for, or are being read, the one at an address and those in the folder at it. */
  lookedForAt(uri: string): string[] {
    return [...this.disk.keys(), ...this.reading.keys()].filter((one) => one === uri || one.startsWith(`${uri}/`));
  }

  isOpen(uri: string): boolean {
    return this.open(uri) !== undefined;
  }

  /** Text as far as it is known now; undefined while it has not been read. */
  now(uri: string): FileText | { readonly text: TextInBlocks } | undefined {
    const text = this.open(uri);
    return text === undefined ? this.disk.get(uri) : { text };
  }

  /** Reads a file into memory. What changes while it is being read is read again by whoever needs it next. */
  load(uri: string): Promise<void> {
    const running = this.reading.get(uri);
    if (running !== undefined) return running;
    const revision = this.revision(uri);
    const task = this.fetch(uri)
      .catch((error: unknown) => whyMissing(error))
      .then((read) => {
        this.reading.delete(uri);
        if (this.revision(uri) !== revision) return;
        this.disk.set(uri, 'text' in read ? { text: withLineFeeds(read.text) } : read);
      });
    this.reading.set(uri, task);
    return task;
  }
}
