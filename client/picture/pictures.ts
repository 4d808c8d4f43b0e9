/** All pictures that are open: each file has one, several files have several, and a reload brings them back. */
import { commands, type ExtensionContext, l10n, Uri, ViewColumn, window } from 'vscode';
import { type BaseLanguageClient, State } from 'vscode-languageclient';
import { type PictureChange, pictureChangedNotification } from '../../server/session/picture-protocol.ts';
import { readView } from './messages.ts';
import { PicturePanel } from './panel.ts';

const viewType = 'ampscribe.picture';

export function registerPictures({ extensionUri, subscriptions }: ExtensionContext, client: BaseLanguageClient): void {
  const panels = new Map<string, PicturePanel>();

  const keep = (panel: PicturePanel): PicturePanel => {
    panels.set(panel.uri.toString(), panel);
    return panel;
  };
  const forget = (panel: PicturePanel) => {
    if (panels.get(panel.uri.toString()) === panel) panels.delete(panel.uri.toString());
  };

  /** The picture of a spec: the one that is open, or a new one beside the text. */
  const show = (uri: Uri): PicturePanel => {
    const open = panels.get(uri.toString());
    if (open !== undefined) {
      open.show();
      return open;
    }
    const panel = window.createWebviewPanel(viewType, '', { viewColumn: ViewColumn.Beside, preserveFocus: true });
    return keep(new PicturePanel(panel, uri, extensionUri, client, forget));
  };

  /** The spec that is meant: the one handed in, that of the picture in front, or the one that is being read. */
  const meant = (handed: unknown): Uri | undefined => {
    if (handed instanceof Uri) return handed;
    // A lens hands in the address as text.
    if (typeof handed === 'string') return Uri.parse(handed);
    const { activeTextEditor } = window;
    if (activeTextEditor?.document.languageId === 'ampscribe') return activeTextEditor.document.uri;
    return [...panels.values()].find(({ isVisible }) => isVisible)?.uri;
  };

  const showMeant = (handed: unknown): PicturePanel | undefined => {
    const uri = meant(handed);
    if (uri !== undefined) return show(uri);
    void window.showInformationMessage(l10n.t('Open a wiring spec (a file that ends in .amps) to see its picture.'));
    return undefined;
  };

  subscriptions.push(
    commands.registerCommand('ampscribe.showPicture', (handed: unknown) => void showMeant(handed)),
    commands.registerCommand('ampscribe.showCase', async (handed: unknown, wanted: unknown) => {
      const panel = showMeant(handed);
      await panel?.drawn();
      const cases = panel?.facts?.cases ?? [];
      if (panel === undefined) return;
      const told = cases.find(({ name }) => name === wanted);
      if (told !== undefined) {
        panel.chooseCase(told.name);
        return;
      }
      const chosen = await window.showQuickPick(
        cases.map(({ name, title = '' }) => ({ label: name, description: title })),
        { title: l10n.t('Case to see in the picture') },
      );
      if (chosen !== undefined) panel.chooseCase(chosen.label);
    }),
    window.registerWebviewPanelSerializer(viewType, {
      async deserializeWebviewPanel(panel, state: unknown) {
        const { uri } = readView(state, '');
        if (uri === '') panel.dispose();
        else keep(new PicturePanel(panel, Uri.parse(uri), extensionUri, client, forget));
      },
    }),
    window.onDidChangeTextEditorSelection(({ textEditor }) => {
      for (const panel of panels.values()) panel.cursorAt(textEditor);
    }),
    client.onNotification(pictureChangedNotification, (change: PictureChange) =>
      panels.get(Uri.parse(change.uri).toString())?.changed(change),
    ),
    client.onDidChangeState(({ newState }) => {
      if (newState === State.Running) for (const panel of panels.values()) panel.reopen();
    }),
    {
      dispose: () => {
        for (const panel of panels.values()) panel.dispose();
      },
    },
  );
}
