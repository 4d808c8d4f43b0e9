/** The side: what is chosen, the way that is traced, the findings, and what could not be drawn. */
import { caution } from '../../../server/reports/caution.ts';
import type { Trace } from '../../../server/reports/picture/trace.ts';
import type { SentMark } from '../../../server/session/picture-protocol.ts';
import { type Chosen, type ChosenEvents, chosenPane } from './chosen-pane.ts';
import { make } from './dom.ts';
import { counted, findingsList } from './findings-pane.ts';
import { tracePane } from './trace-pane.ts';

export interface SideContent {
  readonly chosen: Chosen | undefined;
  readonly trace: Trace | undefined;
  readonly marks: readonly SentMark[];
  readonly undrawn: readonly string[];
}

export interface SideEvents extends ChosenEvents {
  pressed(id: string): void;
}

const padding = 24;

export class Side {
  readonly element = make('aside', { class: 'side', 'aria-label': 'Details', tabindex: -1 });
  private last: SideContent | undefined;

  constructor(private readonly events: SideEvents) {
    new ResizeObserver(([entry]) => {
      const width = Math.round(entry?.contentRect.width ?? 0);
      // The stairs are as wide as the side.
      if (this.last?.trace !== undefined && Math.abs(width - this.drawnWidth) > 8) this.show(this.last);
    }).observe(this.element);
  }

  private drawnWidth = 0;

  show(content: SideContent): void {
    this.last = content;
    const { chosen, trace, marks, undrawn } = content;
    this.drawnWidth = this.element.clientWidth;
    const focused = this.focusedKey();
    const { scrollTop } = this.element;
    this.element.replaceChildren(
      ...(trace === undefined
        ? []
        : [
            section(
              `Circuit of ${trace.load}`,
              tracePane(trace, Math.max(220, this.element.clientWidth - padding), this.events.pressed),
            ),
          ]),
      ...(chosen === undefined ? [] : [section(nameOf(chosen), chosenPane(chosen, this.events))]),
      section(
        `Findings: ${counted(marks)}`,
        marks.length === 0
          ? make('p', { class: 'note' }, 'Nothing to mend that Ampscribe can see.')
          : findingsList(marks, this.events.pressedMark),
      ),
      ...(undrawn.length === 0
        ? []
        : [section('Not drawn', make('ul', { class: 'undrawn' }, ...undrawn.map((why) => make('li', {}, why))))]),
      make('p', { class: 'note' }, caution),
    );
    this.element.scrollTop = scrollTop;
    this.refocus(focused);
  }

  /** Whatever is drawn anew keeps the focus where it was. */
  private focusedKey(): string | undefined {
    const { activeElement } = document;
    if (activeElement === null || !this.element.contains(activeElement)) return undefined;
    return (
      activeElement.getAttribute('data-mark') ??
      activeElement.getAttribute('data-id') ??
      activeElement.textContent ??
      ''
    );
  }

  private refocus(key: string | undefined): void {
    if (key === undefined) return;
    for (const one of this.element.querySelectorAll<HTMLElement>('button, [tabindex="0"]'))
      if ([one.dataset.mark, one.dataset.id, one.textContent].includes(key)) {
        one.focus({ preventScroll: true });
        return;
      }
  }
}

function section(title: string, inside: HTMLElement): HTMLElement {
  return make('section', {}, make('h2', {}, title), inside);
}

function nameOf({ element }: Chosen): string {
  if (element.is === 'core')
    return element.colourWord === undefined ? element.run : `${element.run} ${element.colourWord}`;
  return element.is === 'passage' ? element.enclosure : element.name;
}
