/** The page: what is chosen, and everything that follows from it. */
import type { Look, PictureFigures } from '../../../server/reports/picture/scene.ts';
import type { Trace } from '../../../server/reports/picture/trace.ts';
import { figuresSpoken } from '../../../server/reports/picture/with-figures.ts';
import {
  type CardAnswer,
  figuresFrom,
  type PictureChange,
  type SentMark,
  type WholePicture,
} from '../../../server/session/picture-protocol.ts';
import type { SavedView } from '../messages.ts';
import { ask, host } from './ask.ts';
import { Canvas } from './canvas.ts';
import { make } from './dom.ts';
import { Finder } from './finder.ts';
import { counted } from './findings-pane.ts';
import { Help } from './help.ts';
import { keyOfShades } from './key-of-shades.ts';
import { type Changed, PictureModel } from './picture-model.ts';
import { Side } from './side.ts';
import { Toolbar } from './toolbar.ts';
import { Walk, zoomStep } from './walk.ts';

export class App {
  private readonly model = new PictureModel();
  private readonly canvas: Canvas;
  private readonly side: Side;
  private readonly toolbar: Toolbar;
  private readonly finder: Finder;
  private readonly help = new Help(() => this.canvas.focus());
  private readonly walk: Walk;
  private readonly quiet = make('div', { class: 'quiet', role: 'status' });
  private readonly heading = make('h1', { class: 'unseen' }, 'Wiring picture');
  private readonly key = make('div', { class: 'key-place' });
  private readonly work = make('div', { class: 'work' });
  private figures: PictureFigures | undefined;
  private traced: Trace | undefined;
  private card: { readonly part: string; readonly answer: CardAnswer } | undefined;
  private shown: ReadonlySet<string> = new Set();
  private file = '';
  /** Counts what is asked, so that an answer to an older question is passed over. */
  private round = 0;

  constructor(private view: SavedView) {
    this.canvas = new Canvas(
      this.model,
      {
        pressed: (id) => {
          this.choose(id);
          host.postMessage({ say: 'reveal', element: id, focus: false });
        },
        pressedMark: (id) => this.pressMark(this.model.marks.find((mark) => mark.id === id)),
        reached: () => {},
        moved: (window) => this.set({ window }),
      },
      (id) => this.spoken(id),
      (event) => this.walk.press(event),
    );
    this.finder = new Finder(
      () => this.model.elements.values(),
      (id) => {
        this.choose(id);
        this.canvas.focus(id);
      },
      () => this.canvas.focus(),
    );
    this.walk = new Walk(this.model, this.canvas, {
      choose: (id) => this.choose(id),
      open: (id) => {
        this.choose(id);
        host.postMessage({ say: 'reveal', element: id, focus: true });
      },
      leave: () => {
        if (this.view.load === '') this.choose('');
        else this.trace('');
      },
      trace: (load) => this.trace(load),
      find: () => this.finder.focus(),
      help: () => this.help.show(),
    });
    this.side = new Side({
      pressed: (id) => {
        this.choose(id);
        this.canvas.bringIntoSight([id]);
      },
      open: (id) => host.postMessage({ say: 'reveal', element: id, focus: true }),
      trace: (name) => this.trace(name),
      pressedMark: (mark) => this.pressMark(mark),
    });
    this.toolbar = new Toolbar(
      {
        chooseCase: (name) => this.chooseCase(name),
        chooseShade: (shade) => {
          this.set({ shade });
          this.renderAll();
        },
        trace: (load) => this.trace(load),
        larger: () => this.canvas.zoomBy(zoomStep),
        smaller: () => this.canvas.zoomBy(1 / zoomStep),
        fit: () => this.canvas.fitAll(),
        follow: (follow) => {
          this.set({ follow });
          if (!follow) this.showAtCursor([]);
          host.postMessage({ say: 'follow', follow });
        },
        places: (places) => {
          this.set({ places });
          this.reload();
        },
        pane: (pane) => {
          this.set({ pane });
          this.showPane();
        },
        help: () => this.help.show(),
        save: (format) => host.postMessage({ say: 'export', format, view: this.view }),
      },
      this.finder,
    );
    this.work.append(make('div', { class: 'drawn' }, this.canvas.element, this.key), this.side.element);
    document.body.append(
      this.toolbar.element,
      this.quiet,
      make('main', {}, this.heading, this.work),
      this.help.element,
    );
    this.showPane();
    this.canvas.restore(view.window);
    this.reload();
  }

  reload(): void {
    host.postMessage({ say: 'ready', view: this.view });
  }

  begin(picture: WholePicture, file: string, follows: boolean): void {
    this.file = file;
    if (this.view.follow === undefined) this.view = { ...this.view, follow: follows };
    this.render(this.model.begin(picture));
    this.canvas.restore(this.view.window);
    void this.askAll();
  }

  change(change: PictureChange): void {
    const changed = this.model.apply(change);
    if (changed === undefined) this.reload();
    else {
      this.render(changed);
      void this.askAll();
    }
  }

  trouble(message: string): void {
    this.quiet.replaceChildren(message);
  }

  showAtCursor(elements: readonly string[]): void {
    this.shown = new Set(elements);
    this.emphasise();
    this.canvas.bringIntoSight(elements);
  }

  chooseCase(caseName: string): void {
    this.set({ caseName });
    // It may have been chosen over the text.
    if (this.model.facts !== undefined) this.toolbar.show(this.model.facts, this.view);
    void this.askAll();
  }

  private get look(): Look {
    const { shade } = this.view;
    return {
      colours: 'variables',
      ...(this.figures === undefined ? {} : { figures: this.figures }),
      ...(shade === 'none' ? {} : { shade }),
    };
  }

