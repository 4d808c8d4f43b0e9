/** Contacts as short circuits meet them, which the layout alone decides: what protects, and what parts one way while it closes another. */

import type { ContactSpec } from '../kinds/kind.ts';
import { keptWith, lazily } from '../model/lazily.ts';
import type { Part } from '../model/model.ts';
import type { ContactEdge, Layout } from '../model/network.ts';
import { arrangementOf } from './arrangement.ts';

export interface FaultContacts {
  /** Of protective devices, by part. */
  readonly devices: ReadonlyMap<Part, readonly ContactEdge[]>;
  /** Some contacts part one way while they close another, so that the nearest way may not be there. */
  changing(): boolean;
  /** A relay at rest does more than take the supply from what hangs behind it. */
  changesOver(): boolean;
}

/** How contacts are operated that close one way where they part another. */
const changing: ReadonlySet<ContactSpec['operated']> = new Set(['coil-rest', 'position']);

export const faultContactsOf = keptWith((layout: Layout): FaultContacts => contactsIn(layout));

/** Of a protective device, the last where several are numbered alike. */
export function deviceEdge(
  layout: Layout,
  device: { readonly part: Part; readonly pole: number } | undefined,
): ContactEdge | undefined {
  const edges = device === undefined ? undefined : faultContactsOf(layout).devices.get(device.part);
  if (device === undefined || edges === undefined) return undefined;
  for (let i = edges.length - 1; i >= 0; i--) if (edges[i]?.contact.pole === device.pole) return edges[i];
  return undefined;
}

function contactsIn(layout: Layout): FaultContacts {
  const contacts = layout.joints.filter((joint) => joint.is === 'contact');
  const devices = new Map<Part, ContactEdge[]>();
  for (const edge of contacts) {
    if (!edge.contact.protects) continue;
    const own = devices.get(edge.part);
    if (own === undefined) devices.set(edge.part, [edge]);
    else own.push(edge);
  }
  const leadsOn = leadingOn(layout);
  const { wiring, fedSides } = arrangementOf(layout);
  /** A resting contact that leads on, or another with something that feeds on either side, or on a loop. */
  const isChangeOver = (edge: ContactEdge): boolean => {
    const { operated } = edge.contact;
    if (operated === 'coil-rest') return leadsOn(edge);
    const way = operated === 'coil' ? wiring.wayOf[edge.index] : undefined;
    const fed = way === undefined ? undefined : fedSides(way);
    return way !== undefined && (fed === undefined || (fed.a && fed.b));
  };
  return {
    devices,
    changing: lazily(() => contacts.some((edge) => changing.has(edge.contact.operated) && leadsOn(edge))),
    changesOver: lazily(() => contacts.some(isChangeOver)),
  };
}

/** Whether something is joined to both ends of a contact. */
function leadingOn({ terminals, joints }: Layout): (edge: ContactEdge) => boolean {
  const joined = new Uint8Array(terminals.length);
  for (const { is, from, to } of joints) if (is === 'core' || is === 'bar') joined[from.index] = joined[to.index] = 1;
  return ({ from, to }) => joined[from.index] === 1 && joined[to.index] === 1;
}
