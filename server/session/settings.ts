/** The client's settings: asked for by file where the client answers that, else as it hands them over. */
import type { Connection } from 'vscode-languageserver';
import { readSeverities, type SeveritySettings } from '../analysis.ts';
import { readShown, type Shown } from '../editor/shown.ts';
import { oneLine } from './guard.ts';

/** How long a client may take to answer before the usual settings stand in, in milliseconds. */
const longestWait = 1000;

const section = 'ampscribe';

/** How serious findings are told to be, and what is shown beside the text. */
export interface ClientSettings {
  readonly severities: SeveritySettings;
  readonly shown: Shown;
}

const read = (settings: unknown): ClientSettings => ({
  severities: readSeverities(settings),
  shown: readShown(settings),
});

export class Settings {
  private readonly known = new Map<string, ClientSettings>();
  private handed: ClientSettings = read(undefined);
  /** Counts changes, so that whoever keeps what was made with them can tell that it is old. */
  revision = 0;

  constructor(
    private readonly connection: Connection,
    private readonly asks: () => boolean,
  ) {}

  /** Settings that came with the start or with a change: what a client says that cannot be asked. */
  hand(settings: unknown): void {
    this.handed = read(own(settings));
    this.changed();
  }

  changed(): void {
    this.known.clear();
    this.revision += 1;
  }

  /** For a file, by the address the client knows it by. */
  async of(clientUri: string): Promise<ClientSettings> {
    if (!this.asks()) return this.handed;
    const known = this.known.get(clientUri);
    if (known !== undefined) return known;
    const { revision } = this;
    const answered = await this.ask(clientUri);
    if (revision === this.revision) this.known.set(clientUri, answered);
    return answered;
  }

  private async ask(scopeUri: string): Promise<ClientSettings> {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const late = new Promise<undefined>((resolve) => {
      timer = setTimeout(() => resolve(undefined), longestWait);
    });
    try {
      const asked: Promise<unknown> = this.connection.workspace.getConfiguration({ scopeUri, section });
      const answer = await Promise.race([asked, late]);
      // A client that answers nothing may have said it at the start.
      return answer === undefined || answer === null ? this.handed : read(answer);
    } catch (error) {
      this.connection.console.warn(`The settings could not be asked for: ${oneLine(error)}`);
      return this.handed;
    } finally {
      clearTimeout(timer);
    }
  }
}

/** Some clients hand over all settings, some only the server's own. */
function own(settings: unknown): unknown {
  return typeof settings === 'object' && settings !== null && section in settings
    ? (settings as Readonly<Record<string, unknown>>)[section]
    : settings;
}
