/** The status entry: how many findings the spec in front has, and whether the server is there at all. */
import {
  DiagnosticSeverity,
  type Disposable,
  l10n,
  languages,
  StatusBarAlignment,
  type StatusBarItem,
  type TextEditor,
  ThemeColor,
  window,
} from 'vscode';
import { type BaseLanguageClient, State } from 'vscode-languageclient';

export class Status implements Disposable {
  private readonly item: StatusBarItem;
  private readonly listening: Disposable;
  private state: State = State.Stopped;

  constructor(
    private readonly languageId: string,
    client: BaseLanguageClient,
  ) {
    this.item = window.createStatusBarItem('ampscribe.findings', StatusBarAlignment.Left);
    this.item.name = 'Ampscribe';
    this.listening = client.onDidChangeState(({ newState }) => {
      this.state = newState;
      this.update();
    });
    this.update();
  }

  update(): void {
    const editor = window.activeTextEditor;
    if (editor?.document.languageId !== this.languageId) {
      this.item.hide();
      return;
    }
    if (this.state === State.Running) this.tellFindings(editor);
    else this.tellServer();
    this.item.show();
  }

  private tellFindings({ document }: TextEditor): void {
    const own = languages.getDiagnostics(document.uri).filter(({ source }) => source === 'ampscribe');
    const count = (severity: DiagnosticSeverity) => own.filter((one) => one.severity === severity).length;
    const errors = count(DiagnosticSeverity.Error);
    const warnings = count(DiagnosticSeverity.Warning);
    const told = [
      ...(errors > 0 ? [errors === 1 ? l10n.t('1 error') : l10n.t('{0} errors', errors)] : []),
      ...(warnings > 0 ? [warnings === 1 ? l10n.t('1 warning') : l10n.t('{0} warnings', warnings)] : []),
    ];
    this.item.text = `$(pencil) ${told.length === 0 ? l10n.t('Wiring: nothing to mend') : l10n.t('Wiring: {0}', told.join(', '))}`;
    this.item.tooltip = l10n.t(
      'What Ampscribe finds in this spec. It does not replace local codes or licensed practice.',
    );
    this.item.backgroundColor = undefined;
    this.item.command = 'ampscribe.showFindings';
  }

  private tellServer(): void {
    const starting = this.state === State.Starting;
    this.item.text = starting
      ? `$(loading~spin) ${l10n.t('Wiring: starting')}`
      : `$(warning) ${l10n.t('Wiring: not checked')}`;
    this.item.tooltip = starting
      ? l10n.t('Ampscribe is starting.')
      : l10n.t('Ampscribe’s server has stopped: open its log, or restart it from the command palette.');
    this.item.backgroundColor = starting ? undefined : new ThemeColor('statusBarItem.warningBackground');
    this.item.command = 'ampscribe.showLog';
  }

  dispose(): void {
    this.listening.dispose();
    this.item.dispose();
  }
}
