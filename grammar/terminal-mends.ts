/** Terminals written otherwise than with one colon between the part and its mark. */
import { type Mend, spanOf, textOf, writtenAs } from './mend.ts';
import { behindPoint, notAName } from './name-problems.ts';
import { problem, replace } from './phrases.ts';
import type { Atom, Problem, TerminalAtom } from './tree.ts';

/** `B1+`, `F1.in`, `F1/in` or `Q1.2` for `B1:+`, `F1:in`, `Q1:2`; `at` is behind a name, or a name with a slash in it. */
export function joinedTerminal(atoms: readonly Atom[], at: number): Mend[] {
  const apart = [...pointedPart(atoms, at), ...colonApart(atoms, at)];
  if (apart.length > 0) return apart;
  const other = [...inBrackets(atoms, at), ...poleApart(atoms, at), ...signApart(atoms, at)];
  if (other.length > 0) return other;
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
      if ((name?.kind !== 'word' && name?.kind !== 'number' && !isSign(name)) || name?.leading !== '') return [];
      end += 2;
      if (isSign(name)) return signBehind(atoms.slice(from, end), from, part.value);
    } else if (mark?.kind === 'number' && mark.text.startsWith('.')) end += 1;
    else if (mark?.text !== '+') return [];
  }
  if (glued()?.text === '+') end += 1;
  // `U1-bat+`: names are mostly in capitals.
  const dash = slash < 0 && atoms[end - 1]?.text === '+' ? (/-(?=\p{Ll}+$)/u.exec(part.text)?.index ?? -1) : -1;
  const some = atoms.slice(from, end);
  const text = textOf(some);
  const length = slash > 0 ? slash : dash > 0 ? dash : part.text.length;
  const terminal = text.slice(length).replace(/^[./-]/, '');
  const right = `${text.slice(0, length)}:${terminal}`;
  const put = terminalOf(text.slice(0, length), terminal, some);
  return terminal === '' ? [] : [writtenAs(some, from, right, [put])];
}

/** `LAMP.+`. */
function signBehind(some: readonly Atom[], from: number, part: string): Mend[] {
  const sign = some.at(-1)?.text === '+' ? '+' : '-';
  return [writtenAs(some, from, `${part}:${sign}`, [terminalOf(part, sign, some)])];
}

/** `U1:bat +` for `U1:bat+`; `at` is behind the terminal. */
function signApart(atoms: readonly Atom[], at: number): Mend[] {
  const [terminal, sign, next] = [atoms[at - 1], atoms[at], atoms[at + 1]];
  if (terminal?.kind !== 'terminal' || !/\p{L}$/u.test(terminal.terminal) || sign === undefined || !isSign(sign))
    return [];
  if (next !== undefined && !(next.kind === 'word' && next.value === 'to')) return [];
  const some = [terminal, sign];
  const whole = `${terminal.terminal}${sign.text}`;
  return [
    writtenAs(some, at - 1, `${terminal.part}:${whole}`, [
      {
        ...terminal,
        terminal: whole,
        span: spanOf(some),
        terminalSpan: { ...terminal.terminalSpan, end: sign.span.end },
      },
    ]),
  ];
}

