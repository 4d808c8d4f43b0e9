/** One picture beside its text: a page, what it is told, and what it asks for. */
import {
  type Disposable,
  l10n,
  Position,
  Range,
  Selection,
  type TextEditor,
  TextEditorRevealType,
  Uri,
  ViewColumn,
  type WebviewPanel,
  window,
  workspace,
} from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  closePictureNotification,
  type ExportAnswer,
  type ExportFormat,
  type OpenPictureParams,
  openPictureRequest,
  type PictureChange,
  type PictureFacts,
  pictureCardRequest,
  pictureElementsRequest,
  pictureExportRequest,
  pictureFiguresRequest,
  pictureSourceRequest,
  pictureTraceRequest,
  type SourceAnswer,
  type WholePicture,
} from '../../server/session/picture-protocol.ts';
import { newNonce, pageHtml } from './html.ts';
import type { FromPage, Question, SavedView, ToPage } from './messages.ts';

const requests: Readonly<Record<Question, string>> = {
  figures: pictureFiguresRequest,
  trace: pictureTraceRequest,
  card: pictureCardRequest,
};

/** A cursor that rests for so long is followed, in milliseconds. */
const cursorRest = 80;

export class PicturePanel implements Disposable {
  /** Of the newest picture; undefined until there is one. */
  facts: PictureFacts | undefined;
  private follows: boolean | undefined;
  private resting: ReturnType<typeof setTimeout> | undefined;
  /** The selection that was made from the picture: it shows that already. */
  private own: { readonly uri: string; readonly range: Range } | undefined;
  private readonly listening: Disposable[];
  private readonly waiting: (() => void)[] = [];

  constructor(
    private readonly panel: WebviewPanel,
    readonly uri: Uri,
    extension: Uri,
    private readonly client: BaseLanguageClient,
    disposed: (panel: PicturePanel) => void,
  ) {
    const { webview } = panel;
    const dist = Uri.joinPath(extension, 'dist');
    panel.title = l10n.t('Picture of {0}', fileName(uri));
    const icon = (theme: string) => Uri.joinPath(extension, 'client', 'media', `file-${theme}.svg`);
    panel.iconPath = { light: icon('light'), dark: icon('dark') };
    webview.options = { enableScripts: true, localResourceRoots: [dist] };
    this.listening = [
      webview.onDidReceiveMessage((message: FromPage) => this.hear(message)),
      panel.onDidDispose(() => {
        disposed(this);
        this.dispose();
      }),
    ];
    webview.html = pageHtml({
      script: webview.asWebviewUri(Uri.joinPath(dist, 'picture.js')).toString(),
      style: webview.asWebviewUri(Uri.joinPath(dist, 'picture.css')).toString(),
      source: webview.cspSource,
      nonce: newNonce(),
      title: panel.title,
      uri: uri.toString(),
    });
  }

  get isVisible(): boolean {
    return this.panel.visible;
  }

  private get isFollowing(): boolean {
    return this.follows ?? workspace.getConfiguration('ampscribe', this.uri).get('picture.followCursor', true);
  }

  show(): void {
    this.panel.reveal(undefined, true);
  }

  changed(change: PictureChange): void {
    this.facts = change.facts;
    this.tell({ say: 'change', change });
  }

  chooseCase(name: string): void {
    this.tell({ say: 'case', name });
  }

  /** Once a picture has been drawn. */
  async drawn(): Promise<void> {
    if (this.facts === undefined) await new Promise<void>((done) => this.waiting.push(done));
  }

  /** After the server was started anew. */
  reopen(): void {
    this.tell({ say: 'again' });
  }

  cursorAt({ document, selection }: TextEditor): void {
    clearTimeout(this.resting);
    if (!this.isFollowing || !this.isVisible || this.isOwn(document.uri, selection)) return;
    this.resting = setTimeout(async () => {
      const elements = await this.ask<readonly string[]>(pictureElementsRequest, {
        file: document.uri.toString(),
        position: this.client.code2ProtocolConverter.asPosition(selection.active),
      });
      if (elements !== undefined) this.tell({ say: 'show', elements });
    }, cursorRest);
  }

  dispose(): void {
    clearTimeout(this.resting);
    for (const one of this.listening) one.dispose();
    if (this.client.isRunning())
      void this.client.sendNotification(closePictureNotification, { uri: this.uri.toString() });
  }

