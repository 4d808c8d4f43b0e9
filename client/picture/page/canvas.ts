/** The drawing in its window: nodes kept up to date, the part that is seen, and what is under the pointer. */
import { drawMark, layers } from '../../../server/reports/picture/draw-svg.ts';
import type { Look } from '../../../server/reports/picture/scene.ts';
import { type VoltsPlaces, voltsPlaces } from '../../../server/reports/picture/volts-places.ts';
import { drawWithFigures } from '../../../server/reports/picture/with-figures.ts';
import type { SavedView } from '../messages.ts';
import { make, makeSvg } from './dom.ts';
import { Nodes } from './nodes.ts';
import type { Changed, PictureModel } from './picture-model.ts';
import { middleOf, readingOrder } from './roving.ts';
import { importSvg } from './safe-svg.ts';
import { around, fitted, inSight, kept, pan, type Rect, type View, zoom } from './viewport.ts';

export interface CanvasEvents {
  /** Chosen by pointer. */
  pressed(id: string): void;
  pressedMark(mark: string): void;
  /** The focus came to it. */
  reached(id: string): void;
  moved(view: SavedView['window']): void;
}

/** What is set off from the rest. */
export interface Emphasis {
  readonly chosen: string;
  /** What the cursor in the text is at. */
  readonly shown: ReadonlySet<string>;
  /** On the way of a load; undefined when none is traced. */
  readonly traced: ReadonlySet<string> | undefined;
}

const drag = 4;
const wheelStep = 0.0015;

export class Canvas {
  readonly element: HTMLElement;
  /** Of the element that has or would get the focus. */
  current = '';
  private readonly svg = makeSvg('svg', {
    class: 'diagram',
    // Arrow keys are its own: a screen reader that reads line by line would keep them.
    role: 'application',
    'aria-roledescription': 'wiring picture',
    tabindex: -1,
  });
  private readonly camera = makeSvg('g', { role: 'none' });
  private readonly sheet = makeSvg('rect', { class: 'sheet' });
  private readonly nodes: Nodes;
  private view: View = { x: 0, y: 0, scale: 1 };
  private fits = true;
  private emphasis: Emphasis = { chosen: '', shown: new Set(), traced: undefined };
  private frame = 0;

  constructor(
    private readonly model: PictureModel,
    private readonly events: CanvasEvents,
    /** Words on an element for a screen reader. */
    private readonly spoken: (id: string) => string,
    keys: (event: KeyboardEvent) => void,
  ) {
    const groups = new Map<string, SVGElement>(
      [...layers, 'mark'].map((layer) => [
        layer,
        makeSvg('g', { 'data-layer': layer, role: 'none', 'aria-hidden': layer === 'mark' ? 'true' : undefined }),
      ]),
    );
    this.nodes = new Nodes(groups);
    this.camera.append(this.sheet, ...groups.values());
    this.svg.append(this.camera);
    this.element = make('div', { class: 'window' }, this.svg);
    this.svg.addEventListener('keydown', keys);
    this.svg.addEventListener('focusin', ({ target }) => {
      const id = idAt(target);
      if (id === undefined || !this.model.elements.has(id)) return;
      this.makeCurrent(id);
      this.events.reached(id);
    });
    this.listenToPointer();
    new ResizeObserver(() => this.resized()).observe(this.element);
  }

  get isFocused(): boolean {
    return this.svg.contains(document.activeElement);
  }

  setLabel(label: string): void {
    this.svg.setAttribute('aria-label', label);
  }

  render({ put, removed, marks, size }: Changed, look: Look): void {
    const hadFocus = this.isFocused;
    for (const id of removed) this.nodes.remove(id);
    // Volts give way to what has changed, wherever they stand.
    const drawn = look.figures === undefined ? put : this.model.elements.keys();
    const places = this.places(look);
    for (const id of drawn) this.draw(id, look, places);
    if (marks) this.drawMarks();
    if (size) {
      this.sheet.setAttribute('width', String(this.model.size.width));
      this.sheet.setAttribute('height', String(this.model.size.height));
      this.resized();
    }
    if (!this.model.elements.has(this.current)) this.current = readingOrder(this.model.elements)[0] ?? '';
    this.decorate();
    if (hadFocus && !this.isFocused) this.nodes.get(this.current)?.focus({ preventScroll: true });
  }

