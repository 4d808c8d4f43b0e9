/** Over the drawing: which case, shaded by what, whose way; find; larger, smaller, all; and what else there is. */
import type { ExportFormat, PictureFacts } from '../../../server/session/picture-protocol.ts';
import type { SavedView, Shade } from '../messages.ts';
import { button, chooser, make } from './dom.ts';
import type { Finder } from './finder.ts';

export interface ToolbarEvents {
  chooseCase(name: string): void;
  chooseShade(shade: Shade): void;
  trace(load: string): void;
  larger(): void;
  smaller(): void;
  fit(): void;
  follow(follow: boolean): void;
  places(places: boolean): void;
  pane(pane: boolean): void;
  help(): void;
  save(format: ExportFormat): void;
}

const shades = [
  { value: 'capacity', text: 'share of capacity' },
  { value: 'drop', text: 'voltage lost' },
  { value: 'none', text: 'not shaded' },
];

export class Toolbar {
  readonly element: HTMLElement;
  private readonly cases;
  private readonly shade;
  private readonly loads;
  private readonly follow: HTMLInputElement;
  private readonly places: HTMLInputElement;
  private readonly pane: HTMLButtonElement;

  constructor(events: ToolbarEvents, finder: Finder) {
    this.cases = chooser('Case', 'case', (name) => events.chooseCase(name));
    this.shade = chooser('Shade', 'shade', (value) => events.chooseShade(value as Shade));
    this.loads = chooser('Trace', 'trace', (name) => events.trace(name));
    this.follow = make('input', { type: 'checkbox', id: 'follow' });
    this.follow.addEventListener('change', () => events.follow(this.follow.checked));
    this.places = make('input', { type: 'checkbox', id: 'places' });
    this.places.addEventListener('change', () => events.places(this.places.checked));
    this.pane = button('Details', () => events.pane(this.pane.getAttribute('aria-pressed') !== 'true'), {
      title: 'Show or hide the details at the side',
    });
    const save = chooser('Save', 'save', (format) => {
      save.value = '';
      if (format !== '') events.save(format as ExportFormat);
    });
    save.offer(
      [
        { value: '', text: 'as …' },
        { value: 'svg', text: 'SVG' },
        { value: 'png', text: 'PNG' },
        { value: 'pdf', text: 'PDF' },
      ],
      '',
    );
    this.element = make(
      'header',
      { class: 'bar' },
      this.cases.whole,
      this.shade.whole,
      this.loads.whole,
      finder.element,
      make(
        'span',
        { class: 'zoom', role: 'group', 'aria-label': 'Size' },
        button('−', events.smaller, { 'aria-label': 'Smaller', title: 'Smaller (−)' }),
        button('Fit', events.fit, { title: 'Show all of it (0)' }),
        button('+', events.larger, { 'aria-label': 'Larger', title: 'Larger (+)' }),
      ),
      tick(this.follow, 'Follow the cursor'),
      tick(this.places, 'Places'),
      save.whole,
      this.pane,
      button('?', events.help, { 'aria-label': 'Keys', title: 'Keys (?)' }),
    );
  }

  show({ cases, loads }: PictureFacts, view: SavedView): void {
    this.cases.offer(
      [
        { value: '', text: 'none' },
        ...cases.map(({ name, title }) => ({ value: name, text: title === undefined ? name : `${name}: ${title}` })),
      ],
      view.caseName,
    );
    this.loads.offer(
      [
        { value: '', text: 'nothing' },
        ...loads.map(({ name, title }) => ({ value: name, text: title === undefined ? name : `${name}: ${title}` })),
      ],
      view.load,
    );
    this.shade.offer(shades, view.shade);
    this.follow.checked = view.follow ?? true;
    this.places.checked = view.places;
    this.pane.setAttribute('aria-pressed', String(view.pane));
  }
}

function tick(input: HTMLInputElement, words: string): HTMLElement {
  return make('label', { class: 'tick' }, input, words);
}
