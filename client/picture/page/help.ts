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
        'With the pointer: drag or turn the wheel to move, turn it with Control held to make larger or smaller. Press a part, a cable or a finding to see it at the side and its line in the text.',
      ),
      make(
        'p',
        {},
        'Contacts are drawn at rest: switches open, coils without current. With a case chosen they stand as they do in it.',
      ),
      button('Close', () => this.element.close()),
    );
    this.element.addEventListener('close', () => this.closed());
  }

  show(): void {
    if (!this.element.open) this.element.showModal();
  }
}