  /** Everything, in another look: what comes out the same stays as it is. */
  renderAll(look: Look): void {
    const places = this.places(look);
    for (const id of this.model.elements.keys()) this.draw(id, look, places);
    this.decorate();
  }

  emphasise(emphasis: Emphasis): void {
    this.emphasis = emphasis;
    this.decorate();
  }

  focus(id = this.current): void {
    this.makeCurrent(id);
    this.nodes.get(id)?.focus({ preventScroll: true });
    this.bringIntoSight([id]);
  }

  /** As little as it takes; nothing moves when all of it is seen. */
  bringIntoSight(ids: Iterable<string>): void {
    const pieces = [...ids].flatMap((id) => this.pieceOf(id) ?? []);
    const all = around(pieces);
    if (all === undefined) return;
    const next = inSight(this.view, all, this.room());
    if (next === this.view) return;
    this.glide(next);
    this.remember();
  }

  fitAll(): void {
    this.fits = true;
    this.glide(fitted(this.model.size, this.room()));
    this.events.moved(undefined);
  }

  zoomBy(factor: number, at = { x: this.room().width / 2, y: this.room().height / 2 }): void {
    this.moveTo(zoom(this.view, factor, at));
    this.remember();
  }

  panBy(dx: number, dy: number): void {
    this.moveTo(pan(this.view, dx, dy));
    this.remember();
  }

  restore(window: SavedView['window']): void {
    this.fits = window === undefined;
    if (window === undefined) this.resized();
    else this.moveTo(window);
  }

  private places(look: Look): VoltsPlaces {
    return voltsPlaces(this.model.elements.values(), this.model.marks, look);
  }

  private draw(id: string, look: Look, places: VoltsPlaces): void {
    const element = this.model.elements.get(id);
    if (element === undefined) return;
    const from = drawWithFigures(element, look, places);
    this.nodes.put({
      id,
      layer: element.is,
      from,
      draw: () => {
        const node = importSvg(from, document);
        // All that they say is in the name of the whole.
        for (const child of node?.children ?? []) child.setAttribute('aria-hidden', 'true');
        // A press between the strokes of a symbol is meant for it too.
        if (element.is === 'part') {
          const { x, y, width, height } = element.box;
          node?.prepend(makeSvg('rect', { class: 'hit', x, y, width, height }));
        }
        return node;
      },
    });
  }

  private drawMarks(): void {
    const now = new Set(this.model.marks.map(({ id }) => id));
    for (const [id] of [...this.nodes]) if (id.startsWith('mark:') && !now.has(id)) this.nodes.remove(id);
    for (const mark of this.model.marks) {
      const from = drawMark(mark);
      this.nodes.put({ id: mark.id, layer: 'mark', from, draw: () => importSvg(from, document) });
    }
  }

  private decorate(): void {
    const { chosen, shown, traced } = this.emphasis;
    this.svg.classList.toggle('tracing', traced !== undefined);
    for (const [id, node] of this.nodes) {
      const element = this.model.elements.get(id);
      if (element === undefined || element.is === 'passage') {
        node.setAttribute('role', 'none');
        node.removeAttribute('aria-label');
        node.setAttribute('aria-hidden', 'true');
        if (element?.is === 'passage') node.classList.toggle('traced', traced?.has(element.core) === true);
        continue;
      }
      node.setAttribute('role', 'img');
      node.setAttribute('aria-current', String(id === chosen));
      node.setAttribute('aria-label', this.spoken(id));
      node.setAttribute('tabindex', id === this.current ? '0' : '-1');
      node.classList.toggle('chosen', id === chosen);
      node.classList.toggle('shown', shown.has(id));
      node.classList.toggle('traced', traced?.has(id) === true);
    }
  }

  private makeCurrent(id: string): void {
    if (id === this.current) return;
    this.nodes.get(this.current)?.setAttribute('tabindex', '-1');
    this.current = id;
    this.nodes.get(id)?.setAttribute('tabindex', '0');
  }