/** `F1.1:in`: the name has a point, and its terminal the colon that belongs there. Read is the name before the point, as in a head. */
function pointedPart(atoms: readonly Atom[], at: number): Mend[] {
  const part = atoms[at - 1];
  const behind = behindPoint(atoms, at);
  const colon = behind.findIndex(({ text }) => text === ':');
  const terminal = textOf(behind.slice(colon + 1));
  if (part?.kind !== 'word' || colon < 1 || !/^(?:[\p{L}\p{N}_]+[+-]?|[+-])$/u.test(terminal)) return [];
  const put = terminalOf(part.value, terminal, [part, ...behind]);
  const told = notAName([part, ...behind.slice(0, colon)]);
  return [{ at: at - 1, remove: 1 + behind.length, put: [put], problem: told }];
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

/** `F1(in)` or `F1[in]`. */
function inBrackets(atoms: readonly Atom[], at: number): Mend[] {
  const part = atoms[at - 1];
  if (part?.kind !== 'word' || atoms[at]?.leading !== '') return [];
  let end = at;
  while (atoms[end]?.leading === '' && end < at + 4) end += 1;
  const some = atoms.slice(at - 1, end);
  const [, terminal] = /^[([]([\p{L}\p{N}_]+[+-]?|[+-])[)\]]$/u.exec(textOf(some.slice(1))) ?? [];
  if (terminal === undefined) return [];
  return [writtenAs(some, at - 1, `${part.value}:${terminal}`, [terminalOf(part.value, terminal, some)])];
}

/** Of several terminals without their colon one problem tells: whoever writes one so writes all so. */
export function colonsOnce(problems: readonly Problem[], text: string): readonly Problem[] {
  const edits = problems.map((one) => {
    const [fix, another] = one.fixes ?? [];
    const [edit, further] = fix?.edits ?? [];
    const isSure = fix?.safe === true && another === undefined && further === undefined;
    return edit !== undefined && isSure && putsColon(text.slice(edit.span.start, edit.span.end), edit.newText)
      ? edit
      : undefined;
  });
  const alike = edits.filter((edit) => edit !== undefined);
  if (alike.length < 2) return problems;
  const right = alike.map(({ newText }) => newText);
  const message = `Between a part and its terminal stands a colon: write ${right.slice(0, -1).join(', ')} and ${right.at(-1)}.`;
  const first = edits.findIndex((edit) => edit !== undefined);
  const fixes = [{ title: 'Write the colons', safe: true, edits: alike }];
  return problems.flatMap((one, i) => {
    if (edits[i] === undefined) return [one];
    return i === first ? [problem('unknown-clause', one.span, message, fixes)] : [];
  });
}

/** `F1:in` for `F1.in`, `F1(in)` or `F1 in`. */
function putsColon(written: string, right: string): boolean {
  const plain = (said: string) => said.replace(/[^\p{L}\p{N}_+-]+/gu, '');
  return /^[^\s:]+:[^\s:]+$/u.test(right) && plain(written) === plain(right);
}

/** Words for the poles of a battery that no terminal is called by. */
export const signs: ReadonlyMap<string, string> = new Map([
  ['positive', '+'],
  ['positiv', '+'],
  ['positif', '+'],
  ['pos', '+'],
  ['plus', '+'],
  ['negative', '-'],
  ['negativ', '-'],
  ['négatif', '-'],
  ['neg', '-'],
  ['minus', '-'],
  ['moins', '-'],
]);

/** `B1 +`, `B1 positive` or `U1 bat+` where a core ends: before its “to”, or behind it and before the end of the clause. */
function poleApart(atoms: readonly Atom[], at: number): Mend[] {
  const [before, part, pole] = [atoms[at - 2], atoms[at - 1], atoms[at]];
  if (part?.kind !== 'word' || part.value === 'to' || pole === undefined || pole.leading === '') return [];
  const isWord = pole.kind === 'word' && pole.value !== 'to' && pole.value !== 'and';
  if (!isWord && !isSign(pole)) return [];
  let end = at + 1;
  if (isWord && isSign(atoms[end]) && atoms[end]?.leading === '') end += 1;
  const next = atoms[end];
  const first = next?.kind === 'word' && next.value === 'to';
  const last = next === undefined && before?.kind === 'word' && before.value === 'to';
  if (!first && !last) return [];
  const some = atoms.slice(at - 1, end);
  const written = textOf(atoms.slice(at, end));
  const terminal = signs.get(written) ?? written;
  const right = `${part.value}:${terminal}`;
  const told = problem(
    'unknown-clause',
    spanOf(some),
    `A colon is missing between a part and its terminal: write ${right}.`,
    [replace(`Write ${right}`, spanOf(some), right, true)],
  );
  return [{ at: at - 1, remove: some.length, put: [terminalOf(part.value, terminal, some)], problem: told }];
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
