/** What the keys do, over the drawing until it is put away. */
import { button, make } from './dom.ts';
import { keyHelp } from './keys.ts';

export class Help {
  readonly element: HTMLDialogElement;

  constructor(private readonly closed: () => void) {
    const rows = keyHelp.map(([keys, does]) =>
      make('tr', {}, make('th', { scope: 'row' }, keys), make('td', {}, does)),
    );
    this.element = make(
      'dialog',
      { class: 'help', 'aria-labelledby': 'help-title' },
      make('h2', { id: 'help-title' }, 'Keys in the picture'),
      make('table', {}, ...rows),
      make(
        'p',
        {},
        'With the pointer: drag to move, the wheel moves too, and with Control it makes larger or smaller. A press on a part, a cable or a finding shows its words.',
      ),
      button('Close', () => this.element.close()),
    );
    this.element.addEventListener('close', () => this.closed());
  }

  show(): void {
    if (!this.element.open) this.element.showModal();
  }
}