  private set(change: Partial<SavedView>): void {
    this.view = { ...this.view, ...change };
    host.setState(this.view);
  }

  private render(changed: Changed): void {
    this.canvas.render(changed, this.look);
    const { facts } = this.model;
    if (facts === undefined) return;
    // A case, a load or an element that was renamed or taken out is chosen no longer.
    const { caseName, load, chosen } = this.view;
    this.set({
      caseName: facts.cases.some(({ name }) => name === caseName) ? caseName : '',
      load: facts.loads.some(({ name }) => name === load) ? load : '',
      chosen: this.model.elements.has(chosen) ? chosen : '',
    });
    this.toolbar.show(facts, this.view);
    const title = `Wiring picture of ${facts.title === '' ? this.file : facts.title}`;
    this.heading.textContent = title;
    this.canvas.setLabel(
      `${title}: ${this.model.elements.size} parts, cables and boxes, ${counted(this.model.marks)}. Arrow keys go along the wires, a question mark lists all keys.`,
    );
    this.tellHeld();
  }

  private renderAll(): void {
    this.canvas.renderAll(this.look);
    const { shade, caseName } = this.view;
    const isShaded = shade !== 'none' && caseName !== '' && this.figures?.trouble === undefined;
    this.key.replaceChildren(...(isShaded ? [keyOfShades(shade)] : []));
    this.emphasise();
    this.showSide();
  }

  /** What depends on the newest text: figures, the trace, the card. What is shown stays until the answers are there. */
  private async askAll(): Promise<void> {
    this.round += 1;
    const { round } = this;
    const { caseName, load, chosen } = this.view;
    const traceCase = caseName === '' ? (this.model.facts?.cases[0]?.name ?? '') : caseName;
    const part = this.cardOf(chosen);
    const [figures, trace, card] = await Promise.all([
      caseName === '' ? null : ask('figures', { caseName }),
      load === '' || traceCase === '' ? null : ask('trace', { caseName: traceCase, load }),
      part === undefined ? null : ask('card', { part }),
    ]);
    if (round !== this.round) return;
    this.figures = figures === null ? undefined : figuresFrom(figures);
    this.traced = trace ?? undefined;
    this.card = part === undefined || card === null ? undefined : { part, answer: card };
    this.renderAll();
    this.tellHeld();
  }

  private cardOf(id: string): string | undefined {
    const element = this.model.elements.get(id);
    return element?.is === 'part' && this.model.facts?.cards.includes(element.name) === true ? element.name : undefined;
  }

  private choose(chosen: string): void {
    if (chosen === this.view.chosen) return;
    this.set({ chosen });
    this.emphasise();
    this.showSide();
    if (this.cardOf(chosen) !== undefined) void this.askAll();
  }

  private trace(load: string): void {
    this.set({ load });
    if (this.model.facts !== undefined) this.toolbar.show(this.model.facts, this.view);
    void this.askAll().then(() => {
      if (this.traced !== undefined) this.canvas.bringIntoSight(this.traced.elements);
    });
  }

  private pressMark(mark: SentMark | undefined): void {
    if (mark === undefined) return;
    if (this.model.elements.has(mark.element)) {
      this.choose(mark.element);
      this.canvas.bringIntoSight([mark.element]);
    }
    host.postMessage({ say: 'reveal', element: mark.id, focus: false });
  }

  private emphasise(): void {
    const elements = this.traced?.trouble === undefined ? this.traced?.elements : undefined;
    this.canvas.emphasise({
      chosen: this.view.chosen,
      shown: this.shown,
      traced: elements === undefined ? undefined : new Set(elements),
    });
  }

  private showPane(): void {
    this.work.classList.toggle('with-side', this.view.pane);
    this.side.element.hidden = !this.view.pane;
    if (this.model.facts !== undefined) this.toolbar.show(this.model.facts, this.view);
    this.showSide();
  }

  private showSide(): void {
    if (!this.view.pane) return;
    const element = this.model.elements.get(this.view.chosen);
    const { facts, marks } = this.model;
    this.side.show({
      chosen:
        element === undefined
          ? undefined
          : {
              element,
              figures: this.figures,
              marks: marks.filter((mark) => mark.element === element.id),
              card: element.is === 'part' && this.card?.part === element.name ? this.card.answer : undefined,
              isLoad: element.is === 'part' && facts?.loads.some(({ name }) => name === element.name) === true,
            },
      trace: this.traced,
      marks,
      undrawn: facts?.undrawn ?? [],
    });
  }

  private spoken(id: string): string {
    const element = this.model.elements.get(id);
    if (element === undefined || element.is === 'passage') return '';
    const marks = this.model.marks.filter((mark) => mark.element === id);
    const said = [element.spoken, figuresSpoken(element, this.figures)].filter((words) => words !== '');
    return [...said, ...(marks.length === 0 ? [] : [counted(marks)])].join('; ');
  }

  /** While something is written half way; and what is wrong with the case. */
  private tellHeld(): void {
    const held = this.model.facts?.held;
    if (held === undefined) {
      this.quiet.replaceChildren(this.figures?.trouble ?? '');
      return;
    }
    const show = make('button', { type: 'button' }, 'Show it');
    show.addEventListener('click', () =>
      host.postMessage({ say: 'place', uri: held.uri, line: held.at.line, character: held.at.character }),
    );
    const draw = make('button', { type: 'button' }, 'Draw it as it stands');
    draw.addEventListener('click', () => host.postMessage({ say: 'ready', view: { ...this.view, asItStands: true } }));
    const words = `The picture stays as it was while line ${held.at.line + 1} cannot be drawn.`;
    this.quiet.replaceChildren(make('span', { title: held.message }, words), show, draw);
  }
}
