/** What stays live when a switch, isolator or relay is open, all its poles together. */
import type { Answers } from '../../answers/answers.ts';
import type { Part, Terminal } from '../../model/model.ts';
import { reach } from '../../rules/reach.ts';
import { listed } from '../figures.ts';

/** Sentences for its card; none of what opens nothing. */
export function whenOpen(answers: Answers, part: Part): readonly string[] {
  const sides = (answers.contacts.get(part.name) ?? []).map((figures) => liveSides(figures, answers));
  const both = sides.find((one) => one !== undefined);
  if (both !== undefined && part.kind.word !== 'fusebox')
    return [`Open, both its sides stay live: one by ${listed(both[0])}, the other by ${listed(both[1])}.`];
  const isSwitch = part.contacts.some(({ operated }) => operated === 'hand' || operated === 'position');
  return isSwitch ? ['Switched off, its supply side stays live.'] : [];
}

type Contact = NonNullable<ReturnType<Answers['contacts']['get']>>[number];

/** The sources on either side of a contact, where there are some on both with all poles of its part open. */
function liveSides(
  { part, pole, isReturn }: Contact,
  { network, directions }: Answers,
): readonly [readonly string[], readonly string[]] | undefined {
  const contact = part.contacts.find((one) => one.pole === pole);
  if (isReturn || contact === undefined) return undefined;
  const { forward, backward } = directions.ofContact(part, pole);
  const live = (end: string, sources: readonly Part[]) => {
    const from = part.terminals.find(({ spec }) => spec.name === end);
    if (from === undefined || sources.length === 0) return [];
    const reached = reach(from, network, (edge) => edge.is !== 'contact' || edge.part !== part);
    const isReached = ({ terminals }: Part) => terminals.some((terminal: Terminal) => reached.has(terminal));
    return sources.filter(isReached).map(({ name }) => name);
  };
  const [one, other] = [live(contact.from, forward.sources), live(contact.to, backward.sources)];
  return one.length > 0 && other.length > 0 ? [one, other] : undefined;
}
