/** Findings as a list: the worst first, each a button that shows its words and its place in the drawing. */
import type { SentMark } from '../../../server/session/picture-protocol.ts';
import { make } from './dom.ts';

const order = ['error', 'warning', 'advice'] as const;
/** The same letters as on the drawing. */
const letters = { error: '!', warning: '?', advice: 'i' } as const;

export function findingsList(marks: readonly SentMark[], press: (mark: SentMark) => void): HTMLElement {
  const sorted = [...marks].sort((a, b) => order.indexOf(a.severity) - order.indexOf(b.severity));
  return make(
    'ul',
    { class: 'findings' },
    ...sorted.map((mark) => {
      const about = mark.element.replace(/^\w+:/, '').replace(/\/\d+$/, '');
      const row = make(
        'button',
        { type: 'button', class: `finding ${mark.severity}`, 'data-mark': mark.id },
        make('span', { class: 'letter', 'aria-hidden': 'true' }, letters[mark.severity]),
        make('span', { class: 'unseen' }, `${mark.severity}: `),
        make('span', { class: 'words' }, ...(about === '' ? [] : [make('b', {}, about), ' ']), mark.message),
      );
      row.addEventListener('click', () => press(mark));
      return make('li', {}, row);
    }),
  );
}

/** `2 errors, 1 warning`. */
export function counted(marks: readonly SentMark[]): string {
  const told = order.flatMap((severity) => {
    const count = marks.filter((mark) => mark.severity === severity).length;
    if (count === 0) return [];
    if (severity === 'advice') return [`${count} advice`];
    return [`${count} ${severity}${count === 1 ? '' : 's'}`];
  });
  return told.length === 0 ? 'no findings' : told.join(', ');
}
