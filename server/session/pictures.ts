/**
 * The pictures that are shown: each follows its spec, and is told to the client by what changed. What is drawn is thought out
 * here, in a moment; where it stands is worked out in the drawing room.
 */
import type { Location, Position } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import { factsOf } from '../editor/picture/facts.ts';
import { type LastGood, languageErrors, loses, newError } from '../editor/picture/half-way.ts';
import { elementsAt, sourceOf } from '../editor/picture/places.ts';
import { linesOf } from '../editor/ranges.ts';
import { cardsOf, hasCard } from '../reports/cards/card-of.ts';
import { figuresOf } from '../reports/picture/figures.ts';
import { pictureOf } from '../reports/picture/picture-of.ts';
import type { PictureGraph } from '../reports/picture/scene.ts';
import { findingLines } from '../reports/sheets/finding-sheets.ts';
import { counted } from '../reports/sheets/sheet.ts';
import { type DrawingRoom, sentGraph } from './drafting.ts';
import type { WantedExport } from './exporting.ts';
import {
  type ExportAnswer,
  type ExportParams,
  type OpenPictureParams,
  type PictureChange,
  type PictureFacts,
  type SentPatch,
  sentFigures,
  type WholePicture,
} from './picture-protocol.ts';
import { Refresher } from './refresher.ts';

export interface PicturesHost {
  /** The newest analysis of a spec; undefined where there is no such file. */
  analysis(uri: string): Promise<Analysis | undefined>;
  /** The same, and while that takes long as far as the names are known: somebody who types without a pause is shown that. */
  soonest(uri: string): Promise<Analysis | undefined>;
  readonly room: DrawingRoom;
  /** Tells the client of a change, by the address that the picture was opened with. */
  tell(change: PictureChange): void;
  failed(error: unknown): void;
}

interface Shown {
  readonly uri: string;
  readonly asked: OpenPictureParams;
  readonly refresher: Refresher;
  number: number;
  analysis: Analysis;
  /** Of the newest text, whether or not it is drawn. */
  graph: PictureGraph;
  good: LastGood;
  /** What is drawn, as text: to see at once when nothing is to be drawn. */
  drawn: string;
  facts: PictureFacts;
}

interface Newest {
  readonly analysis: Analysis;
  readonly graph: PictureGraph;
}

/** More than anybody types. */
const numbersEach = 1_000_000;

export class Pictures {
  private readonly shown = new Map<string, Shown>();
  private opened = 0;
  /** The last work on a picture: the next begins when it is done, so that each is told from the one before. */
  private turn: Promise<unknown> = Promise.resolve();

  constructor(private readonly host: PicturesHost) {}

  /** Shows a spec by its normal address, or shows it in another way. */
  open(uri: string, asked: OpenPictureParams): Promise<WholePicture | undefined> {
    return this.inTurn(() => this.openNow(uri, asked));
  }

  private async openNow(uri: string, asked: OpenPictureParams): Promise<WholePicture | undefined> {
    const before = this.shown.get(uri);
    this.opened += 1;
    const analysis = await this.host.analysis(uri);
    if (analysis === undefined) return undefined;
    const graph = pictureOf(analysis, asked);
    const sent = sentGraph(graph);
    await this.host.room.run({
      does: 'draw',
      key: uri,
      graph: sent,
      ...(before === undefined ? { afresh: true } : {}),
    });
    const { whole } = await this.host.room.run({ does: 'whole', key: uri });
    if (whole === undefined) return undefined;
    before?.refresher.stop();
    const one: Shown = {
      uri,
      asked,
      refresher: new Refresher(() => this.inTurn(() => this.refresh(uri))),
      // Never that of an older picture of the same spec.
      number: this.opened * numbersEach,
      analysis,
      graph,
      good: { graph, errors: languageErrors(analysis) },
      drawn: JSON.stringify(sent),
      facts: { ...factsOf(analysis, graph), cards: cardsIn(analysis), held: undefined },
    };
    this.shown.set(uri, one);
    return { uri: asked.uri, number: one.number, ...whole, facts: one.facts };
  }

  close(uri: string): void {
    this.shown.get(uri)?.refresher.stop();
    this.shown.delete(uri);
    this.host.room.run({ does: 'forget', key: uri }).catch((error) => this.host.failed(error));
  }

  /** A file is not what it was. */
  changed(uri: string): void {
    for (const one of this.shown.values())
      if (one.uri === uri || one.analysis.model.files.some((file) => file.uri === uri)) one.refresher.changed();
  }

  stop(): void {
    for (const { refresher } of this.shown.values()) refresher.stop();
  }

  /** Where an element is written, as the text is now. */
  async sourceOf(uri: string, element: string): Promise<Location | undefined> {
    // Findings are known when all is worked out.
    const known = element.startsWith('mark:') ? this.host.analysis : this.host.soonest;
    const now = await this.newest(uri, known);
    return now === undefined ? undefined : sourceOf(now.analysis, now.graph, element);
  }

