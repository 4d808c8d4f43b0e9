/** The keys in the drawing, done: along the wires, in order, from finding to finding; larger and smaller. */
import type { Canvas } from './canvas.ts';
import { actionOf, type KeyAction, type Press } from './keys.ts';
import type { PictureModel } from './picture-model.ts';
import { type Direction, readingOrder, step } from './roving.ts';

export const zoomStep = 1.25;
const panStep = 60;

export interface WalkEvents {
  choose(id: string): void;
  /** Go to its words. */
  open(id: string): void;
  leave(): void;
  trace(load: string): void;
  find(): void;
  help(): void;
}

export class Walk {
  /** The part from which one went onto a core. */
  private came: string | undefined;

  constructor(
    private readonly model: PictureModel,
    private readonly canvas: Canvas,
    private readonly events: WalkEvents,
  ) {}

  press(event: Press & Pick<Event, 'preventDefault' | 'stopPropagation'>): void {
    const action = actionOf(event);
    if (action === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    this.act(action);
  }

  private act(action: KeyAction): void {
    const { canvas, events } = this;
    const { current } = canvas;
    switch (action.does) {
      case 'go':
        this.go(action.direction);
        break;
      case 'pan':
        this.pan(action.direction);
        break;
      case 'order':
        this.inOrder(action.to);
        break;
      case 'open':
        events.open(current);
        break;
      case 'choose':
        events.choose(current);
        break;
      case 'leave':
        events.leave();
        break;
      case 'larger':
        canvas.zoomBy(zoomStep);
        break;
      case 'smaller':
        canvas.zoomBy(1 / zoomStep);
        break;
      case 'fit':
        canvas.fitAll();
        break;
      case 'find':
        events.find();
        break;
      case 'trace':
        this.trace(current);
        break;
      case 'next-finding':
        this.toFinding(1);
        break;
      case 'last-finding':
        this.toFinding(-1);
        break;
      case 'help':
        events.help();
        break;
    }
  }

  private go(direction: Direction): void {
    const { current } = this.canvas;
    const next = step(this.model.elements, current, direction, this.came);
    if (next === undefined) return;
    if (this.model.elements.get(current)?.is === 'part') this.came = current;
    this.canvas.focus(next);
  }

  private pan(direction: Direction): void {
    const across = { left: panStep, right: -panStep, up: 0, down: 0 }[direction];
    const along = { left: 0, right: 0, up: panStep, down: -panStep }[direction];
    this.canvas.panBy(across, along);
  }

  private inOrder(to: 'first' | 'last' | 'next' | 'previous'): void {
    const order = readingOrder(this.model.elements);
    const at = order.indexOf(this.canvas.current);
    const id = order[{ first: 0, last: order.length - 1, next: at + 1, previous: at - 1 }[to]];
    if (id !== undefined) this.canvas.focus(id);
  }

  private trace(id: string): void {
    const element = this.model.elements.get(id);
    if (element?.is === 'part' && this.model.facts?.loads.some(({ name }) => name === element.name) === true)
      this.events.trace(element.name);
  }

  private toFinding(by: 1 | -1): void {
    const order = readingOrder(this.model.elements);
    const here = order.indexOf(this.canvas.current);
    const about = new Set(this.model.marks.map(({ element }) => element));
    const marked = order.filter((id) => about.has(id));
    const next =
      by === 1
        ? (marked.find((id) => order.indexOf(id) > here) ?? marked[0])
        : (marked.findLast((id) => order.indexOf(id) < here) ?? marked.at(-1));
    if (next === undefined) return;
    this.events.choose(next);
    this.canvas.focus(next);
  }
}
