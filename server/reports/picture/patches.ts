/** What a view has to change to show the next drawing; elements of which nothing changed are the same objects. */
import type { Patch, PatchesBetween } from './scene.ts';

export const patchesBetween: PatchesBetween = (before, after) => {
  const patches: Patch[] = [];
  for (const id of before.elements.keys()) if (!after.elements.has(id)) patches.push({ does: 'remove', id });
  for (const [id, element] of after.elements)
    if (before.elements.get(id) !== element) patches.push({ does: 'put', id, element });
  if (before.marks !== after.marks) patches.push({ does: 'marks', marks: after.marks });
  if (before.size !== after.size) patches.push({ does: 'size', size: after.size });
  return patches;
};
