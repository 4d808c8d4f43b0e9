/** A stud that no lug of its cable's size is made for. */
import type { Model, Part } from '../model/model.ts';
import { areaMm2 } from '../physics/conductors.ts';
import { lugs } from '../tables/lugs.ts';
import { lampSpec } from './language.ts';
import type { Reported, Rule } from './rule.ts';

const heavy = (battery: string) =>
  lampSpec({
    battery,
    fuse: 'fuse F1 80 A, bolt-in, 58 V, breaks 2 kA',
    load: 'load LAMP 600 W',
    feed: 'run W1 70 mm² red, 0.1 m, B1:+ to F1:in',
    out: 'run W2 70 mm² red, 1.2 m, F1:out to LAMP:+',
    back: 'run W3 70 mm² black, 1.3 m, LAMP:- to B1:-',
  });

export const rule: Rule = {
  slug: 'stud-mismatch',
  severity: 'warning',
  group: 'cable',
  reads: ['part.stud', 'run.size', 'run.ends'],
  page: {
    title: 'A stud that no lug of this cable fits',
    why: 'A lug with too large a hole touches its stud at the rim only; one whose hole is drilled out has no metal left to carry the current. Both get hot under load.',
    limit:
      'Lugs are made for studs in step with the cable: from M6 for 50 mm², from M8 for 70 mm², up to M10 for 2.5 mm², for instance (DIN 46235 and makers’ lists, from memory).',
    mend: 'Use a part whose studs suit the cable, or take the cable to a busbar and a smaller one from there, with a fuse of its own.',
    see: ['terminal-too-small-for-cable', 'too-many-on-one-stud'],
    wrong: [heavy('battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ, stud M6 # finds: stud-mismatch "stud M6"')],
    right: [heavy('battery B1 lead-acid, 12 V, 80 Ah, internal 15 mΩ, stud M8')],
  },
  ofPart(part) {
    const written = part.facts.written('stud');
    const thread = Number(written?.replace(/^M/i, ''));
    return written === undefined || !Number.isFinite(thread)
      ? undefined
      : ({ model }) => misfit(part, written, thread, model);
  },
};

function misfit(part: Part, written: string, thread: number, model: Model): Reported[] {
  const ending = [...model.runs.values()].filter(({ cores }) =>
    cores.some(({ from, to }) => from?.part === part || to?.part === part),
  );
  const misfits = ending.flatMap((run) => {
    const area = run.size === undefined ? undefined : areaMm2(run.size);
    const row = area === undefined ? undefined : lugs.find(({ toMm2 }) => area <= toMm2);
    if (area === undefined || row === undefined) return [];
    return thread < row.leastMm || thread > row.mostMm ? [{ run, area, row }] : [];
  });
  const [worst] = misfits.sort((a, b) => b.area - a.area);
  if (worst === undefined) return [];
  const { run, row } = worst;
  return [
    {
      message: `${part.name} has studs of ${written}, and lugs for the ${run.size?.written} of ${run.name} are made for M${row.leastMm} to M${row.mostMm}: use a part with studs that suit, or another cable.`,
      place: part.facts.place('stud'),
      subject: part.name,
      figures: { threadMm: thread, leastMm: row.leastMm, mostMm: row.mostMm, run: run.name },
      related: misfits.map((one) => ({ message: `${one.run.name} ends there`, place: one.run.sizePlace })),
    },
  ];
}
