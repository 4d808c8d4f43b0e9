/**
 * Selectors that cannot join both of their supplies: how a spec is joined in each of their positions. What flows in one
 * position does not flow in another, so that the devices of two supplies never add up behind such a selector.
 */
import { keptWith } from '../model/lazily.ts';
import type { Part } from '../model/model.ts';
import type { Joint, Layout } from '../model/network.ts';
import { selectorPositions } from './contacts-in-case.ts';

/** Where there are more, which would take long, all contacts are taken as closed: that lets more through, not less. */
const mostSettings = 16;

/**
 * The same layout for every setting, without the contacts that are open in it; none where every selector may join both of
 * its supplies. Joints keep their index.
 */
export const settingsOf = keptWith((layout: Layout): readonly Layout[] => {
  const selectors = layout.parts.filter(({ kind }) => kind.word === 'selector');
  let settings: readonly ReadonlyMap<Part, readonly string[]>[] = [new Map()];
  for (const part of selectors) {
    const positions = selectorPositions(part);
    if (positions.some((closed) => closed.length > 1)) continue;
    settings = settings.flatMap((one) => positions.map((closed) => new Map([...one, [part, closed]])));
    if (settings.length > mostSettings) return [];
  }
  if (settings.every(({ size }) => size === 0)) return [];
  return settings.map((setting) => {
    const isClosed = (joint: Joint) =>
      joint.is !== 'contact' || (setting.get(joint.part)?.includes(joint.contact.from) ?? true);
    return { ...layout, joints: layout.joints.filter(isClosed) };
  });
});
