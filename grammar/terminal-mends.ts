/** Terminals written otherwise than with one colon between the part and its mark. */
import { type Mend, spanOf, textOf, writtenAs } from './mend.ts';
import type { Atom, TerminalAtom } from './tree.ts';

/** `B1+`, `F1.in`, `F1/in` or `Q1.2` for `B1:+`, `F1:in`, `Q1:2`; `at` is behind a name, or a name with a slash in it. */
export function joinedTerminal(atoms: readonly Atom[], at: number): Mend[] {
  const apart = colonApart(atoms, at);
  if (apart.length > 0) return apart;
  const here = atoms[at];
  const slash = here?.kind === 'word' ? here.value.indexOf('/') : -1;
  const from = slash > 0 ? at : at - 1;
  const part = atoms[from];
  if (here === undefined || part?.kind !== 'word') return [];
  let end = from + 1;
  const glued = () => (atoms[end]?.leading === '' ? atoms[end] : undefined);
  if (slash < 0) {
    const mark = glued();
    if (mark?.kind === 'junk' && /^[./]$/.test(mark.text)) {
      const [name] = atoms.slice(end + 1);
      if ((name?.kind !== 'word' && name?.kind !== 'number') || name.leading !== '') return [];
      end += 2;
    } else if (mark?.kind === 'number' && mark.text.startsWith('.')) end += 1;
    else if (mark?.text !== '+') return [];
  }
  if (glued()?.text === '+') end += 1;
  const some = atoms.slice(from, end);
  const text = textOf(some);
  const length = slash > 0 ? slash : part.text.length;
  const terminal = text.slice(length).replace(/^[./]/, '');
  const right = `${text.slice(0, length)}:${terminal}`;
  const put = terminalOf(text.slice(0, length), terminal, some);
  return terminal === '' ? [] : [writtenAs(some, from, right, [put])];
}

const isColon = (atom: Atom | undefined) => atom?.kind === 'junk' && /^:+$/.test(atom.text);
const isSign = (atom: Atom | undefined) => atom?.kind === 'junk' && /^[+\-\u2212\u2013]$/.test(atom.text);

/** `F1 :in`, `F1: in` or `F1::in` for `F1:in`; `at` is behind the part, or behind the colon that touches it. */
function colonApart(atoms: readonly Atom[], at: number): Mend[] {
  const part = atoms[at - 1];
  let end = at;
  while (isColon(atoms[end])) end += 1;
  const apart = end > at;
  const name = atoms[end];
  const open = part?.kind === 'terminal' && part.terminal === '';
  if (!open && (part?.kind !== 'word' || !apart)) return [];
  if (name?.kind === 'word' || name?.kind === 'number') {
    end += 1;
    if (isSign(atoms[end]) && atoms[end]?.leading === '') end += 1;
  } else if (isSign(name)) end += 1;
  else return [];
  const some = atoms.slice(at - 1, end);
  const terminal = textOf(atoms.slice(at, end)).replace(/^:+\s*/, '');
  const value = part.kind === 'terminal' ? part.part : part.value;
  // Behind a second end a word that more follows begins another clause.
  const next = atoms[end];
  if (!apart && next !== undefined && !(next.kind === 'word' && next.value === 'to')) return [];
  return [writtenAs(some, at - 1, `${value}:${terminal}`, [terminalOf(value, terminal, some)])];
}

function terminalOf(part: string, terminal: string, written: readonly Atom[]): TerminalAtom {
  const { start, end } = spanOf(written);
  return {
    kind: 'terminal',
    part,
    terminal,
    span: { start, end },
    partSpan: { start, end: start + part.length },
    terminalSpan: { start: end - terminal.length, end },
    text: textOf(written),
    leading: written[0]?.leading ?? '',
  };
}