  private pieceOf(id: string): Rect | undefined {
    const element = this.model.elements.get(id);
    if (element === undefined) return undefined;
    if (element.is === 'part') return element.box;
    const { x, y } = middleOf(element);
    return { x: x - 40, y: y - 20, width: 80, height: 40 };
  }

  private room() {
    return { width: this.element.clientWidth, height: this.element.clientHeight };
  }

  private resized(): void {
    if (this.fits) this.moveTo(fitted(this.model.size, this.room()));
    else this.moveTo(this.view);
  }

  private moveTo(view: View): void {
    cancelAnimationFrame(this.frame);
    this.view = this.fits ? view : kept(view, this.model.size, this.room());
    const { x, y, scale } = this.view;
    this.camera.setAttribute('transform', `translate(${x.toFixed(2)} ${y.toFixed(2)}) scale(${scale.toFixed(4)})`);
  }

  /** In a fifth of a second, or at once for those who want no motion. */
  private glide(to: View): void {
    if (matchMedia('(prefers-reduced-motion: reduce)').matches) {
      this.moveTo(to);
      return;
    }
    const { view: from } = this;
    const began = performance.now();
    const go = (now: number) => {
      const share = Math.min(1, (now - began) / 200);
      const eased = 1 - (1 - share) ** 3;
      const between = (a: number, b: number) => a + eased * (b - a);
      this.moveTo({ x: between(from.x, to.x), y: between(from.y, to.y), scale: between(from.scale, to.scale) });
      if (share < 1) this.frame = requestAnimationFrame(go);
    };
    this.frame = requestAnimationFrame(go);
  }

  private remember(): void {
    this.fits = false;
    this.events.moved(this.view);
  }

  private listenToPointer(): void {
    let from: { readonly x: number; readonly y: number; readonly view: View; moved: boolean } | undefined;
    this.element.addEventListener('pointerdown', ({ clientX, clientY, button }) => {
      if (button === 0 || button === 1) from = { x: clientX, y: clientY, view: this.view, moved: false };
    });
    this.element.addEventListener('pointermove', ({ clientX, clientY, pointerId }) => {
      if (from === undefined) return;
      const [dx, dy] = [clientX - from.x, clientY - from.y];
      if (!from.moved && Math.hypot(dx, dy) < drag) return;
      if (!from.moved) this.element.setPointerCapture(pointerId);
      from.moved = true;
      this.fits = false;
      this.moveTo(pan(from.view, dx, dy));
    });
    const end = () => {
      if (from?.moved === true) this.remember();
      from = undefined;
    };
    this.element.addEventListener('pointerup', ({ target }) => {
      if (from?.moved === false) this.press(target);
      end();
    });
    this.element.addEventListener('pointercancel', end);
    this.element.addEventListener(
      'wheel',
      (event) => {
        event.preventDefault();
        const { left, top } = this.element.getBoundingClientRect();
        if (event.ctrlKey || event.metaKey)
          this.zoomBy(Math.exp(-event.deltaY * wheelStep * 4), { x: event.clientX - left, y: event.clientY - top });
        else this.panBy(event.shiftKey ? -event.deltaY : -event.deltaX, event.shiftKey ? 0 : -event.deltaY);
      },
      { passive: false },
    );
  }

  private press(target: EventTarget | null): void {
    const mark = target instanceof Element ? target.closest('.mark') : null;
    if (mark !== null) {
      this.events.pressedMark(mark.getAttribute('data-id') ?? '');
      return;
    }
    const id = idAt(target);
    if (id !== undefined) this.events.pressed(id);
  }
}

/** Of a terminal its part, of a passage its core. */
function idAt(target: EventTarget | null): string | undefined {
  if (!(target instanceof Element)) return undefined;
  const node = target.closest('[data-layer] > [data-id]');
  const id = node?.getAttribute('data-id') ?? undefined;
  return id?.startsWith('passage:') === true ? `core:${id.slice('passage:'.length).replace(/@.*$/, '')}` : id;
}
