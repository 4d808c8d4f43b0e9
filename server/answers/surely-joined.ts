/** What is joined to what: surely, or however relays and selectors stand. Relays that change over, selectors and diodes surely join nothing. */
import type { Part, Terminal } from '../model/model.ts';
import type { Joint } from '../model/network.ts';
import { UnionFind } from '../physics/union-find.ts';
import type { Arrangement } from './arrangement.ts';
import type { Wiring } from './wiring.ts';

export interface Joined {
  /** Number of what is joined to a terminal. */
  net(terminal: Terminal): number;
}

export function surelyJoined(arrangement: Arrangement): Joined {
  return joinedBy(isSure, arrangement);
}

/** However its relays and selectors stand: what is apart here never meets. */
export function joinedAnyhow(arrangement: Arrangement): Joined {
  return joinedBy(() => true, arrangement);
}

export function joinedBy(
  may: (joint: Joint) => boolean,
  { layout, wiring }: Pick<Arrangement, 'layout'> & { readonly wiring: Pick<Wiring, 'terminals' | 'inner'> },
): Joined {
  const sets = new UnionFind(wiring.terminals.length);
  for (const joint of layout.joints) if (may(joint)) sets.join(joint.from.index, joint.to.index);
  for (const { from, to, is } of wiring.inner)
    if (is === 'common' || from.spec.polarity === '-') sets.join(from.index, to.index);
  return { net: (terminal) => sets.find(terminal.index) };
}

export function isSure(joint: Joint): boolean {
  return joint.is !== 'contact' || isSureContact(joint.part, joint.contact.operated);
}

function isSureContact(part: Part, operated: string): boolean {
  return operated === 'fixed' || operated === 'hand' || (operated === 'coil' && part.contacts.length === 1);
}