  private async hear(message: FromPage): Promise<void> {
    switch (message.say) {
      case 'ready':
        this.follows = message.view.follow;
        return this.open(message.view);
      case 'ask': {
        const answer = await this.ask(requests[message.what], message.params);
        this.tell({
          say: 'answer',
          id: message.id,
          answer: answer ?? null,
          ...(answer === undefined ? { failed: true } : {}),
        });
        return;
      }
      case 'reveal':
        return this.reveal(message.element, message.focus);
      case 'place': {
        const at = new Position(message.line, message.character);
        return this.goTo(Uri.parse(message.uri), new Range(at, at), true);
      }
      case 'export':
        return this.save(message.format, message.view);
      case 'follow':
        this.follows = message.follow;
        return;
    }
  }

  private async open({ places, asItStands }: SavedView): Promise<void> {
    try {
      // An open document is followed at every key press.
      await workspace.openTextDocument(this.uri);
    } catch {
      this.tell({ say: 'trouble', message: l10n.t('{0} cannot be opened: is it still there?', fileName(this.uri)) });
      return;
    }
    const params: OpenPictureParams = { uri: this.uri.toString(), places, asItStands };
    const picture = await this.ask<WholePicture | null>(openPictureRequest, params);
    if (picture === undefined || picture === null) {
      const message = l10n.t('The picture could not be drawn. Ampscribe’s log in the output view says why.');
      this.tell({ say: 'trouble', message });
      return;
    }
    this.facts = picture.facts;
    for (const done of this.waiting.splice(0)) done();
    this.tell({ say: 'whole', picture, file: fileName(this.uri), follows: this.isFollowing });
  }

  private async save(format: ExportFormat, { caseName, shade }: SavedView): Promise<void> {
    const answer = await this.ask<ExportAnswer>(pictureExportRequest, { format, caseName, shade });
    if (answer === undefined || answer === null || 'trouble' in answer) {
      const why = answer === undefined || answer === null ? l10n.t('The picture could not be saved.') : answer.trouble;
      void window.showWarningMessage(why);
      return;
    }
    const target = await window.showSaveDialog({
      defaultUri: this.uri.with({ path: `${this.uri.path.replace(/\.amps$/, '')}.${format}` }),
      filters: { [format.toUpperCase()]: [format] },
    });
    if (target === undefined) return;
    const bytes = Uint8Array.from(atob(answer.base64), (letter) => letter.charCodeAt(0));
    await workspace.fs.writeFile(target, bytes);
    void window.showInformationMessage(l10n.t('{0} is saved.', fileName(target)));
  }

  private async reveal(element: string, focus: boolean): Promise<void> {
    const found = await this.ask<SourceAnswer>(pictureSourceRequest, { element });
    if (found === undefined || found === null) return;
    const { uri, range } = found;
    await this.goTo(Uri.parse(uri), this.client.protocol2CodeConverter.asRange(range), focus);
  }

  /** In the editor that shows it already, else beside the picture. */
  private async goTo(uri: Uri, range: Range, focus: boolean): Promise<void> {
    this.own = { uri: uri.toString(), range };
    const shown = window.visibleTextEditors.find(({ document }) => document.uri.toString() === uri.toString());
    const other = this.panel.viewColumn === ViewColumn.One ? ViewColumn.Beside : ViewColumn.One;
    const editor = await window.showTextDocument(await workspace.openTextDocument(uri), {
      viewColumn: shown?.viewColumn ?? other,
      preserveFocus: !focus,
    });
    editor.selection = new Selection(range.start, range.end);
    editor.revealRange(range, TextEditorRevealType.InCenterIfOutsideViewport);
  }

  private isOwn(uri: Uri, selection: Range): boolean {
    return this.own?.uri === uri.toString() && selection.isEqual(this.own.range);
  }

  /** Undefined where the server could not answer. */
  private async ask<Answer>(method: string, params: object): Promise<Answer | undefined> {
    try {
      return await this.client.sendRequest<Answer>(method, { uri: this.uri.toString(), ...params });
    } catch {
      return undefined;
    }
  }

  private tell(message: ToPage): void {
    void this.panel.webview.postMessage(message);
  }
}

function fileName({ path }: Uri): string {
  return path.slice(path.lastIndexOf('/') + 1);
}