  async elementsAt(uri: string, file: string, position: Position): Promise<readonly string[]> {
    const now = await this.newest(uri, this.host.soonest);
    if (now === undefined) return [];
    return elementsAt(now.analysis, now.graph, file, linesOf(now.analysis, file).offset(position));
  }

  /** The picture that is shown, as a file. */
  async exported(uri: string, { format, caseName, shade }: ExportParams, at: Date): Promise<ExportAnswer> {
    const now = await this.newest(uri, this.host.analysis);
    if (now === undefined) return null;
    const { analysis } = now;
    const figures = caseName === '' ? undefined : figuresOf(analysis, caseName);
    const file = uri.slice(uri.lastIndexOf('/') + 1);
    const wanted: WantedExport = {
      format,
      figures: figures === undefined ? undefined : sentFigures(figures),
      shade: shade === 'none' ? undefined : shade,
      cards: cardsOf(analysis),
      findings: findingLines(analysis),
      facts: {
        title: analysis.model.system.title ?? decodeURIComponent(file),
        file: decodeURIComponent(file),
        revision: undefined,
        date: `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`,
        findings: counted(analysis.findings),
      },
      at: at.getTime(),
    };
    const { exported } = await this.inTurn(() => this.host.room.run({ does: 'export', key: uri, wanted }));
    return exported ?? null;
  }

  private inTurn<T>(work: () => Promise<T>): Promise<T> {
    const mine = this.turn.then(work);
    this.turn = mine.catch(() => {});
    return mine;
  }

  private async newest(
    uri: string,
    known: (uri: string) => Promise<Analysis | undefined>,
  ): Promise<Newest | undefined> {
    const one = this.shown.get(uri);
    const analysis = await known(uri);
    if (one === undefined || analysis === undefined) return undefined;
    return { analysis, graph: one.analysis === analysis ? one.graph : pictureOf(analysis, one.asked) };
  }

  private async refresh(uri: string): Promise<void> {
    try {
      const analysis = await this.host.soonest(uri);
      const one = this.shown.get(uri);
      if (one === undefined || analysis === undefined) return;
      // What is not worked out yet comes when it is.
      if (!analysis.isWorkedOut) one.refresher.changed();
      if (analysis === one.analysis) return;
      if (analysis.isWorkedOut) await this.refreshWhole(one, analysis);
      else await this.refreshNames(one, analysis);
    } catch (error) {
      this.host.failed(error);
    }
  }

  private async refreshWhole(one: Shown, analysis: Analysis): Promise<void> {
    const graph = pictureOf(analysis, one.asked);
    const error = newError(analysis, one.good);
    const isHeld = error !== undefined && one.asked.asItStands !== true && loses(one.good, graph);
    const patches = isHeld ? [] : await this.drawnAnew(one, graph);
    one.analysis = analysis;
    one.graph = graph;
    if (error === undefined) one.good = { graph, errors: languageErrors(analysis) };
    const held =
      !isHeld || error === undefined
        ? undefined
        : {
            message: error.message,
            uri: error.place.uri,
            at: linesOf(analysis, error.place.uri).position(error.place.span.start),
          };
    // While it is held, what stands beside it is that of the picture too.
    one.facts = isHeld
      ? { ...one.facts, held }
      : { ...factsOf(analysis, graph), cards: cardsIn(analysis), held: undefined };
    this.tell(one, patches);
  }

  /** Of a text that is not worked out: parts and cables as they are written, with the findings of the text before. */
  private async refreshNames(one: Shown, analysis: Analysis): Promise<void> {
    const written = pictureOf(analysis, one.asked);
    if (loses(one.good, written)) return;
    const graph = { ...written, marks: one.graph.marks };
    one.analysis = analysis;
    one.graph = graph;
    this.tell(one, await this.drawnAnew(one, graph));
  }

  /** Undefined patches: the room has lost its last drawing, and a number that nobody has makes the view ask for the whole. */
  private tell(one: Shown, patches: readonly SentPatch[] | undefined): void {
    if (patches === undefined) one.number += 1;
    const from = one.number;
    if (patches === undefined || patches.length > 0) one.number += 1;
    this.host.tell({ uri: one.asked.uri, from, to: one.number, patches: patches ?? [], facts: one.facts });
  }

  /** Undefined where the drawing room has lost what it drew before. */
  private async drawnAnew(one: Shown, graph: PictureGraph): Promise<readonly SentPatch[] | undefined> {
    const sent = sentGraph(graph);
    const text = JSON.stringify(sent);
    if (text === one.drawn) return [];
    const { draft } = await this.host.room.run({ does: 'draw', key: one.uri, graph: sent });
    one.drawn = text;
    return draft?.isFirst === false ? draft.patches : undefined;
  }
}

function cardsIn({ model }: Analysis): string[] {
  return [...model.parts.values()].filter(hasCard).map(({ name }) => name);
}

const two = (value: number) => String(value).padStart(2, '0');
