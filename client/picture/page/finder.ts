/** Find by name: a field, and what it finds as a list under it. */
import type { DrawnElement } from '../../../server/reports/picture/scene.ts';
import { make } from './dom.ts';
import { type Found, findByName } from './finding-names.ts';

/** More than anyone reads through. */
const most = 12;

export class Finder {
  readonly element: HTMLElement;
  private readonly input: HTMLInputElement;
  private readonly list: HTMLElement;
  private found: readonly Found[] = [];
  private active = 0;

  constructor(
    private readonly elements: () => Iterable<DrawnElement>,
    private readonly go: (id: string) => void,
    private readonly leave: () => void,
  ) {
    this.input = make('input', {
      type: 'text',
      id: 'find',
      role: 'combobox',
      placeholder: 'Find by name',
      'aria-label': 'Find by name',
      'aria-expanded': 'false',
      'aria-controls': 'found',
      'aria-autocomplete': 'list',
      autocomplete: 'off',
      spellcheck: 'false',
    });
    this.list = make('ul', { id: 'found', role: 'listbox', 'aria-label': 'Found', class: 'found', hidden: true });
    this.element = make('div', { class: 'finder' }, this.input, this.list);
    this.input.addEventListener('input', () => this.look());
    this.input.addEventListener('keydown', (event) => this.key(event));
    this.input.addEventListener('blur', () => this.close());
  }

  focus(): void {
    this.input.focus();
    this.input.select();
  }

  private look(): void {
    this.found = findByName(this.elements(), this.input.value).slice(0, most);
    this.active = 0;
    this.show();
  }

  private show(): void {
    const isOpen = this.found.length > 0;
    this.list.hidden = !isOpen;
    this.input.setAttribute('aria-expanded', String(isOpen));
    this.list.replaceChildren(
      ...this.found.map(({ name, detail }, index) => {
        const row = make(
          'li',
          { role: 'option', id: `found-${index}`, 'aria-selected': String(index === this.active) },
          make('b', {}, name),
          ` ${detail}`,
        );
        // Before the field loses the focus.
        row.addEventListener('pointerdown', (event) => {
          event.preventDefault();
          this.take(index);
        });
        return row;
      }),
    );
    if (isOpen) this.input.setAttribute('aria-activedescendant', `found-${this.active}`);
    else this.input.removeAttribute('aria-activedescendant');
  }

  private key(event: KeyboardEvent): void {
    const count = this.found.length;
    switch (event.key) {
      case 'ArrowDown':
      case 'ArrowUp':
        if (count === 0) return;
        this.active = (this.active + (event.key === 'ArrowDown' ? 1 : count - 1)) % count;
        this.show();
        break;
      case 'Enter':
        this.take(this.active);
        break;
      case 'Escape':
        this.close();
        this.leave();
        break;
      default:
        return;
    }
    event.preventDefault();
    event.stopPropagation();
  }

  private take(index: number): void {
    const found = this.found[index];
    if (found === undefined) return;
    this.close();
    this.go(found.id);
  }

  private close(): void {
    this.found = [];
    this.show();
  }
}
