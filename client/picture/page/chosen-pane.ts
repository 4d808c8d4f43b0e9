/** What is chosen, at the side: its figures in the case, what is found about it, and its terminal card. */
import { volts } from '../../../server/reports/figures.ts';
import type { DrawnElement, PictureFigures } from '../../../server/reports/picture/scene.ts';
import { figuresSpoken } from '../../../server/reports/picture/with-figures.ts';
import type { CardAnswer, SentMark } from '../../../server/session/picture-protocol.ts';
import { button, make } from './dom.ts';
import { findingsList } from './findings-pane.ts';
import { importSvg } from './safe-svg.ts';

export interface Chosen {
  readonly element: DrawnElement;
  readonly figures: PictureFigures | undefined;
  readonly marks: readonly SentMark[];
  readonly card: CardAnswer | undefined;
  /** Draws current, and so can be traced. */
  readonly isLoad: boolean;
}

export interface ChosenEvents {
  open(id: string): void;
  trace(name: string): void;
  pressedMark(mark: SentMark): void;
}

export function chosenPane({ element, figures, marks, card, isLoad }: Chosen, events: ChosenEvents): HTMLElement {
  const { id } = element;
  const said = figuresSpoken(element, figures);
  const buttons = [
    button('Go to its line', () => events.open(id)),
    ...(isLoad && element.is === 'part' ? [button('Trace its circuit', () => events.trace(element.name))] : []),
  ];
  return make(
    'div',
    {},
    make('p', { class: 'told' }, wordsOf(element)),
    ...(said === '' ? [] : [make('p', { class: 'figures' }, make('b', {}, figures?.caseName ?? ''), ` ${said}`)]),
    make('p', { class: 'buttons' }, ...buttons),
    ...(marks.length === 0 ? [] : [findingsList(marks, events.pressedMark)]),
    ...terminals(element, figures, card !== undefined),
    ...cardOf(card),
  );
}

function wordsOf(element: DrawnElement): string {
  if (element.is !== 'passage') return element.spoken;
  return `${element.how} of ${element.enclosure}`;
}

/** Where a card shows them they need no list, but for their volts. */
function terminals(element: DrawnElement, figures: PictureFigures | undefined, hasCard: boolean): HTMLElement[] {
  if (element.is !== 'part' || element.terminals.length === 0) return [];
  const known = element.terminals.map(({ id, name, meaning }) => ({
    name: name === '' ? element.name : name,
    meaning,
    volts: volts(figures?.terminals.get(id)),
  }));
  if (hasCard && known.every((one) => one.volts === '')) return [];
  const rows = known.map((one) =>
    make('tr', {}, make('th', { scope: 'row' }, one.name), make('td', {}, one.meaning), make('td', {}, one.volts)),
  );
  return [make('table', { class: 'terminals' }, make('caption', { class: 'unseen' }, 'Terminals'), ...rows)];
}

function cardOf(card: CardAnswer | undefined): HTMLElement[] {
  const drawn = card === undefined ? undefined : importSvg(card.svg, document);
  if (card === undefined || drawn === undefined) return [];
  drawn.setAttribute('role', 'img');
  drawn.setAttribute('aria-label', card.spoken);
  return [make('div', { class: 'card', tabindex: 0, role: 'group', 'aria-label': 'Terminal card' }, drawn)];
}
