/** Requests for the picture: shown and hidden, what a case makes flow in it, the way of a load, and back to the text. */
import type { Connection } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import { cardOf, hasCard } from '../reports/cards/card-of.ts';
import { drawCard } from '../reports/cards/draw-card.ts';
import { figuresOf } from '../reports/picture/figures.ts';
import { traceOf } from '../reports/picture/trace.ts';
import type { DrawingRoom } from './drafting.ts';
import { guarded, guardedTask, oneLine } from './guard.ts';
import {
  type CardAnswer,
  type CardParams,
  closePictureNotification,
  type ElementsParams,
  type ExportAnswer,
  type ExportParams,
  type FiguresParams,
  type OpenPictureParams,
  openPictureRequest,
  type PictureParams,
  pictureCardRequest,
  pictureChangedNotification,
  pictureElementsRequest,
  pictureExportRequest,
  pictureFiguresRequest,
  pictureSourceRequest,
  pictureTraceRequest,
  type SentFigures,
  type SourceAnswer,
  type SourceParams,
  sentFigures,
  type TraceAnswer,
  type TraceParams,
  type WholePicture,
} from './picture-protocol.ts';
import { Pictures } from './pictures.ts';
import { sameSpelling } from './uris.ts';

export interface PictureHost {
  /** Analysis of a spec by its normal address, open in the editor or not; undefined where there is no such file. */
  analysis(uri: string): Promise<Analysis | undefined>;
  /** The same as soon as its names are known, where all of it takes longer than somebody who types should wait. */
  soonest(uri: string): Promise<Analysis | undefined>;
  /** An address as the client writes it. */
  clientUri(uri: string): string;
  readonly room: DrawingRoom;
}

export function registerPicture(connection: Connection, { analysis, soonest, clientUri, room }: PictureHost): Pictures {
  const log = connection.console;
  const pictures = new Pictures({
    analysis,
    soonest,
    room,
    tell: (change) => void connection.sendNotification(pictureChangedNotification, change),
    failed: (error) => log.error(`picture failed: ${oneLine(error)}`),
  });

  connection.onRequest(
    openPictureRequest,
    guarded<OpenPictureParams, WholePicture | null>(
      log,
      'picture',
      null,
      async (params) => (await pictures.open(sameSpelling(params.uri), params)) ?? null,
    ),
  );

  connection.onNotification(
    closePictureNotification,
    guardedTask<[PictureParams]>(log, 'closed picture', ({ uri }) => pictures.close(sameSpelling(uri))),
  );

  connection.onRequest(
    pictureFiguresRequest,
    guarded<FiguresParams, SentFigures | null>(log, 'figures', null, async ({ uri, caseName }) => {
      const of = await analysis(sameSpelling(uri));
      const figures = of === undefined ? undefined : figuresOf(of, caseName);
      return figures === undefined ? null : sentFigures(figures);
    }),
  );

  connection.onRequest(
    pictureTraceRequest,
    guarded<TraceParams, TraceAnswer>(log, 'trace', null, async ({ uri, caseName, load }) => {
      const of = await analysis(sameSpelling(uri));
      return (of === undefined ? undefined : traceOf(of, load, caseName)) ?? null;
    }),
  );

  connection.onRequest(
    pictureCardRequest,
    guarded<CardParams, CardAnswer | null>(log, 'card', null, async ({ uri, part: name }) => {
      const of = await analysis(sameSpelling(uri));
      const part = of?.model.parts.get(name);
      if (of === undefined || part === undefined || !hasCard(part)) return null;
      const card = cardOf(of, part);
      return { svg: drawCard(card, { colours: 'variables', size: 'full' }), spoken: card.spoken };
    }),
  );

  connection.onRequest(
    pictureSourceRequest,
    guarded<SourceParams, SourceAnswer>(log, 'place of an element', null, async ({ uri, element }) => {
      const found = await pictures.sourceOf(sameSpelling(uri), element);
      return found === undefined ? null : { ...found, uri: clientUri(found.uri) };
    }),
  );

  connection.onRequest(
    pictureExportRequest,
    guarded<ExportParams, ExportAnswer>(log, 'picture as a file', null, (params) =>
      pictures.exported(sameSpelling(params.uri), params, new Date()),
    ),
  );

  connection.onRequest(
    pictureElementsRequest,
    guarded<ElementsParams, readonly string[]>(log, 'elements at a place', [], ({ uri, file, position }) =>
      pictures.elementsAt(sameSpelling(uri), sameSpelling(file), position),
    ),
  );

  return pictures;
}
